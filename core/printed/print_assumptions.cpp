#include <algorithm>
#include <cmath>

#include "core/printed/print_evaluation.h"

namespace waybench::printed {
namespace {

struct Ranked {
    Assumption assumption;
    double influence = 0;  ///< logarithm of half the figure's band, as it reaches the answer
};

double halfBand(const Figure& f) {
    if (f.low > 0) return 0.5 * std::log(f.high / f.low);
    return f.value != 0 ? 0.5 * (f.high - f.low) / std::abs(f.value) : 0;
}

}  // namespace

void addAssumptions(const PrintEvaluation& e, RouteOutcome& outcome) {
    std::vector<Ranked> all;
    const auto add = [&](const std::string& name, const Figure& figure, const std::string& effect, double share) {
        all.push_back({{name, figure, effect}, share * halfBand(figure)});
    };
    const PrintingMaterial& m = e.material;
    const auto shareOf = [&](double part, double whole) { return whole > 0 ? part / whole : 0.0; };
    const double energy = e.energy.total_Wh();

    add("modulus in the layer", m.modulusInLayer, "deflection", 1);
    add("strength in the layer", m.strengthInLayer, "strength margin", 1);
    add("strength across layers over that in the layer", m.strengthRatioAcross, "strength margin", 1);
    add("modulus left after heat and duration", e.cases[outcome.shownCase].modulusFactor, "deflection", 1);
    const double load = e.cases[outcome.shownCase].loadCase().loadSpread;
    add("load over the load stated",
        Figure::relative(1, std::min(load, 0.9), load, Unit::none, Origin::typed, "load spread of the load case"),
        "deflection", 1);
    if (e.infillSpread.above > 0)
        add("stiffness of the part over that with the infill's law",
            Figure::bounded(1, 1 - e.infillSpread.below, 1 + e.infillSpread.above, Unit::none, Origin::table,
                            "as it reaches the stiffness of the part"),
            "deflection", 1);
    const double labour = outcome.at(Question::hands_on_time).value / 3600 * e.tariff.labour_per_h.value;
    const double cost = outcome.at(Question::cost).value;
    add("labour rate per hour", e.tariff.labour_per_h, "cost", shareOf(labour, cost));
    add("filament price per kg", m.price_per_kg, "cost",
        shareOf(outcome.at(Question::stock).value / 1000 * m.price_per_kg.value, cost));
    add("heat loss of the bed, W/m2K", e.printer.bedLoss_W_per_m2K, "process energy", shareOf(e.energy.bed_Wh, energy));
    add("power of electronics and fans", e.printer.electronicsPower, "process energy",
        shareOf(e.energy.electronics_Wh, energy));
    const bool anyFlowLimited =
        std::any_of(e.job.isFlowLimited.begin(), e.job.isFlowLimited.end(), [](bool b) { return b; });
    add("melt flow of the hot end with PLA, mm3/s", e.printer.flowLimit_mm3_s, "machine time",
        anyFlowLimited ? 0.5 : 0);
    const double printing = e.job.layers_s();
    add("minimum layer time", m.minimumLayerTime, "machine time", shareOf(e.job.others.wait_s, printing));
    const double walls = e.job.others.path_s[0] + e.job.others.path_s[1];
    add("acceleration in walls, mm/s2", e.printer.accelerationWall_mm_s2, "machine time",
        0.3 * shareOf(walls, printing));
    add("time to start a print by hand", e.printer.handsOnStart, "hands-on time",
        shareOf(e.printer.handsOnStart.value, outcome.at(Question::hands_on_time).value));
    add("share of prints that fail", e.printer.failureShare, "cost", e.printer.failureShare.value);
    add("service temperature under load", m.serviceTemperature, "temperature margin", 0.5);
    add("density, g/cm3", m.density_g_per_cm3, "mass", 1);
    std::stable_sort(all.begin(), all.end(),
                     [](const Ranked& a, const Ranked& b) { return a.influence > b.influence; });
    for (Ranked& r : all)
        if (r.influence > 0) outcome.assumptions.push_back(std::move(r.assumption));
}

}  // namespace waybench::printed
