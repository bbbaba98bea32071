#include "app/layers/layer_painter.h"

#include <QLineF>
#include <QPainter>
#include <QPainterPath>
#include <QPen>
#include <algorithm>
#include <cmath>

namespace waybench {

namespace {

constexpr double kBeadsFrom_px = 3;
constexpr double kHalo_px = 1;         // around travels, so that they are seen over beads
constexpr double kArrowsFrom_px = 12;  // shorter travels carry no arrowhead

QColor mixed(const QColor& a, const QColor& b, float share) {
    return QColor::fromRgbF(a.redF() * (1 - share) + b.redF() * share, a.greenF() * (1 - share) + b.greenF() * share,
                            a.blueF() * (1 - share) + b.blueF() * share);
}

/// The passages of one layer in window pixels, those out of sight left out.
class LayerDrawing {
public:
    LayerDrawing(QPainter& painter, const printed::LaidLayer& layer, const LayerFrame& frame, const QSizeF& window,
                 const LayerStyle& style, const Task& task)
        : painter_(painter),
          layer_(layer),
          frame_(frame),
          window_(window),
          style_(style),
          task_(task),
          bead_px_(layer.beadWidth_mm * frame.scale) {}

    void beads() {
        for (const printed::Passage& passage : layer_.passages) {
            if (passage.isTravel || !isShown(shareOf(passage.kind))) continue;
            task_.check();
            const QPolygonF line = inWindow(passage.points);
            if (!isInSight(line)) continue;
            if (bead_px_ >= kBeadsFrom_px) bead(line, lookOf(shareOf(passage.kind), style_.palette));
            centreLine(line, lookOf(shareOf(passage.kind), style_.palette));
        }
    }

    void travels() {
        if (!isShown(TimeShare::travel)) return;
        const ShareLook look = lookOf(TimeShare::travel, style_.palette);
        for (const printed::Passage& passage : layer_.passages) {
            if (!passage.isTravel) continue;
            task_.check();
            const QPolygonF line = inWindow(passage.points);
            if (!isInSight(line)) continue;
            strokeWith(line, {style_.palette.sheet, look.weight_px + 2 * kHalo_px, Qt::SolidLine, Qt::FlatCap});
            strokeWith(line, penOf(look, look.weight_px));
            const QLineF way(line.first(), line.last());
            if (way.length() >= kArrowsFrom_px) paintArrowhead(painter_, way, look.colour);
            if (passage.isDrawnBack)
                paintRing(painter_, line.first(), bead_px_ >= kBeadsFrom_px ? 2.6 : 2, look.colour,
                          style_.palette.sheet);
        }
    }

private:
    bool isShown(TimeShare share) const { return style_.shown[static_cast<std::size_t>(share)]; }

    QPolygonF inWindow(const std::vector<Vec2>& points) const {
        QPolygonF line;
        line.reserve(qsizetype(points.size()));
        for (const Vec2& p : points)
            line << frame_.toWindow(p, window_);
        return line;
    }

    bool isInSight(const QPolygonF& line) const {
        const double reach = bead_px_ + 4;
        const QRectF box = line.boundingRect().adjusted(-reach, -reach, reach, reach);
        return box.intersects(QRectF(QPointF(), window_));
    }

    static QPen penOf(const ShareLook& look, double width) {
        return {look.colour, width, Qt::SolidLine, Qt::RoundCap, Qt::RoundJoin};
    }

    void strokeWith(const QPolygonF& line, const QPen& pen) {
        painter_.setPen(pen);
        painter_.drawPolyline(line);
    }

    /// The bead from above: a rim in its colour around a pale body.
    void bead(const QPolygonF& line, const ShareLook& look) {
        const double rim = std::clamp(bead_px_ / 12, 0.6, 1.4);
        QPen pen(mixed(style_.palette.sheet, look.colour, 0.75F), bead_px_, Qt::SolidLine, Qt::RoundCap, Qt::RoundJoin);
        strokeWith(line, pen);
        pen.setColor(mixed(style_.palette.sheet, look.colour, 0.22F));
        pen.setWidthF(std::max(0.5, bead_px_ - 2 * rim));
        strokeWith(line, pen);
    }

