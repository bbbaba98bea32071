#pragma once
#include <QImage>
#include <QLineF>
#include <QPointF>

#include "app/layers/time_share.h"
#include "core/printed/layer_view.h"
#include "core/progress/task.h"

class QPainterPath;

namespace waybench {

/// Which stretch of the bed is seen, from above, x to the right and y away from the eye's foot.
struct LayerFrame {
    QPointF centre_mm;
    double scale = 1;  ///< pixels per millimetre

    QPointF toWindow(const Vec2& p, const QSizeF& window) const;
    Vec2 toBed(const QPointF& pixel, const QSizeF& window) const;
};

struct LayerStyle {
    Palette palette;
    ShareSwitches shown{};
};

/// Outline of a region in bed millimetres, holes left open.
QPainterPath outlineOf(const Region& region);
/// The section of the part as a quiet area, supports as a faint tint: what stands before a layer is laid out.
void paintSection(QPainter& painter, const QPainterPath& outline, const QPainterPath& support, const LayerFrame& frame,
                  const QSizeF& window, const Palette& palette);

constexpr double kArrow_px = 6;
/// The head at the end of a travel.
void paintArrowhead(QPainter& painter, const QLineF& way, const QColor& colour);
/// Where the filament is drawn back.
void paintRing(QPainter& painter, const QPointF& at, double radius_px, const QColor& colour, const QColor& ground);

/// One layer with its beads. From three pixels of bead width on, beads are drawn as wide as they lie, else as lines;
/// kinds are told apart by weight and colour. A travel ends in an arrowhead; one with the filament drawn back begins
/// with a ring. Runs in any thread.
/// @throws Cancelled
QImage paintLayer(const printed::LaidLayer& layer, const LayerFrame& frame, const QSize& window, double ratio,
                  const LayerStyle& style, const Task& task);

}  // namespace waybench
