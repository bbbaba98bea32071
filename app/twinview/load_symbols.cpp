#include "app/twinview/load_symbols.h"

#include <QFontMetricsF>
#include <QPainter>
#include <QPainterPath>
#include <QString>
#include <cmath>
#include <optional>

#include "core/fault/input_fault.h"
#include "core/quantity/quantity_text.h"

namespace waybench {

namespace {

struct Anchor {
    Vec3 place = Vec3::Zero();   ///< area centroid, moved with the deformation
    Vec3 normal = Vec3::Zero();  ///< mean outward normal, zero for a closed bore
};

std::optional<Anchor> anchorOf(const Solid& solid, const FaceSelector& selector, std::span<const Vec3> displacement,
                               double scale) {
    std::vector<std::uint32_t> triangles;
    try {
        triangles = select(solid, selector);
    } catch (const InputFault&) {
        return std::nullopt;
    }
    Anchor anchor;
    double area = 0;
    const bool moves = displacement.size() == solid.mesh.vertices.size();
    for (const std::uint32_t t : triangles) {
        const auto& tri = solid.mesh.triangles[t];
        std::array<Vec3, 3> p;
        for (std::size_t k = 0; k < 3; ++k) {
            p[k] = solid.mesh.vertices[tri[k]];
            if (moves) p[k] += displacement[tri[k]] * scale;
        }
        const Vec3 n = (p[1] - p[0]).cross(p[2] - p[0]) / 2;
        anchor.place += n.norm() * (p[0] + p[1] + p[2]) / 3;
        anchor.normal += n;
        area += n.norm();
    }
    if (area <= 0) return std::nullopt;
    anchor.place /= area;
    anchor.normal = anchor.normal.norm() > 0.2 * area ? Vec3(anchor.normal.normalized()) : Vec3::Zero();
    return anchor;
}

void label(QPainter& painter, QPointF at, const QString& text, const QColor& colour, const QColor& halo,
           const QSizeF& size) {
    const QFontMetricsF metrics(painter.font());
    QRectF box = metrics.boundingRect(text).adjusted(-4, -2, 4, 2);
    box.moveCenter(at);
    if (box.left() < 2) box.moveLeft(2);
    if (box.right() > size.width() - 2) box.moveRight(size.width() - 2);
    if (box.top() < 2) box.moveTop(2);
    if (box.bottom() > size.height() - 2) box.moveBottom(size.height() - 2);
    painter.setPen(Qt::NoPen);
    painter.setBrush(halo);
    painter.drawRoundedRect(box, 3, 3);
    painter.setPen(colour);
    painter.drawText(box, Qt::AlignCenter, text);
}

/// Arrow whose head ends at `tip`, seen along `direction` on the screen.
void arrow(QPainter& painter, QPointF tip, QPointF direction, double length, const QColor& colour, const QColor& halo,
           double pen) {
    const QPointF normal(-direction.y(), direction.x());
    const double head = length * 0.38;
    QPainterPath path;
    const QPointF tail = tip - direction * length, neck = tip - direction * head;
    path.moveTo(tail + normal * pen);
    path.lineTo(neck + normal * pen);
    path.lineTo(neck + normal * head * 0.5);
    path.lineTo(tip);
    path.lineTo(neck - normal * head * 0.5);
    path.lineTo(neck - normal * pen);
    path.lineTo(tail - normal * pen);
    path.closeSubpath();
    painter.setPen(QPen(halo, pen * 1.6, Qt::SolidLine, Qt::RoundCap, Qt::RoundJoin));
    painter.setBrush(Qt::NoBrush);
    painter.drawPath(path);
    painter.setPen(Qt::NoPen);
    painter.setBrush(colour);
    painter.drawPath(path);
}

QPointF onScreen(const Camera& camera, const Vec3& direction) {
    return {direction.dot(camera.right()), -direction.dot(camera.up())};
}

void paintHold(QPainter& painter, const QPointF& at, const SymbolStyle& style) {
    const double half = style.size_px * 0.42;
    for (const auto& [colour, width] :
         {std::pair(style.halo, style.pen_px * 2.6), std::pair(style.hold, style.pen_px)}) {
        painter.setPen(QPen(colour, width, Qt::SolidLine, Qt::RoundCap));
        painter.drawLine(at + QPointF(-half, 0), at + QPointF(half, 0));
        for (int i = 0; i < 5; ++i) {
            const double x = -half + half * 2 * (i + 0.6) / 5;
            painter.drawLine(at + QPointF(x, 0), at + QPointF(x - half * 0.4, half * 0.5));
        }
    }
}

void paintMeasure(QPainter& painter, const QPointF& at, const QPointF& direction, const SymbolStyle& style) {
    const double r = style.size_px * 0.2;
    for (const auto& [colour, width] :
         {std::pair(style.halo, style.pen_px * 2.4), std::pair(style.measure, style.pen_px * 0.8)}) {
        painter.setPen(QPen(colour, width));
        painter.setBrush(Qt::NoBrush);
        painter.drawEllipse(at, r, r);
        painter.drawLine(at - QPointF(r * 1.7, 0), at + QPointF(r * 1.7, 0));
        painter.drawLine(at - QPointF(0, r * 1.7), at + QPointF(0, r * 1.7));
        if (std::hypot(direction.x(), direction.y()) > 0.15) {
            painter.setPen(QPen(colour, width, Qt::DashLine));
            painter.drawLine(at, at + direction * style.size_px * 1.1);
        }
    }
}

QString sizeText(const Load& load) {
    switch (load.kind) {
        case LoadKind::force:
        case LoadKind::bearing:
            return QString::fromStdString(describeValue(Figure::exact(load.vector.norm(), Unit::newton)));
        case LoadKind::moment:
            return QString::fromStdString(describeValue(Figure::exact(load.vector.norm(), Unit::newton_millimetre)));
        case LoadKind::pressure:
            return QString::fromStdString(describeValue(Figure::exact(load.pressure_MPa, Unit::megapascal)));
    }
    return {};
}

void paintLoad(QPainter& painter, const Camera& camera, const QSizeF& size, const Anchor& anchor, const Load& load,
               const SymbolStyle& style) {
    const QPointF at = camera.project(anchor.place, size);
    const Vec3 way = load.kind == LoadKind::pressure
                         ? Vec3(-anchor.normal)
                         : (load.vector.norm() > 0 ? Vec3(load.vector.normalized()) : Vec3::Zero());
    const QPointF flat = onScreen(camera, way);
    const double seen = std::hypot(flat.x(), flat.y());
    if (load.kind == LoadKind::moment) {
        const double r = style.size_px * 0.5;
        painter.setBrush(Qt::NoBrush);
        for (const auto& [colour, width] :
             {std::pair(style.halo, style.pen_px * 3.0), std::pair(style.load, style.pen_px * 1.3)}) {
            painter.setPen(QPen(colour, width, Qt::SolidLine, Qt::FlatCap));
            painter.drawArc(QRectF(at.x() - r, at.y() - r, 2 * r, 2 * r), 30 * 16, 270 * 16);
        }
        const bool isAntiClockwise = way.dot(camera.towardsEye()) >= 0;
        arrow(painter, at + QPointF(isAntiClockwise ? 0.25 * r : r, isAntiClockwise ? r : -0.2 * r),
              isAntiClockwise ? QPointF(1, 0) : QPointF(0, 1), style.size_px * 0.45, style.load, style.halo,
              style.pen_px * 0.7);
    } else if (seen < 0.12) {  // along the line of sight: a dot (towards the eye) or a cross (away)
        const double r = style.size_px * 0.2;
        painter.setPen(QPen(style.load, style.pen_px));
        painter.setBrush(style.halo);
        painter.drawEllipse(at, r, r);
        if (way.dot(camera.towardsEye()) > 0) {
            painter.setBrush(style.load);
            painter.drawEllipse(at, r * 0.35, r * 0.35);
        } else {
            painter.drawLine(at + QPointF(-r, -r) * 0.7, at + QPointF(r, r) * 0.7);
            painter.drawLine(at + QPointF(-r, r) * 0.7, at + QPointF(r, -r) * 0.7);
        }
    } else {
        // Pushing loads end at the face, pulling loads start there, so that the arrow stays outside the part.
        const bool pulls = anchor.normal.dot(way) > 0.1;
        const QPointF unit = flat / seen;
        const double length = style.size_px * (0.6 + 0.4 * seen);
        arrow(painter, pulls ? at + unit * length : at, unit, length, style.load, style.halo, style.pen_px);
    }
    if (style.withText) {
        const QPointF unit = seen > 0.12 ? QPointF(flat / seen) : QPointF(0, 1);
        const bool pulls = anchor.normal.dot(way) > 0.1;
        const QPointF off = (pulls ? unit : -unit) * style.size_px * 1.05 + QPointF(0, -style.size_px * 0.3);
        label(painter, at + off, sizeText(load), style.load, style.halo, size);
    }
}

}  // namespace

void paintLoadSymbols(QPainter& painter, const Camera& camera, const QSizeF& size, const Solid& solid,
                      const LoadCase& loadCase, const SymbolStyle& style, std::span<const Vec3> displacement,
                      double displacementScale) {
    painter.save();
    painter.setRenderHint(QPainter::Antialiasing);
    for (const Hold& hold : loadCase.holds)
        if (const auto anchor = anchorOf(solid, hold.face, displacement, displacementScale))
            paintHold(painter, camera.project(anchor->place, size), style);
    if (const auto anchor = anchorOf(solid, loadCase.measuredFace, displacement, displacementScale))
        paintMeasure(painter, camera.project(anchor->place, size), onScreen(camera, loadCase.measuredDirection), style);
    for (const Load& load : loadCase.loads)
        if (const auto anchor = anchorOf(solid, load.face, displacement, displacementScale))
            paintLoad(painter, camera, size, *anchor, load, style);
    painter.restore();
}

}  // namespace waybench
