#include "app/layers/time_share.h"

#include <QCoreApplication>
#include <QPainter>
#include <QPen>
#include <QPolygonF>

namespace waybench {

TimeShare shareOf(printed::PathKind kind) {
    return static_cast<TimeShare>(static_cast<std::size_t>(kind));
}

QString wordOf(TimeShare share) {
    const auto tr = [](const char* words) { return QCoreApplication::translate("TimeShare", words); };
    switch (share) {
        case TimeShare::outer_contour:
            return tr("outer contour");
        case TimeShare::inner_contour:
            return tr("inner contours");
        case TimeShare::solid_fill:
            return tr("solid fill");
        case TimeShare::infill:
            return tr("infill");
        case TimeShare::support:
            return tr("supports");
        case TimeShare::bridge:
            return tr("bridges");
        case TimeShare::brim:
            return tr("brim");
        case TimeShare::travel:
            return tr("travel");
        case TimeShare::retract:
            return tr("retract, prime");
        case TimeShare::wait:
            return tr("wait to cool");
        case TimeShare::change:
            return tr("layer change");
    }
    return {};
}

double secondsOf(const printed::LayerTime& time, TimeShare share) {
    switch (share) {
        case TimeShare::travel:
            return time.travel_s;
        case TimeShare::retract:
            return time.retract_s;
        case TimeShare::wait:
            return time.wait_s;
        case TimeShare::change:
            return time.change_s;
        default:
            return time.path_s[static_cast<std::size_t>(share)];
    }
}

std::optional<double> lengthOf_mm(const printed::LayerTime& time, TimeShare share) {
    if (share == TimeShare::travel) return time.travel_mm;
    if (static_cast<std::size_t>(share) < printed::kPathKinds) return time.path_mm[static_cast<std::size_t>(share)];
    return std::nullopt;
}

ShareLook lookOf(TimeShare share, const Palette& p) {
    switch (share) {
        case TimeShare::outer_contour:
            return {p.text, 2.2, Qt::SolidPattern};
        case TimeShare::inner_contour:
            return {p.mark, 1.4, Qt::SolidPattern};
        case TimeShare::solid_fill:
            return {p.printed, 0.8, Qt::BDiagPattern};
        case TimeShare::infill:
            return {p.accent, 1.2, Qt::DiagCrossPattern};
        case TimeShare::support:
            return {p.caution, 1.0, Qt::Dense4Pattern};
        case TimeShare::bridge:
            return {p.printed, 2, Qt::VerPattern};
        case TimeShare::brim:
            return {p.accent, 0.8, Qt::Dense6Pattern};
        case TimeShare::travel:
            return {p.muted, 0.9, Qt::HorPattern};
        case TimeShare::retract:
            return {p.muted, 1.2, Qt::Dense3Pattern};
        case TimeShare::wait:
            return {p.mark, 1, Qt::NoBrush};
        case TimeShare::change:
            return {p.rule, 1, Qt::SolidPattern};
    }
    return {};
}

void paintShare(QPainter& painter, const QPolygonF& area, TimeShare share, const Palette& palette, bool isThin) {
    const ShareLook look = lookOf(share, palette);
    const auto fill = [&](const QBrush& brush) {
        painter.setBrush(brush);
        painter.drawPolygon(area);
    };
    painter.setPen(Qt::NoPen);
    if (look.hatch == Qt::NoBrush) {  // empty: seen by its edge
        painter.setPen(QPen(look.colour, 1));
        fill(palette.sheet);
    } else if (look.hatch == Qt::SolidPattern) {
        fill(look.colour);
    } else {
        QColor tint = look.colour;
        tint.setAlphaF(isThin ? 0.6F : 0.28F);
        fill(palette.sheet);
        fill(tint);
        if (!isThin) {
            QBrush hatch(look.colour, look.hatch);
            const double ratio = painter.device()->devicePixelRatioF();
            hatch.setTransform(QTransform::fromScale(1 / ratio, 1 / ratio));
            fill(hatch);
        }
    }
    painter.setPen(Qt::NoPen);
    painter.setBrush(Qt::NoBrush);
}

}  // namespace waybench
