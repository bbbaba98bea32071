#include "app/page/page_painter.h"

#include <algorithm>

#include "app/page/page_canvas.h"
#include "app/page/page_picture.h"
#include "app/page/page_plot.h"

namespace waybench {

namespace {

constexpr double kMargin = 14;

QString q(const std::string& s) {
    return QString::fromStdString(s);
}

/// A line that must not be cut gets smaller.
void fitFont(PageCanvas& c, const QString& text, double width_mm, bool bold) {
    for (const double points : {9.0, 8.5, 8.0, 7.5, 7.0, 6.5, 6.0}) {
        c.setFont(points, bold);
        if (c.width_mm(text) <= width_mm) return;
    }
}

double titleBlock(PageCanvas& c, double y, double width, const PageContent& p) {
    c.setInk(c.ink.soft);
    c.setFont(9);
    c.line(QRectF(kMargin, y, width * 0.62, 4.2), q(p.documentType) + QStringLiteral("  ·  ") + q(p.projectTitle));
    c.setInk(c.ink.text);
    c.setFont(16, true);
    c.line(QRectF(kMargin, y + 4, width * 0.62, 8), q(p.partName));
    c.setInk(c.ink.soft);
    fitFont(c, q(p.shape), width * 0.62, false);
    c.line(QRectF(kMargin, y + 11.8, width * 0.62, 4.2), q(p.shape));
    const std::pair<QString, std::string> fields[] = {{QStringLiteral("identification"), p.identification},
                                                      {QStringLiteral("author"), p.author},
                                                      {QStringLiteral("date of issue"), p.date},
                                                      {QStringLiteral("sheet"), p.sheet}};
    c.setFont(9);
    double row = y;
    for (const auto& [name, value] : fields) {
        c.setInk(c.ink.soft);
        c.line(QRectF(kMargin + width * 0.64, row, width * 0.15, 3.9), name);
        c.setInk(c.ink.text);
        c.line(QRectF(kMargin + width * 0.79, row, width * 0.21, 3.9), q(value), Qt::AlignRight | Qt::AlignVCenter);
        row += 3.9;
    }
    c.rule(kMargin, y + 16.2, kMargin + width, y + 16.2, c.ink.text, 0.4);
    return y + 17.6;
}

double verdictBlock(PageCanvas& c, double y, double width, const PageContent& p, const Comparison& comparison) {
    c.setFont(10.5, true);
    const double sentence = std::min(4 * c.lineHeight_mm() + 0.2, c.textHeight_mm(width - 13, q(p.verdict)) + 0.5);
    c.setFont(9);
    const std::size_t reasons = std::min<std::size_t>(2, p.reasons.size());
    std::vector<double> reasonHeights;
    double height = sentence + 4;
    for (std::size_t i = 0; i < reasons; ++i) {
        reasonHeights.push_back(std::min(2 * c.lineHeight_mm(), c.textHeight_mm(width - 16, q(p.reasons[i]))) + 0.2);
        height += reasonHeights.back();
    }
    c.fill(QRectF(kMargin, y, width, height), c.ink.wash);
    c.setInk(c.ink.text);
    paintMark(c, QRectF(kMargin + 3, y + 2.6, 5, 5), markOf(comparison.verdict.choice));
    c.setFont(10.5, true);
    c.text(QRectF(kMargin + 11, y + 2, width - 13, sentence), q(p.verdict));
    c.setFont(9);
    double row = y + 2 + sentence;
    for (std::size_t i = 0; i < reasons; ++i) {
        c.line(QRectF(kMargin + 11, row, 3, c.lineHeight_mm()), QStringLiteral("–"));
        c.text(QRectF(kMargin + 14, row, width - 16, reasonHeights[i]), q(p.reasons[i]));
        row += reasonHeights[i];
    }
    return y + height + 2;
}

void heading(PageCanvas& c, double x, double y, double width, const QString& text) {
    c.setFont(9, true);
    c.setInk(c.ink.soft);
    c.line(QRectF(x, y, width, 4.2), text);
}

/// Bulleted texts, each at most `linesEach` lines; what does not fit is counted in a last line.
void list(PageCanvas& c, const QRectF& box, const std::vector<std::string>& texts, int linesEach) {
    c.setFont(8.5);
    c.setInk(c.ink.text);
    const double lineHeight = c.lineHeight_mm(), width = box.width() - 3.5;
    const auto wanted = [&](const std::string& text) {
        return std::min(linesEach * lineHeight, c.textHeight_mm(width, q(text))) + 0.1;
    };
    double whole = 0;
    for (const std::string& text : texts)
        whole += wanted(text);
    const double bottom = whole <= box.height() + 0.2 ? box.bottom() : box.bottom() - lineHeight;
    double y = box.top();
    std::size_t left = texts.size();
    for (const std::string& text : texts) {
        const double height = wanted(text);
        if (y + height > bottom + 0.2) break;
        c.line(QRectF(box.left(), y, 3, lineHeight), QStringLiteral("–"));
        y += c.text(QRectF(box.left() + 3.5, y, width, height), q(text));
        --left;
    }
    if (left == 0) return;
    c.setInk(c.ink.soft);
    c.line(QRectF(box.left() + 3.5, y, width, lineHeight), QStringLiteral("and %1 more in the full answer").arg(left));
}

/// "printed, lighter by a factor of 3.7" as "factor of 3.7": the mark says who, the row says at what.
std::string howFarAhead(const std::string& ahead) {
    const auto at = ahead.rfind(" by ");
    if (at == std::string::npos) return ahead.find("not ranked") == std::string::npos ? ahead : std::string();
    const std::string much = ahead.substr(at + 4);
    return much.rfind("a ", 0) == 0 ? much.substr(2) : much;
}

double ledgerBlock(PageCanvas& c, double y, double width, const PageContent& p, int rows) {
    const double side = width * 0.255, spine = width * 0.185, limit = width * 0.13;
    const double spineX = kMargin + side, machinedX = spineX + spine, limitX = machinedX + side,
                 aheadX = limitX + limit, aheadWidth = kMargin + width - aheadX;
    constexpr double kRow = 4.35;
    const auto right = Qt::AlignRight | Qt::AlignVCenter;
    c.setFont(9, true);
    c.setInk(c.ink.printed);
    c.line(QRectF(kMargin, y, side - 2, kRow), QStringLiteral("printed"), right);
    c.setInk(c.ink.machined);
    c.line(QRectF(machinedX + 2, y, side - 2, kRow), QStringLiteral("machined"));
    c.setInk(c.ink.soft);
    c.setFont(9);
    c.line(QRectF(limitX, y, limit, kRow), QStringLiteral("limit"));
    c.line(QRectF(aheadX + 4, y, aheadWidth - 4, kRow), QStringLiteral("ahead by a"));
    y += kRow + 0.2;
    c.rule(kMargin, y, kMargin + width, y, c.ink.rule, 0.2);
    y += 0.3;
    int shown = 0;
    for (const PageRow& row : p.rows) {
        if (shown++ >= rows) break;
        if (shown % 2 == 0) c.fill(QRectF(kMargin, y, width, kRow), QColor(0xf8, 0xf8, 0xf6));
        c.fill(QRectF(spineX, y, spine, kRow), c.ink.wash);
        const bool printedAhead = row.aheadRoute == LedgerRow::Ahead::printed;
        const bool machinedAhead = row.aheadRoute == LedgerRow::Ahead::machined;
        c.setInk(c.ink.text);
        fitFont(c, q(row.printed), side - 3, printedAhead);
        c.line(QRectF(kMargin, y, side - 2, kRow), q(row.printed), right);
        c.setFont(9);
        c.line(QRectF(spineX, y, spine, kRow), q(row.title), Qt::AlignCenter);
        fitFont(c, q(row.machined), side - 3, machinedAhead);
        c.line(QRectF(machinedX + 2, y, side - 2, kRow), q(row.machined));
        if (printedAhead) paintMark(c, QRectF(aheadX, y + 1, 2.4, 2.4), RouteMark::printed);
        if (machinedAhead) paintMark(c, QRectF(aheadX, y + 1, 2.4, 2.4), RouteMark::machined);
        c.setInk(c.ink.soft);
        fitFont(c, q(row.limit), limit - 1, false);
        c.line(QRectF(limitX, y, limit, kRow), q(row.limit));
        c.setFont(9);
        c.line(QRectF(aheadX + 4, y, aheadWidth - 4, kRow), q(howFarAhead(row.ahead)));
        y += kRow;
    }
    c.rule(kMargin, y + 0.2, kMargin + width, y + 0.2, c.ink.rule, 0.2);
    if (rows < int(p.rows.size())) {
        c.setFont(7);
        c.setInk(c.ink.soft);
        c.line(QRectF(kMargin, y + 0.3, width, 3),
               QStringLiteral("%1 more rows in the full answer").arg(int(p.rows.size()) - rows), right);
    }
    return y + 3.6;
}

void signatureBlock(PageCanvas& c, double y, double width) {
    const QString roles[] = {QStringLiteral("prepared"), QStringLiteral("checked"), QStringLiteral("approved")};
    for (int i = 0; i < 3; ++i) {
        const double x = kMargin + i * width / 3;
        c.rule(x, y, x + width / 3 - 4, y, c.ink.rule, 0.2);
        c.setFont(9);
        c.setInk(c.ink.soft);
        c.line(QRectF(x, y + 0.3, width / 3 - 4, 4), roles[i] + QStringLiteral(": name, date, signature"));
    }
}

std::string joined(const std::vector<std::string>& parts, const char* between) {
    std::string all;
    for (const std::string& part : parts)
        all += (all.empty() ? "" : between) + part;
    return all;
}

/// Whole entries only, as many as fit into so many lines; the rest is counted.
QString sourcesThatFit(const PageCanvas& c, double width, int lines, const std::vector<std::string>& sources) {
    for (std::size_t n = sources.size();; --n) {
        std::string text = "Sources: " + joined({sources.begin(), sources.begin() + std::ptrdiff_t(n)}, "; ");
        if (n < sources.size())
            text +=
                (n > 0 ? "; and " : "") + std::to_string(sources.size() - n) + " more keys, in resources/sources.json";
        if (n == 0 || c.textHeight_mm(width, q(text)) <= lines * c.lineHeight_mm() + 0.1) return q(text);
    }
}

/// What must stand in full whatever the paper: decision rule, cautions; then sources.
struct FootText {
    QString rule, cautions, sources;
    double ruleHeight = 0, cautionsHeight = 0, sourcesHeight = 0;
    double height() const { return ruleHeight + cautionsHeight + sourcesHeight; }
};

FootText footText(PageCanvas& c, double width, const PageContent& p) {
    FootText foot;
    c.setFont(7);
    foot.rule = q(p.decisionRule + " " + p.bandMeaning);
    foot.cautions = q("Cautions: " + joined(p.cautions, " "));
    foot.sources = sourcesThatFit(c, width, 2, p.sources);
    const auto height = [&](const QString& text) { return c.textHeight_mm(width, text) + 0.1; };
    foot.ruleHeight = height(foot.rule);
    foot.cautionsHeight = height(foot.cautions);
    foot.sourcesHeight = height(foot.sources);
    return foot;
}

}  // namespace

QSizeF sizeOf(Paper paper) {
    return paper == Paper::a4 ? QSizeF(210, 297) : QSizeF(215.9, 279.4);
}

void paintPage(QPainter& painter, double devicePixelsPerMm, Paper paper, const PageContent& p,
               const Comparison& comparison) {
    const QSizeF size = sizeOf(paper);
    const double width = size.width() - 2 * kMargin, bottom = size.height() - kMargin;
    PageCanvas c(painter, devicePixelsPerMm);

    // The foot is laid from below, the head from above; pictures and plot share what is left.
    c.setFont(9);
    const double lineHeight = c.lineHeight_mm();
    const double footY = bottom - lineHeight, signY = footY - 5.2;
    const FootText foot = footText(c, width, p);
    const double smallY = signY - 7 - foot.height();

    double y = titleBlock(c, kMargin, width, p);
    y = verdictBlock(c, y, width, p, comparison);

    // The rows are in the order of their weight: where the paper is short, the last ones give way to the pictures.
    constexpr double kRow = 4.35, kLeastFlexible = 78;
    const double risksHeight = 4.4 + (paper == Paper::a4 ? 7 : 6) * lineHeight;
    int rows = int(std::min<std::size_t>(p.rows.size(), 14));
    const auto flexibleWith = [&](int n) { return smallY - y - (kRow * (n + 1) + 4.1) - risksHeight - 3; };
    while (rows > 9 && flexibleWith(rows) < kLeastFlexible)
        --rows;
    const double flexible = flexibleWith(rows);
    const double pictureHeight = flexible * 0.5, plotHeight = flexible - pictureHeight;

    paintPagePictures(c, QRectF(kMargin, y, width * 0.62, pictureHeight - 2), comparison, p);
    heading(c, kMargin + width * 0.65, y, width * 0.35, QStringLiteral("Must meet"));
    list(c, QRectF(kMargin + width * 0.65, y + 4.4, width * 0.35, pictureHeight - 6), p.requirement, 5);
    y += pictureHeight;

    y = ledgerBlock(c, y, width, p, rows);

    paintPagePlot(c, QRectF(kMargin, y, width * 0.56, plotHeight - 2), p);
    const double right = kMargin + width * 0.6;
    heading(c, right, y, width * 0.4, QStringLiteral("Assumptions, by influence"));
    std::vector<std::string> assumptions;
    for (const auto& [name, value] : p.assumptions)
        assumptions.push_back(name + ": " + value);
    list(c, QRectF(right, y + 4.4, width * 0.4, plotHeight - 6), assumptions, 3);
    y += plotHeight;

    heading(c, kMargin, y, width * 0.48, QStringLiteral("Risks"));
    list(c, QRectF(kMargin, y + 4.4, width * 0.48, risksHeight - 4.4), p.risks, 6);
    heading(c, kMargin + width * 0.52, y, width * 0.48, QStringLiteral("What would change the verdict"));
    list(c, QRectF(kMargin + width * 0.52, y + 4.4, width * 0.48, risksHeight - 4.4), p.wouldChange, 5);

    c.rule(kMargin, smallY - 1, kMargin + width, smallY - 1, c.ink.rule, 0.2);
    c.setInk(c.ink.text);
    c.setFont(7);
    double small = smallY;
    c.text(QRectF(kMargin, small, width, foot.ruleHeight), foot.rule);
    small += foot.ruleHeight;
    c.text(QRectF(kMargin, small, width, foot.cautionsHeight), foot.cautions);
    small += foot.cautionsHeight;
    c.text(QRectF(kMargin, small, width, foot.sourcesHeight), foot.sources);

    signatureBlock(c, signY, width);
    c.setInk(c.ink.soft);
    c.setFont(9);
    c.line(QRectF(kMargin, footY, width, lineHeight),
           q("Waybench " + p.programVersion + "  ·  project " + p.fileHash +
             "  ·  relates only to this part and these settings  ·  end of document"));
    if (p.isDraft) {
        painter.save();
        painter.translate(c.px(size.width() / 2), c.px(size.height() / 2));
        painter.rotate(-55);
        c.setFont(90, true);
        painter.setPen(QColor(0, 0, 0, 26));
        c.line(QRectF(-120, -25, 240, 50), QStringLiteral("DRAFT"), Qt::AlignCenter);
        painter.restore();
    }
}

}  // namespace waybench
