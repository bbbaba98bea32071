#include <algorithm>
#include <cmath>

#include "core/machined/machining_evaluation.h"

namespace waybench::machined {
namespace {

struct Ranked {
    Assumption assumption;
    double effect = 0;  ///< relative change of the figure named, over the assumption's own band
};

double bandOf(const Figure& f) {
    return f.value != 0 ? (f.high - f.low) / (2 * std::abs(f.value)) : 0;
}

}  // namespace

void addAssumptions(const MachiningEvaluation& e, RouteOutcome& outcome) {
    std::vector<Ranked> ranked;
    const double elapsed = std::max(1.0, outcome.at(Question::elapsed_time).value);
    const double cost = std::max(1e-6, outcome.at(Question::cost).value);
    const double energy = std::max(1e-6, outcome.at(Question::process_energy).value);
    const auto add = [&](const std::string& name, const Figure& figure, const std::string& effectOn, double share) {
        ranked.push_back({{name, figure, effectOn}, bandOf(figure) * share});
    };
    const double run = runSeconds(e.work);
    const double labour = outcome.at(Question::hands_on_time).value / 3600 * e.tariff.labour_per_h.value;
    const double load = e.cases[outcome.shownCase].loadCase().loadSpread;
    add("labour rate per hour", e.tariff.labour_per_h, "cost", labour / cost);
    add("attendance while the mill runs", e.mill.attendance, "hands-on time",
        run / std::max(1.0, outcome.at(Question::hands_on_time).value));
    add("time per tool change", e.mill.toolChange, "elapsed time",
        toolChangesOf(e.work) * e.mill.toolChange.value / elapsed);
    add("time to clamp the blank", e.mill.setUpClamp, "elapsed time", e.mill.setUpClamp.value / elapsed);
    if (e.clampings > 1)
        add("time to turn over and zero", e.mill.flipAndZero, "elapsed time",
            (e.clampings - 1) * e.mill.flipAndZero.value / elapsed);
    add("acceleration of the mill", e.mill.acceleration_mm_s2, "machine time", 0.3 * run / elapsed);
    add("step-down over tool diameter in a slot", e.material.slotDepthRatio, "machine time",
        cuttingSeconds(e.work) / elapsed);
    if (!e.material.chipLoads.empty())
        add("chip load per tooth at the largest tool listed", e.material.chipLoads.back().chipLoad, "machine time",
            cuttingSeconds(e.work) / elapsed);
    add("power of the turning spindle", e.mill.spindleIdlePower, "process energy",
        run / 3600 * e.mill.spindleIdlePower.value / energy);
    add("power of the extraction", e.mill.extractionPower, "process energy",
        run / 3600 * e.mill.extractionPower.value / energy);
    add("embodied energy of the stock, MJ per kg", e.material.embodied_MJ_per_kg, "embodied energy", 1);
    add("stiffness of the mill at the nose, N/um", e.mill.stiffness_N_per_um, "accuracy of sizes", 0.3);
    add("positioning of the mill", e.mill.positioning, "accuracy of sizes", 0.5);
    add("modulus of the stock", e.material.modulus, "deflection", 1);
    add("load, relative", Figure::bounded(1, 1 - std::min(load, 1.0), 1 + load, Unit::none, Origin::typed),
        "deflection", 1);
    add("yield strength of the stock", e.material.yieldStrength, "strength margin", 1);
    std::stable_sort(ranked.begin(), ranked.end(),
                     [](const Ranked& a, const Ranked& b) { return a.effect > b.effect; });
    for (Ranked& r : ranked)
        outcome.assumptions.push_back(std::move(r.assumption));
}

void addDetails(const MachiningEvaluation& e, RouteOutcome& outcome) {
    const auto add = [&](const std::string& name, double value, Unit unit) {
        outcome.details.emplace_back(name, Figure::exact(value, unit));
    };
    double removed = 0, way = 0;
    for (const Operation& o : e.work.operations) {
        removed += o.removed_mm3;
        way += o.cut_mm;
    }
    add("volume cut", removed, Unit::cubic_millimetre);
    add("way at feed", way, Unit::millimetre);
    add("tool changes", toolChangesOf(e.work), Unit::none);
    add("holes drilled", e.work.drilledHoles, Unit::none);
    add("holes bored by helix", e.work.helicalHoles, Unit::none);
    if (e.work.tabs > 0) add("tabs", e.work.tabs, Unit::none);
    for (const HoldingCheck& c : e.holding)
        if (c.tool != nullptr)
            outcome.details.emplace_back((e.holding.size() > 1 ? "set-up " + std::to_string(c.setUp + 1) + ", " : "") +
                                             "hold over cutting force, " + c.work.method->title,
                                         c.safety);
    if (e.work.tabs > 0) add("tabs over cutting force", e.tabs.safety(), Unit::none);
    add("blank over part, mass", e.stock.volume_mm3() / std::max(1e-9, e.part_mm3), Unit::none);
    double left = 0;
    for (const Leftover& l : e.work.leftovers)
        left += l.volume_mm3;
    add("left in corners and narrow places", left, Unit::cubic_millimetre);
    if (e.proof) {
        add("simulated: stands beyond the part", e.proof->leftover_mm3, Unit::cubic_millimetre);
        add("simulated: removed over asked", e.proof->removed_mm3 / std::max(1e-9, e.proof->asked_mm3), Unit::none);
        add("simulated: deepest gouge", e.proof->gouges.empty() ? 0 : e.proof->gouges.front().depth_mm,
            Unit::millimetre);
    }
    if (e.access.hidden_mm3 > 0) add("not reached from any side", e.access.hidden_mm3, Unit::cubic_millimetre);
    for (const Operation& o : e.work.operations) {
        const std::string name = (e.clampings > 1 ? "set-up " + std::to_string(o.setUp + 1) + ", " : std::string()) +
                                 nameOf(o.kind) + ", " + o.tool->title;
        add(name + ", time", o.seconds, Unit::second);
        add(name + ", speed (" + o.cutting.binding + ")", o.cutting.spindle_per_min, Unit::revolutions_per_minute);
        add(name + ", feed", o.cutting.feed_mm_s, Unit::millimetre_per_second);
        if (o.kind != OperationKind::drilling) add(name + ", step-down", o.cutting.depth_mm, Unit::millimetre);
        outcome.details.emplace_back(name + ", cutting power", o.cutting.power_W);
        outcome.details.emplace_back(name + (o.kind == OperationKind::drilling ? ", thrust" : ", force on the tool"),
                                     o.cutting.force_N);
    }
}

void addCautions(const MachiningEvaluation& e, RouteOutcome& outcome) {
    // machined-route.md section 13
    outcome.cautions = {
        "Eye and hearing protection for everyone near; no gloves, loose sleeves, ties or jewellery near a turning "
        "spindle; hands out until it has stopped; never unattended or alone, emergency stop within reach.",
        "Work and tool clamped, wrench removed; first run in the air 5 to 10 mm above; check clamps and tabs against "
        "the path. Chips are sharp and hot: brush or vacuum, never fingers or compressed air."};
    for (const std::string& c : e.material.cautions)
        outcome.cautions.push_back(c);
}

}  // namespace waybench::machined
