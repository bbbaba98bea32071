#include "core/printed/printed_route.h"

#include <algorithm>
#include <cmath>

#include "core/fault/input_fault.h"
#include "core/printed/print_evaluation.h"
#include "core/quantity/quantity_text.h"

namespace waybench::printed {
namespace {

/// A modulus factor that stops at the last temperature the softening law covers.
Figure coveredFactor(const PrintingMaterial& material, double temperature, double duration_h, bool& isTooHot) {
    try {
        return modulusFactor(material, temperature, duration_h);
    } catch (const InputFault& fault) {
        if (fault.code() != "temperature_too_high") throw;
        isTooHot = true;
        return modulusFactor(material, temperatureLimit_celsius(material) - 0.01, duration_h);
    }
}

/// What the uncertainty of the infill's law does to the part: the law's own band times the share of stiffness the
/// infill carries, and no less than 8 % as its shear is not in that share (common practice, no source).
InfillSpread infillSpreadOf(const Recipe& recipe, const PrintJob& job) {
    if (recipe.infillShare >= 1 || job.infillSpace_mm3 < 0.01 * job.section_mm3) return {};
    const InfillModuli moduli = infillModuli(recipe.infill, recipe.infillShare);
    const double share = infillStiffnessShare(recipe, job.wall_mm3 + job.skin_mm3, job.infillSpace_mm3);
    return {std::max(0.08, share * moduli.below), std::max(0.08, share * moduli.above)};
}

/// Solves one load case. Precondition: everything else of the evaluation stands.
PrintedCase caseOf(const PrintEvaluation& e, BoundLoadCase bound, Fidelity fidelity, const Task& task) {
    PrintedCase c;
    c.begin(std::move(bound), *e.part.solid);
    const LoadCase& loadCase = c.loadCase();
    c.modulusFactor = coveredFactor(e.material, loadCase.temperature_celsius, c.hours(), c.isTooHot);
    const Figure heat = coveredFactor(e.material, loadCase.temperature_celsius, 0, c.isTooHot);
    c.heatFactor = heat.value;
    c.strength = strengthFactor(e.material, loadCase, heat);
    Resolution resolution;
    resolution.fidelity = fidelity;
    resolution.comfortableMargin = kComfortable * loadCase.strengthFactor;
    c.solve(bodyOf(e.recipe, e.material, *e.part.solid, c.modulusFactor.value),
            strengthOf(e.recipe, e.material, e.acrossRatio, c.strength), resolution, task);
    return c;
}

std::string recipeLine(const PrintEvaluation& e) {
    const Recipe& r = e.recipe;
    return e.material.title + ", " + plainNumber(r.layerThickness_mm) + " mm layers, " + std::to_string(r.walls) +
           (r.walls == 1 ? " wall, " : " walls, ") + shown(100 * r.infillShare) + " % " + nameOf(r.infill) + ", " +
           upText(r) + " up" + (e.job.support_mm3 > 0 ? ", supports" : "") + "; " + e.printer.title;
}

}  // namespace

void addTimes(const PrintEvaluation& e, RouteOutcome& outcome) {
    outcome.steps = stepsOf(e);
    // own paths with an acceleration model: +/-10 to 20 % (printed-route.md 8); a draft integrates between layers
    const double draft = e.isDraft ? 0.1 : 0;
    const Figure hands = sumShared({e.printer.handsOnStart, e.printer.handsOnRemove});
    setTimes(outcome, std::hypot(0.12, draft), std::hypot(0.2, draft), hands.relativeBelow(), hands.relativeAbove());
    const std::string printing = std::to_string(e.job.layers) + " layers, " + shown(e.job.layers_s() / 60) + " min";
    outcome.workings[Question::machine_time] =
        "every layer max(paths + travels, " + shown(e.material.minimumLayerTime.value) + " s) + " +
        shown(e.printer.layerChange.value) + " s: " + printing + "; heat-up " + shown(e.energy.heatUp_s / 60) +
        " min, homing " + shown(e.printer.homingAndProbing.value / 60) +
        " min, start and removal by hand; accelerated "
        "moves under the flow limit " +
        shown(e.printer.flowLimit_mm3_s.value * e.material.flowFactor.value) + " mm3/s [" +
        e.printer.flowLimit_mm3_s.note + "]";
    outcome.workings[Question::hands_on_time] = "start " + shown(e.printer.handsOnStart.value / 60) +
                                                " min + removal " + shown(e.printer.handsOnRemove.value / 60) +
                                                " min + stripping supports [" + e.printer.handsOnStart.note + "]";
    outcome.workings[Question::elapsed_time] = "sum of the steps, one after another";
}

PrintEvaluation evaluationOf(const RouteTask& part, const Recipe& recipe, const Shop& shop, const std::string& tariff,
                             Fidelity fidelity, const Task& task) {
    PrintEvaluation e{part,
                      recipe,
                      shop.printingMaterial(recipe.material),
                      shop.printer(recipe.printer),
                      shop.tariff(tariff),
                      fidelity == Fidelity::draft,
                      {},
                      {},
                      {},
                      {}};
    std::vector<BoundLoadCase> bound = bindAll(part.loadCases(), *part.solid);
    e.job = printJob(part.solid->mesh, recipe, e.printer, e.material, e.isDraft, task.part(0, 0.3));
    const double density = e.material.density_g_per_cm3.value;
    e.energy = printEnergy(e.printer, e.material, e.job.layers_s() + e.printer.homingAndProbing.value,
                           (e.job.part_mm3() + e.job.support_mm3 + e.job.brim_mm3) / 1000 * density);
    e.acrossRatio = e.material.strengthRatioAcross;
    if (e.material.needsEnclosure && !e.printer.isEnclosed)  // splits between layers in the open: the low bound counts
        e.acrossRatio = Figure::bounded(e.acrossRatio.low, e.acrossRatio.low, e.acrossRatio.value, Unit::none,
                                        e.acrossRatio.origin, e.acrossRatio.note);
    e.infillSpread = infillSpreadOf(recipe, e.job);
    const double share = 0.68 / double(bound.size());
    for (std::size_t i = 0; i < bound.size(); ++i)
        e.cases.push_back(
            caseOf(e, std::move(bound[i]), fidelity, task.part(0.3 + share * double(i), 0.3 + share * double(i + 1))));
    return e;
}

PrintedRoute::PrintedRoute(const Shop& shop, Recipe recipe, std::string tariff)
    : shop_(shop), recipe_(asLaid(std::move(recipe))), tariff_(std::move(tariff)) {}

RouteOutcome PrintedRoute::evaluate(const RouteTask& part, Fidelity fidelity, const Task& task) const {
    const PrintEvaluation e = evaluationOf(part, recipe_, shop_, tariff_, fidelity, task);
    RouteOutcome outcome;
    outcome.kind = RouteKind::printed;
    outcome.solid = part.solid;
    for (const PrintedCase& c : e.cases)
        outcome.cases.push_back(caseAnswer(e, c));
    showCase(outcome, worstCaseOf(outcome));
    outcome.recipe = recipeLine(e);
    addTimes(e, outcome);
    addResourceFigures(e, outcome);
    addAccuracyFigures(e, outcome);
    addWarnings(e, outcome);
    addAssumptions(e, outcome);
    addDetails(e, outcome);
    addSummary(e, outcome);
    addCautions(e, outcome);
    checkOutcome(outcome);
    task.report(1);
    return outcome;
}

}  // namespace waybench::printed
