#include "app/page/sheet_drawing.h"

#include <QPainterPath>
#include <algorithm>
#include <cmath>

#include "app/page/page_canvas.h"

namespace waybench {

namespace {

constexpr double kRoom = 7;  // for sizes and the zero's letters

struct Frame {
    double scale = 1, left = 0, bottom = 0;
    Vec2 low = Vec2::Zero();
    QPointF at(const Vec2& p) const { return {left + scale * (p.x() - low.x()), bottom - scale * (p.y() - low.y())}; }
};

QPen penFor(const PageCanvas& c, SheetLine line) {
    const auto pen = [&](const QColor& colour, double mm, Qt::PenStyle style = Qt::SolidLine) {
        QPen p(colour, c.px(mm), style);
        p.setJoinStyle(Qt::RoundJoin);
        return p;
    };
    switch (line) {
        case SheetLine::blank:
            return pen(c.ink.soft, 0.25, Qt::DashLine);
        case SheetLine::cut:
            return pen(c.ink.machined, 0.2, Qt::DashDotLine);
        case SheetLine::hold:
            return pen(c.ink.text, 0.35);
        case SheetLine::tab:
            return pen(c.ink.machined, 0.35);
        case SheetLine::material:
        case SheetLine::part:
            break;
    }
    return pen(c.ink.text, 0.2);
}

void addRing(QPainterPath& path, const PageCanvas& c, const Frame& f, const std::vector<Vec2>& points, bool isClosed) {
    for (std::size_t i = 0; i < points.size(); ++i) {
        const QPointF mm = f.at(points[i]), p(c.px(mm.x()), c.px(mm.y()));
        if (i == 0)
            path.moveTo(p);
        else
            path.lineTo(p);
    }
    if (isClosed) path.closeSubpath();
}

/// Two arrows along the axes.
void zeroMark(PageCanvas& c, const QPointF& at) {
    constexpr double kArm = 6, kHead = 1.1;
    c.painter().setPen(QPen(c.ink.printed, c.px(0.4)));
    const auto line = [&](double x0, double y0, double x1, double y1) {
        c.painter().drawLine(QPointF(c.px(at.x() + x0), c.px(at.y() + y0)),
                             QPointF(c.px(at.x() + x1), c.px(at.y() + y1)));
    };
    line(0, 0, kArm, 0);
    line(kArm, 0, kArm - kHead, -kHead / 2);
    line(kArm, 0, kArm - kHead, kHead / 2);
    line(0, 0, 0, -kArm);
    line(0, -kArm, -kHead / 2, -kArm + kHead);
    line(0, -kArm, kHead / 2, -kArm + kHead);
    c.painter().drawEllipse(QPointF(c.px(at.x()), c.px(at.y())), c.px(0.7), c.px(0.7));
    c.setFont(7.5, true);
    c.setInk(c.ink.printed);
    c.line(QRectF(at.x() + kArm + 0.4, at.y() - 1.8, 4, 3.6), QStringLiteral("x"));
    c.line(QRectF(at.x() - 0.9, at.y() - kArm - 3.8, 4, 3.6), QStringLiteral("y"));
}

}  // namespace

double paintSheetDrawing(PageCanvas& c, const QRectF& box, const SheetDrawing& d) {
    Vec2 low = Vec2::Constant(1e300), high = Vec2::Constant(-1e300);
    for (const SheetDrawing::Stroke& s : d.strokes)
        for (const Vec2& p : s.points) {
            low = low.cwiseMin(p);
            high = high.cwiseMax(p);
        }
    if (!(high.x() > low.x()) || !(high.y() > low.y())) return 0;
    const Vec2 size = high - low;
    Frame f;
    f.low = low;
    f.scale = std::min((box.width() - 2 * kRoom) / size.x(), (box.height() - kRoom) / size.y());
    f.scale = std::min(f.scale, 2.0);
    const double height = f.scale * size.y();
    f.left = box.center().x() - 0.5 * f.scale * size.x();
    f.bottom = box.top() + 1 + height;

    QPainterPath filled;
    filled.setFillRule(Qt::OddEvenFill);
    for (const Region& region : d.material)
        for (const Ring& ring : region)
            addRing(filled, c, f, ring, true);
    c.painter().fillPath(filled, c.ink.wash.darker(104));
    for (const SheetLine kind : {SheetLine::blank, SheetLine::part, SheetLine::cut, SheetLine::tab, SheetLine::hold}) {
        QPainterPath path;
        for (const SheetDrawing::Stroke& s : d.strokes)
            if (s.line == kind) addRing(path, c, f, s.points, s.isClosed);
        if (kind == SheetLine::hold || kind == SheetLine::tab) c.painter().fillPath(path, QColor(255, 255, 255));
        c.painter().strokePath(path, penFor(c, kind));
    }
    c.setFont(7.5, true);
    c.setInk(c.ink.text);
    for (const SheetDrawing::Label& label : d.labels) {
        const QPointF at = f.at(label.at);
        c.line(QRectF(at.x() - 6, at.y() - 2, 12, 4), QString::fromStdString(label.text), Qt::AlignCenter);
    }
    if (d.zero) zeroMark(c, f.at(*d.zero));
    // Overall sizes: below and at the left.
    c.setFont(7.5);
    c.setInk(c.ink.soft);
    const auto number = [](double mm) { return QString::number(std::round(10 * mm) / 10) + QStringLiteral(" mm"); };
    c.line(QRectF(f.left, f.bottom + 0.6, f.scale * size.x(), 3.6), number(size.x()), Qt::AlignCenter);
    c.painter().save();
    c.painter().translate(c.px(f.left - 1), c.px(f.bottom));
    c.painter().rotate(-90);
    c.line(QRectF(0, -3.8, height, 3.6), number(size.y()), Qt::AlignCenter);
    c.painter().restore();
    return height + 5;
}

}  // namespace waybench
