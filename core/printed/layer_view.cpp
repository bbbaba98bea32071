#include "core/printed/layer_view.h"

#include "core/printed/bead.h"

namespace waybench::printed {
namespace {

constexpr double kSmallestTravel_mm = 1e-6;

/// Width of a bead of some height whose area over its height is the spacing: voidFreeSpacing_mm solved for the width.
double widthFilling(double spacing_mm, double height_mm) {
    const double excess = height_mm - voidFreeSpacing_mm({height_mm, height_mm});
    return spacing_mm + excess;
}

}  // namespace

LayerView::LayerView(const Mesh& mesh, const Recipe& recipe, const Printer& printer, const PrintingMaterial& material,
                     const Task& task)
    : recipe_(asLaid(recipe)),
      stack_((beadSpacing_mm(recipe), sectionStack(mesh, recipe_, task.part(0, 0.5)))),
      supports_(supportStack(stack_, recipe_, 1, task.part(0.5, 1))),
      spacing_mm_(beadSpacing_mm(recipe)),
      first_(paceOf(printer, material, spacing_mm_ * stack_.layers.front().height_mm, true)),
      other_(paceOf(printer, material, spacing_mm_ * stack_.layers.back().height_mm, false)) {
    task.report(1);
}

LaidLayer LayerView::laid(std::size_t k, const Task& task) const {
    LaidLayer layer;
    layer.index = k;
    layer.place = stack_.layers.at(k);
    layer.beadWidth_mm = widthFilling(spacing_mm_, layer.place.height_mm);
    layer.content = layerContent(stack_, k, recipe_, spacing_mm_);
    task.check();
    const Region& support = supportOf(k);
    layer.support_mm2 = supports_.areas_mm2[supports_.regionOfLayer[k]];
    const Pace& pace = k == 0 ? first_ : other_;
    layer.time =
        timeOf(tracksOf(layer.content, support, recipe_, spacing_mm_, printed::placeOf(stack_, k)), pace,
               [&](PathKind kind, const std::vector<Vec2>& points) {
                   task.check();
                   if (!layer.passages.empty()) {
                       const Vec2 from = layer.passages.back().points.back();
                       const double length = (points.front() - from).norm();
                       if (length > kSmallestTravel_mm)
                           layer.passages.push_back({true, kind, length > kRetractBeyond_mm, {from, points.front()}});
                   }
                   layer.passages.push_back({false, kind, false, points});
               });
    const std::size_t inner = static_cast<std::size_t>(PathKind::inner_contour);
    layer.time.path_mm[inner] += layer.content.gapFill_mm;
    layer.time.path_s[inner] += layer.content.gapFill_mm / pace.speed_mm_s[inner];
    closeLayer(layer.time, pace);
    return layer;
}

}  // namespace waybench::printed
