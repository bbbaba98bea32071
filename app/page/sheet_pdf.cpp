#include "app/page/sheet_pdf.h"

#include <QPainterPath>
#include <QPdfWriter>
#include <algorithm>

#include "app/page/page_canvas.h"
#include "app/page/pdf_file.h"
#include "app/page/sheet_drawing.h"

namespace waybench {

namespace {

constexpr double kMargin = 14, kFoot = 10, kLongestDrawing = 82;

QString q(const std::string& s) {
    return QString::fromStdString(s);
}

/// Blocks one under the other, over as many pages as they take.
class SheetFlow {
public:
    SheetFlow(QPainter& painter, QPdfWriter& writer, double perMm, Paper paper, const Sheet& sheet)
        : canvas_(painter, perMm), writer_(writer), size_(sizeOf(paper)), sheet_(sheet) {
        titleBlock();
    }

    void add(const SheetBlock& block) {
        // A heading stays with what follows it.
        const double first = block.drawing ? kLongestDrawing + 8 : block.table ? 16.0 : 10.0;
        need(8 + first);
        y_ += 3.2;
        canvas_.setFont(10.5, true);
        canvas_.setInk(canvas_.ink.text);
        canvas_.line(QRectF(kMargin, y_, width(), 5), q(block.heading));
        y_ += 5;
        canvas_.rule(kMargin, y_, kMargin + width(), y_, canvas_.ink.rule, 0.2);
        y_ += 1.4;
        if (block.drawing) drawing(*block.drawing);
        if (block.table) table(*block.table);
        for (const std::string& text : block.lines)
            line(text, block.isChecklist);
    }

    void finish() { foot(); }

private:
    double width() const { return size_.width() - 2 * kMargin; }
    double bottom() const { return size_.height() - kMargin - kFoot; }

    void need(double height) {
        if (y_ + height <= bottom()) return;
        foot();
        writer_.newPage();
        ++page_;
        canvas_.setFont(9);
        canvas_.setInk(canvas_.ink.soft);
        canvas_.line(QRectF(kMargin, kMargin, width(), 4.2),
                     q(sheet_.documentType) + QStringLiteral("  ·  ") + q(sheet_.partName));
        canvas_.rule(kMargin, kMargin + 5, kMargin + width(), kMargin + 5, canvas_.ink.rule, 0.2);
        y_ = kMargin + 6;
    }

    void titleBlock() {
        PageCanvas& c = canvas_;
        double y = kMargin;
        c.setInk(c.ink.soft);
        c.setFont(9);
        c.line(QRectF(kMargin, y, width() * 0.62, 4.2),
               q(sheet_.documentType) + QStringLiteral("  ·  ") + q(sheet_.projectTitle));
        c.setInk(c.ink.text);
        c.setFont(16, true);
        c.line(QRectF(kMargin, y + 4, width() * 0.62, 8), q(sheet_.partName));
        const std::pair<QString, std::string> fields[] = {{QStringLiteral("identification"), sheet_.identification},
                                                          {QStringLiteral("author"), sheet_.author},
                                                          {QStringLiteral("date of issue"), sheet_.date}};
        c.setFont(9);
        double row = y;
        for (const auto& [name, value] : fields) {
            c.setInk(c.ink.soft);
            c.line(QRectF(kMargin + width() * 0.64, row, width() * 0.15, 3.9), name);
            c.setInk(c.ink.text);
            c.line(QRectF(kMargin + width() * 0.79, row, width() * 0.21, 3.9), q(value),
                   Qt::AlignRight | Qt::AlignVCenter);
            row += 3.9;
        }
        c.setInk(c.ink.soft);
        const double height = c.textHeight_mm(width(), q(sheet_.summary)) + 0.4;
        c.text(QRectF(kMargin, y + 12.4, width(), height), q(sheet_.summary));
        y_ = y + 13 + height;
        c.rule(kMargin, y_, kMargin + width(), y_, c.ink.text, 0.4);
    }

