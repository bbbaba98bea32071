#include "app/twinview/load_symbols.h"

#include <QCoreApplication>
#include <QPainter>
#include <QString>
#include <algorithm>
#include <cmath>
#include <optional>
#include <vector>

#include "app/twinview/symbol_strokes.h"
#include "core/fault/input_fault.h"
#include "core/quantity/quantity_text.h"

namespace waybench {

namespace {

constexpr double kAlongSight = 0.12;  // seen shorter than this, an arrow would point at the reader

QString tr(const char* words) {
    return QCoreApplication::translate("LoadSymbols", words);
}

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

QPointF onScreen(const Camera& camera, const Vec3& direction) {
    return {direction.dot(camera.right()), -direction.dot(camera.up())};
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
        paintArrow(painter, at + QPointF(isAntiClockwise ? 0.25 * r : r, isAntiClockwise ? r : -0.2 * r),
                   isAntiClockwise ? QPointF(1, 0) : QPointF(0, 1), style.size_px * 0.45, style.load, style.halo,
                   style.pen_px * 0.7);
    } else if (seen < kAlongSight) {  // along the line of sight: a dot (towards the eye) or a cross (away)
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
        paintArrow(painter, pulls ? at + unit * length : at, unit, length, style.load, style.halo, style.pen_px);
    }
    if (style.withText) {
        const QPointF unit = seen > kAlongSight ? QPointF(flat / seen) : QPointF(0, 1);
        const bool pulls = anchor.normal.dot(way) > 0.1;
        const QPointF off = (pulls ? unit : -unit) * style.size_px * 1.05 + QPointF(0, -style.size_px * 0.3);
        paintSymbolLabel(painter, at + off, sizeText(load), style.load, style.halo, size);
    }
}

QString massText(const AttachedMass& mass) {
    return QString::fromStdString(describeValue(Figure::exact(mass.mass_g, Unit::gram)));
}

/// The place itself, or beside it across `along` where other symbols stand in the way.
QPointF freeNear(const QPointF& place, const QPointF& along, const std::vector<QPointF>& taken, double room) {
    const QPointF across(-along.y(), along.x());
    for (const double step : {0.0, 1.0, -1.0, 2.0, -2.0}) {
        const QPointF there = place + across * step * room;
        const auto isNear = [&](const QPointF& other) {
            return std::hypot(other.x() - there.x(), other.y() - there.y()) < 0.9 * room;
        };
        if (std::none_of(taken.begin(), taken.end(), isNear)) return there;
    }
    return place;
}

void paintWeight(QPainter& painter, const Camera& camera, const QSizeF& size, const Solid& solid, const Vec3& gravity,
                 const std::vector<QPointF>& taken, const SymbolStyle& style) {
    const QPointF flat = onScreen(camera, gravity.normalized());
    const double seen = std::hypot(flat.x(), flat.y());
    const QPointF at = freeNear(camera.project(centroidOf(solid.mesh), size),
                                seen >= kAlongSight ? QPointF(flat / seen) : QPointF(0, 1), taken, 1.6 * style.size_px);
    QPointF wordsAt = at + QPointF(0, style.size_px * 0.6);
    if (seen >= kAlongSight) {
        const QPointF unit = flat / seen;
        const double length = style.size_px * (0.7 + 0.5 * seen);
        paintArrow(painter, at + unit * (length + style.size_px * 0.25), unit, length, style.hold, style.halo,
                   style.pen_px, true);
        wordsAt = at + unit * style.size_px * 1.75;
    }
    paintCentreSymbol(painter, at, style);
    if (!style.withText) return;
    const double multiple = std::round(gravity.norm() * 100) / 100;
    const QString words =
        multiple == 1 ? tr("weight") : tr("weight × %1").arg(QString::fromStdString(plainNumber(multiple)));
    paintSymbolLabel(painter, wordsAt, words, style.hold, style.halo, size);
}

}  // namespace

void paintLoadSymbols(QPainter& painter, const Camera& camera, const QSizeF& size, const Solid& solid,
                      const LoadCase& loadCase, const SymbolStyle& style, std::span<const Vec3> displacement,
                      double displacementScale) {
    painter.save();
    painter.setRenderHint(QPainter::Antialiasing);
    std::vector<QPointF> taken;
    const auto at = [&](const FaceSelector& face, const auto& paint) {
        const auto anchor = anchorOf(solid, face, displacement, displacementScale);
        if (!anchor) return;
        taken.push_back(camera.project(anchor->place, size));
        paint(*anchor, taken.back());
    };
    for (const Hold& hold : loadCase.holds)
        at(hold.face, [&](const Anchor&, const QPointF& p) { paintHoldSymbol(painter, p, hold.kind, style); });
    at(loadCase.measuredFace, [&](const Anchor&, const QPointF& p) {
        paintMeasure(painter, p, onScreen(camera, loadCase.measuredDirection), style);
    });
    for (const Load& load : loadCase.loads)
        at(load.face,
           [&](const Anchor& anchor, const QPointF&) { paintLoad(painter, camera, size, anchor, load, style); });
    for (const AttachedMass& mass : loadCase.masses)
        at(mass.face,
           [&](const Anchor&, const QPointF& p) { paintMassSymbol(painter, p, massText(mass), size, style); });
    if (loadCase.gravity.norm() > 0) paintWeight(painter, camera, size, solid, loadCase.gravity, taken, style);
    painter.restore();
}

}  // namespace waybench