    void centreLine(const QPolygonF& line, const ShareLook& look) {
        const double width = bead_px_ < kBeadsFrom_px ? std::min(look.weight_px, std::max(0.6, bead_px_ * 0.9))
                                                      : look.weight_px * std::clamp(bead_px_ / 8, 0.6, 1.6);
        strokeWith(line, penOf(look, width));
    }

    QPainter& painter_;
    const printed::LaidLayer& layer_;
    const LayerFrame& frame_;
    QSizeF window_;
    const LayerStyle& style_;
    const Task& task_;
    double bead_px_;
};

}  // namespace

QPointF LayerFrame::toWindow(const Vec2& p, const QSizeF& window) const {
    return {window.width() / 2 + (p.x() - centre_mm.x()) * scale,
            window.height() / 2 - (p.y() - centre_mm.y()) * scale};
}

Vec2 LayerFrame::toBed(const QPointF& pixel, const QSizeF& window) const {
    return {centre_mm.x() + (pixel.x() - window.width() / 2) / scale,
            centre_mm.y() - (pixel.y() - window.height() / 2) / scale};
}

QPainterPath outlineOf(const Region& region) {
    QPainterPath path;
    path.setFillRule(Qt::WindingFill);
    for (const Ring& ring : region) {
        if (ring.empty()) continue;
        path.moveTo(ring.front().x(), ring.front().y());
        for (std::size_t i = 1; i < ring.size(); ++i)
            path.lineTo(ring[i].x(), ring[i].y());
        path.closeSubpath();
    }
    return path;
}

void paintSection(QPainter& painter, const QPainterPath& outline, const QPainterPath& support, const LayerFrame& frame,
                  const QSizeF& window, const Palette& palette) {
    painter.save();
    painter.translate(window.width() / 2, window.height() / 2);
    painter.scale(frame.scale, -frame.scale);
    painter.translate(-frame.centre_mm);
    QPen pen(palette.rule, 1);
    pen.setCosmetic(true);
    painter.setPen(pen);
    painter.setBrush(palette.sunken);
    painter.drawPath(outline);
    QColor tint = palette.caution;
    tint.setAlphaF(0.12F);
    painter.setPen(Qt::NoPen);
    painter.setBrush(tint);
    painter.drawPath(support);
    painter.restore();
}

void paintArrowhead(QPainter& painter, const QLineF& way, const QColor& colour) {
    const QPointF along(way.dx() / way.length(), way.dy() / way.length());
    const QPointF across(-along.y(), along.x());
    painter.setPen(QPen(colour, 1.2, Qt::SolidLine, Qt::RoundCap, Qt::RoundJoin));
    for (const double side : {-0.45, 0.45})
        painter.drawLine(way.p2(), way.p2() - along * kArrow_px + across * (side * kArrow_px));
}

void paintRing(QPainter& painter, const QPointF& at, double radius_px, const QColor& colour, const QColor& ground) {
    painter.setPen(QPen(colour, 1.2));
    painter.setBrush(ground);
    painter.drawEllipse(at, radius_px, radius_px);
    painter.setBrush(Qt::NoBrush);
}

QImage paintLayer(const printed::LaidLayer& layer, const LayerFrame& frame, const QSize& window, double ratio,
                  const LayerStyle& style, const Task& task) {
    QImage image(window * ratio, QImage::Format_ARGB32_Premultiplied);
    image.setDevicePixelRatio(ratio);
    image.fill(Qt::transparent);
    QPainter painter(&image);
    painter.setRenderHint(QPainter::Antialiasing);
    LayerDrawing drawing(painter, layer, frame, window, style, task);
    drawing.beads();
    drawing.travels();
    return image;
}

}  // namespace waybench