    void foot() {
        PageCanvas& c = canvas_;
        const double y = size_.height() - kMargin - 7;
        c.rule(kMargin, y, kMargin + width(), y, c.ink.rule, 0.2);
        c.setFont(8);
        c.setInk(c.ink.soft);
        c.line(QRectF(kMargin, y + 0.8, width() * 0.82, 3.6),
               QStringLiteral("Estimates for planning. Machine's manual, material safety sheets and local rules come "
                              "first."));
        c.line(QRectF(kMargin + width() * 0.8, y + 0.8, width() * 0.2, 3.6), QStringLiteral("page %1").arg(page_),
               Qt::AlignRight | Qt::AlignVCenter);
        c.line(QRectF(kMargin, y + 4, width(), 3.6),
               QStringLiteral("Waybench %1, project file %2").arg(q(sheet_.programVersion), q(sheet_.fileHash)));
    }

    void drawing(const SheetDrawing& d) {
        const double used = paintSheetDrawing(canvas_, QRectF(kMargin, y_, width(), kLongestDrawing), d);
        y_ += used + 1;
        canvas_.setFont(8);
        canvas_.setInk(canvas_.ink.soft);
        canvas_.line(QRectF(kMargin, y_, width(), 3.8), q(d.caption), Qt::AlignCenter);
        y_ += 5;
    }

    void tableHead(const SheetTable& t, const std::vector<double>& x) {
        canvas_.setFont(8, true);
        canvas_.setInk(canvas_.ink.soft);
        for (std::size_t k = 0; k < t.columns.size(); ++k)
            canvas_.line(QRectF(x[k], y_, x[k + 1] - x[k] - 1.5, 4), q(t.columns[k].title),
                         (t.columns[k].isNumber ? Qt::AlignRight : Qt::AlignLeft) | Qt::AlignVCenter);
        y_ += 4.2;
        canvas_.rule(kMargin, y_, kMargin + width(), y_, canvas_.ink.rule, 0.15);
        y_ += 0.4;
    }

    void table(const SheetTable& t) {
        double shares = 0;
        for (const SheetTable::Column& c : t.columns)
            shares += c.share;
        std::vector<double> x{kMargin};
        for (const SheetTable::Column& c : t.columns)
            x.push_back(x.back() + width() * c.share / shares);
        tableHead(t, x);
        for (const auto& row : t.rows) {
            canvas_.setFont(8);
            double height = 0;
            for (std::size_t k = 0; k < row.size(); ++k)
                height = std::max(height, canvas_.textHeight_mm(x[k + 1] - x[k] - 1.5, q(row[k])));
            const int before = page_;
            need(height + 0.6);
            if (page_ != before) tableHead(t, x);
            canvas_.setFont(8);
            canvas_.setInk(canvas_.ink.text);
            for (std::size_t k = 0; k < row.size(); ++k)
                canvas_.text(QRectF(x[k], y_, x[k + 1] - x[k] - 1.5, height + 0.3), q(row[k]),
                             (t.columns[k].isNumber ? Qt::AlignRight : Qt::AlignLeft) | Qt::AlignTop);
            y_ += height + 0.6;
        }
        y_ += 1;
    }

    void line(const std::string& text, bool isTick) {
        canvas_.setFont(8.5);
        const double indent = isTick ? 5.5 : 3.5, height = canvas_.textHeight_mm(width() - indent, q(text)) + 0.3;
        need(height + 0.4);
        canvas_.setFont(8.5);
        canvas_.setInk(canvas_.ink.text);
        if (isTick) {
            canvas_.painter().setPen(QPen(canvas_.ink.text, canvas_.px(0.2)));
            canvas_.painter().drawRect(canvas_.px(QRectF(kMargin, y_ + 0.4, 2.8, 2.8)));
        } else {
            canvas_.line(QRectF(kMargin, y_, 3, canvas_.lineHeight_mm()), QStringLiteral("–"));
        }
        canvas_.setInk(canvas_.ink.text);
        canvas_.text(QRectF(kMargin + indent, y_, width() - indent, height), q(text));
        y_ += height + (isTick ? 0.9 : 0.4);
    }

    PageCanvas canvas_;
    QPdfWriter& writer_;
    QSizeF size_;
    const Sheet& sheet_;
    double y_ = 0;
    int page_ = 1;
};

}  // namespace

QByteArray sheetPdf(Paper paper, const Sheet& sheet) {
    return pdfOf(paper, sheet.partName + ": " + sheet.documentType, sheet.programVersion, sheet.date,
                 [&](QPainter& painter, QPdfWriter& writer, double perMm) {
                     SheetFlow flow(painter, writer, perMm, paper, sheet);
                     for (const SheetBlock& block : sheet.blocks)
                         flow.add(block);
                     flow.finish();
                 });
}

}  // namespace waybench
