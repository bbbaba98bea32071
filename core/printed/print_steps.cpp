#include <charconv>

#include "core/printed/print_evaluation.h"

namespace waybench::printed {
namespace {

// Stripping supports and brim, common practice, no source.
constexpr double kStripStart_s = 60;
constexpr double kStripPerSquareCentimetre_s = 20;
constexpr double kBreakOffBrim_s = 90;

}  // namespace

std::vector<Step> stepsOf(const PrintEvaluation& e) {
    std::vector<Step> steps;
    const auto machine = [&](const std::string& name, double seconds) {
        if (seconds > 0) steps.push_back({name, seconds, seconds, 0});
    };
    const auto kind = [&](PathKind k) { return e.job.others.path_s[static_cast<std::size_t>(k)]; };
    const LayerTime& layers = e.job.others;
    const double start = e.printer.handsOnStart.value, remove = e.printer.handsOnRemove.value;
    if (start > 0) steps.push_back({"load filament, clean bed, start", start, start, start});
    machine("heat bed and nozzle", e.energy.heatUp_s);
    machine("home and probe", e.printer.homingAndProbing.value);
    machine("first layer", e.job.firstLayer.total_s());
    machine("supports", kind(PathKind::support));
    machine("contours", kind(PathKind::outer_contour) + kind(PathKind::inner_contour));
    machine("solid fill", kind(PathKind::solid_fill) + kind(PathKind::bridge));
    machine("infill", kind(PathKind::infill));
    machine("travel, retracts and layer changes", layers.travel_s + layers.retract_s + layers.change_s);
    machine("wait for small layers to cool", layers.wait_s);
    if (remove > 0) steps.push_back({"remove the part", remove, remove, remove});
    if (e.job.support_mm3 > 0) {
        const double strip = kStripStart_s + kStripPerSquareCentimetre_s * e.job.supports.overhang_mm2 / 100;
        steps.push_back({"strip supports", strip, 0, strip});
    }
    if (e.job.brim_mm3 > 0) steps.push_back({"break off the brim", kBreakOffBrim_s, 0, kBreakOffBrim_s});
    return steps;
}

}  // namespace waybench::printed
