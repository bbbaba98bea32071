#include <algorithm>
#include <string>

#include "core/printed/print_evaluation.h"

namespace waybench::printed {
namespace {

std::string keyOf(PathKind kind) {
    std::string key = nameOf(kind);
    std::replace(key.begin(), key.end(), ' ', '_');
    return key;
}

/// Bands as those of the whole: own paths with an acceleration model +/-10 to 20 %, energy -30/+45 % (printed-route.md
/// 8 and 4.2), material 5 to 8 %, supports 35 %.
Figure seconds(double value) {
    return Figure::relative(value, 0.12, 0.2, Unit::second);
}
Figure wattHours(double value) {
    return Figure::relative(value, 0.3, 0.45, Unit::watt_hour);
}

}  // namespace

void addSummary(const PrintEvaluation& e, RouteOutcome& outcome) {
    const PrintJob& job = e.job;
    LayerTime all = job.firstLayer;
    all.add(job.others, 1);
    SummaryGroup layers{"layers", {}}, time{"path_time", {}}, length{"path_length", {}};
    layers.figures = {{"count", Figure::exact(static_cast<double>(job.layers), Unit::none)},
                      {"laid_out", Figure::exact(static_cast<double>(job.layersComputed), Unit::none)},
                      {"thickness", Figure::exact(e.recipe.layerThickness_mm, Unit::millimetre)}};
    for (std::size_t k = 0; k < kPathKinds; ++k) {
        const std::string key = keyOf(static_cast<PathKind>(k));
        time.figures.emplace_back(key, seconds(all.path_s[k]));
        length.figures.emplace_back(key, Figure::relative(all.path_mm[k], 0.02, 0.02, Unit::millimetre));
    }
    length.figures.emplace_back("travel", Figure::relative(all.travel_mm, 0.3, 0.3, Unit::millimetre));
    const SummaryGroup other{"other_time",
                             {{"travel", seconds(all.travel_s)},
                              {"retract_and_prime", seconds(all.retract_s)},
                              {"wait_for_small_layers", seconds(all.wait_s)},
                              {"layer_change", seconds(all.change_s)},
                              {"heat_up", seconds(e.energy.heatUp_s)},
                              {"homing_and_probing", e.printer.homingAndProbing}}};
    const SummaryGroup energy{"energy_by_phase",
                              {{"heat_up", wattHours(e.energy.heatUp_Wh)},
                               {"hold_bed", wattHours(e.energy.bed_Wh)},
                               {"hold_nozzle", wattHours(e.energy.nozzle_Wh)},
                               {"melt", wattHours(e.energy.melt_Wh)},
                               {"electronics_fans_and_motors", wattHours(e.energy.electronics_Wh)}}};
    const double used = job.part_mm3() + job.support_mm3 + job.brim_mm3;
    const auto volume = [](double value, double band) {
        return Figure::relative(value, band, band, Unit::cubic_millimetre);
    };
    const SummaryGroup material{"material",
                                {{"contours", volume(job.wall_mm3, 0.08)},
                                 {"solid_fill", volume(job.skin_mm3, 0.08)},
                                 {"infill", volume(job.infill_mm3, 0.08)},
                                 {"supports", volume(job.support_mm3, 0.35)},
                                 {"brim", volume(job.brim_mm3, 0.08)},
                                 {"support_share", Figure::relative(job.support_mm3 / used, 0.35, 0.35, Unit::none)}}};
    outcome.summary = {layers, time, other, length, energy, material};
}

}  // namespace waybench::printed
