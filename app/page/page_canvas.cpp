#include "app/page/page_canvas.h"

#include <QFontMetricsF>
#include <QTextLayout>
#include <cmath>

namespace waybench {

PageCanvas::PageCanvas(QPainter& painter, double devicePixelsPerMm) : painter_(painter), perMm_(devicePixelsPerMm) {
    painter_.setRenderHints(QPainter::Antialiasing | QPainter::TextAntialiasing | QPainter::SmoothPixmapTransform);
    setFont(9);
}

void PageCanvas::setFont(double points, bool bold, bool italic) {
    QFont font(QStringLiteral("DejaVu Sans"));
    font.setStyleHint(QFont::SansSerif);
    // Through pixels, so that the size on paper does not depend on what the device says of itself.
    font.setPixelSize(std::max(1, int(std::lround(px(points * 25.4 / 72.0)))));
    font.setStyleStrategy(QFont::PreferNoShaping);  // no ligatures: the text of the PDF stays searchable
    font.setKerning(false);
    font.setBold(bold);
    font.setItalic(italic);
    painter_.setFont(font);
}

double PageCanvas::lineHeight_mm() const {
    return QFontMetricsF(painter_.font(), painter_.device()).lineSpacing() / perMm_;
}

double PageCanvas::width_mm(const QString& text) const {
    return QFontMetricsF(painter_.font(), painter_.device()).horizontalAdvance(text) / perMm_;
}

double PageCanvas::textHeight_mm(double width_mm, const QString& text) const {
    const QFontMetricsF metrics(painter_.font(), painter_.device());
    return metrics.boundingRect(QRectF(0, 0, px(width_mm), 1e7), Qt::TextWordWrap, text).height() / perMm_;
}

double PageCanvas::text(const QRectF& box_mm, const QString& text, Qt::Alignment alignment) {
    const QFontMetricsF metrics(painter_.font(), painter_.device());
    const int fits = std::max(1, int(std::floor(px(box_mm.height()) / metrics.lineSpacing() + 0.05)));
    QTextLayout layout(text, painter_.font(), painter_.device());
    layout.beginLayout();
    double y = 0;
    for (int n = 0; n < fits; ++n) {
        QTextLine row = layout.createLine();
        if (!row.isValid()) break;
        row.setLineWidth(px(box_mm.width()));
        QString words = text.mid(row.textStart(), row.textLength()).trimmed();
        const bool isCut = n + 1 == fits && row.textStart() + row.textLength() < text.length();
        if (isCut) words = metrics.elidedText(text.mid(row.textStart()).trimmed(), Qt::ElideRight, px(box_mm.width()));
        painter_.drawText(QRectF(px(box_mm.x()), px(box_mm.y()) + y, px(box_mm.width()), metrics.lineSpacing()),
                          int(alignment & Qt::AlignHorizontal_Mask) | Qt::AlignTop | Qt::TextSingleLine, words);
        y += metrics.lineSpacing();
    }
    layout.endLayout();
    return y / perMm_;
}

void PageCanvas::line(const QRectF& box_mm, const QString& text, Qt::Alignment alignment) {
    const QFontMetricsF metrics(painter_.font(), painter_.device());
    painter_.drawText(px(box_mm), int(alignment) | Qt::TextSingleLine,
                      metrics.elidedText(text, Qt::ElideRight, px(box_mm.width()) + 1));
}

void PageCanvas::rule(double x0, double y0, double x1, double y1, const QColor& colour, double width_mm) {
    const QPen before = painter_.pen();
    painter_.setPen(QPen(colour, px(width_mm)));
    painter_.drawLine(QPointF(px(x0), px(y0)), QPointF(px(x1), px(y1)));
    painter_.setPen(before);
}

void PageCanvas::fill(const QRectF& box_mm, const QColor& colour) {
    painter_.fillRect(px(box_mm), colour);
}

void paintMark(PageCanvas& canvas, const QRectF& box_mm, RouteMark mark) {
    const QPen pen = canvas.painter().pen();
    paintRouteMark(canvas.painter(), canvas.px(box_mm), mark,
                   mark == RouteMark::printed    ? canvas.ink.printed
                   : mark == RouteMark::machined ? canvas.ink.machined
                                                 : canvas.ink.text);
    canvas.painter().setPen(pen);
}

}  // namespace waybench
