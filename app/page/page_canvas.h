#pragma once
#include <QColor>
#include <QFont>
#include <QPainter>
#include <QRectF>
#include <QString>

#include "app/style/route_mark.h"

namespace waybench {

/// Ink of the page: always on white, readable from a grey copy.
struct PageInk {
    QColor text = QColor(0x16, 0x1a, 0x1f), soft = QColor(0x55, 0x5c, 0x66), rule = QColor(0xb4, 0xba, 0xc2);
    QColor printed = QColor(0x00, 0x5f, 0x9e), machined = QColor(0xb0, 0x4a, 0x00);
    QColor wash = QColor(0xf2, 0xf3, 0xf0);
};

/// A painter that speaks millimetres on paper and points for text, whatever the device's resolution.
class PageCanvas {
public:
    PageCanvas(QPainter& painter, double devicePixelsPerMm);

    QPainter& painter() { return painter_; }
    double px(double mm) const { return mm * perMm_; }
    QRectF px(const QRectF& mm) const { return {px(mm.x()), px(mm.y()), px(mm.width()), px(mm.height())}; }

    void setFont(double points, bool bold = false, bool italic = false);
    void setInk(const QColor& colour) { painter_.setPen(colour); }
    double lineHeight_mm() const;
    double width_mm(const QString& text) const;
    /// Height that `text` takes wrapped to `width`, mm.
    double textHeight_mm(double width_mm, const QString& text) const;
    /// Draws wrapped text into the box and returns the height used. Text that does not fit the box ends in an ellipsis.
    double text(const QRectF& box_mm, const QString& text, Qt::Alignment alignment = Qt::AlignLeft | Qt::AlignTop);
    /// One line, elided at the end when too long.
    void line(const QRectF& box_mm, const QString& text, Qt::Alignment alignment = Qt::AlignLeft | Qt::AlignVCenter);
    void rule(double x0_mm, double y0_mm, double x1_mm, double y1_mm, const QColor& colour, double width_mm = 0.15);
    void fill(const QRectF& box_mm, const QColor& colour);

    PageInk ink;

private:
    QPainter& painter_;
    double perMm_;
};

/// The window's mark of a route, in the page's ink.
void paintMark(PageCanvas& canvas, const QRectF& box_mm, RouteMark mark);

}  // namespace waybench
