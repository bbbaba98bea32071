#pragma once
#include <QBrush>
#include <QString>
#include <array>
#include <optional>
#include <vector>

#include "app/style/palette.h"
#include "core/printed/layer_schedule.h"

class QPainter;
class QPolygonF;

namespace waybench {

/// What the time of a layer goes to: the kinds of bead in the order of PathKind, and what lays nothing.
enum class TimeShare {
    outer_contour,
    inner_contour,
    solid_fill,
    infill,
    support,
    bridge,
    brim,
    travel,
    retract,
    wait,
    change
};
inline constexpr std::size_t kTimeShares = 11;
inline constexpr std::size_t kDrawnShares = 8;  ///< the first have lines to draw
static_assert(kDrawnShares == printed::kPathKinds + 1);
using ShareSwitches = std::array<bool, kTimeShares>;

TimeShare shareOf(printed::PathKind kind);
QString wordOf(TimeShare share);
double secondsOf(const printed::LayerTime& time, TimeShare share);
/// Length of the lines; none for what has no length.
std::optional<double> lengthOf_mm(const printed::LayerTime& time, TimeShare share);

/// How a share looks. Each differs from the others without colour too: lines by weight and tone, all unbroken as what
/// is laid is unbroken; areas by hatch.
struct ShareLook {
    QColor colour;
    double weight_px = 1;
    Qt::BrushStyle hatch = Qt::SolidPattern;
};
ShareLook lookOf(TimeShare share, const Palette& palette);
/// The share as an area: hatched in its colour on the sheet, by the pixels of what is painted on; a thin one in a solid
/// tint.
void paintShare(QPainter& painter, const QPolygonF& area, TimeShare share, const Palette& palette, bool isThin = false);

/// Times of all layers as the print job has them: first a draft's, then the full ones.
struct TimesOfLayers {
    std::vector<printed::LayerTime> layers;
    bool isComplete = false;
};

}  // namespace waybench
