#include "core/machined/machined_route.h"

#include <algorithm>
#include <cmath>

#include "core/fault/input_fault.h"
#include "core/machined/machining_evaluation.h"

namespace waybench::machined {
namespace {

constexpr double kAveragingLength_mm = 2;                  // judgement.md 4.2
constexpr double kFirstFatigue = 1e3, kFullFatigue = 1e7;  // cycles
constexpr double kFatigueShare = 0.3;  // where no fatigue strength is on file (common practice, no source)

/// A modulus factor that stops at the service temperature.
Figure coveredFactor(const StockMaterial& material, double temperature, double duration_h, bool& isTooHot) {
    if (temperature <= material.serviceTemperature.value) return modulusFactor(material, temperature, duration_h);
    isTooHot = true;
    return modulusFactor(material, material.serviceTemperature.value, duration_h);
}

/// Strength for the load case. Polymers, panels and laminates lose it with heat and time as they lose modulus (common
/// practice, no source). Repeated loads: a line from the yield strength at a thousand cycles to the fatigue amplitude
/// at ten million, logarithmic in the cycles (common practice, no source); beyond that the amplitude.
void chooseStrength(const MachiningEvaluation& e, MachinedCase& c) {
    c.strength = e.material.yieldStrength;
    c.strengthReason = "yield strength";
    const LoadCase& loadCase = c.loadCase();
    if (loadCase.duration == Duration::cyclic && loadCase.cycles > kFirstFatigue) {
        Figure fatigue = e.material.fatigueAmplitude.value_or(e.material.yieldStrength.times(kFatigueShare));
        const double share =
            std::clamp(std::log(loadCase.cycles / kFirstFatigue) / std::log(kFullFatigue / kFirstFatigue), 0.0, 1.0);
        const auto between = [&](double yield, double tired) {
            return yield * std::pow(std::min(1.0, tired / yield), share);
        };
        const Figure& y = e.material.yieldStrength;
        const double value = between(y.value, fatigue.value);
        c.strength = Figure::bounded(value, std::min(value, between(y.low, fatigue.low)),
                                     std::max(value, between(y.high, fatigue.high)), Unit::megapascal, Origin::computed,
                                     e.material.fatigueAmplitude ? fatigue.note : y.note);
        c.strengthReason = "fatigue strength at " + shown(loadCase.cycles) + " cycles (fully reversed load)" +
                           (e.material.fatigueAmplitude ? "" : ", from 0.3 of the yield strength");
    }
    if (!isMetal(e.material.group) && c.modulusFactor.value < 0.999) {
        const std::string note = c.strength.note;
        c.strength = product(c.strength, c.modulusFactor, Unit::megapascal).named(note);
        c.strengthReason += ", times " + shown(c.modulusFactor.value) + " for heat and duration";
    }
}

/// Solves one load case.
MachinedCase caseOf(const MachiningEvaluation& e, BoundLoadCase bound, Fidelity fidelity, const Task& task) {
    MachinedCase c;
    c.begin(std::move(bound), *e.part.solid);
    c.modulusFactor = coveredFactor(e.material, c.loadCase().temperature_celsius, c.hours(), c.isTooHot);
    chooseStrength(e, c);
    Body body;
    body.solid = e.part.solid.get();
    body.law = isotropicLaw(e.material.modulus.value * c.modulusFactor.value, e.material.poissonRatio.value);
    body.density_g_per_mm3 = e.material.density_g_per_cm3.value / 1000;
    StrengthLaw strength;
    strength.inLayer_MPa = c.strength.value;
    strength.averagingLength_mm = kAveragingLength_mm;
    Resolution resolution;
    resolution.fidelity = fidelity;
    resolution.comfortableMargin = kComfortable * c.loadCase().strengthFactor;
    c.solve(body, strength, resolution, task);
    return c;
}

std::string recipeLine(const MachiningEvaluation& e) {
    std::string from;
    for (const Direction d : e.access.directions)
        from += (from.empty() ? "" : ", ") + std::string(nameOf(d));
    return e.material.title + " from " + e.stock.text + ", " + std::to_string(e.clampings) +
           (e.clampings == 1 ? " set-up from " : " set-ups from ") + from + ", " +
           std::to_string(toolChangesOf(e.work)) + " tool changes, " + e.mill.title;
}

}  // namespace

MachinedRoute::MachinedRoute(const Shop& shop, Plan plan, std::string tariff)
    : shop_(shop), plan_(std::move(plan)), tariff_(std::move(tariff)) {}

RouteOutcome MachinedRoute::evaluate(const RouteTask& part, Fidelity fidelity, const Task& task) const {
    MachiningEvaluation e(part, shop_, plan_, tariff_);
    std::vector<BoundLoadCase> bound = bindAll(part.loadCases(), *part.solid);
    planWork(e, fidelity, task.part(0, 0.3));
    const double share = 0.68 / double(bound.size());
    for (std::size_t i = 0; i < bound.size(); ++i)
        e.cases.push_back(
            caseOf(e, std::move(bound[i]), fidelity, task.part(0.3 + share * double(i), 0.3 + share * double(i + 1))));

    RouteOutcome outcome;
    outcome.kind = RouteKind::machined;
    outcome.solid = part.solid;
    for (const MachinedCase& c : e.cases)
        outcome.cases.push_back(caseAnswer(e, c));
    showCase(outcome, worstCaseOf(outcome));
    outcome.recipe = recipeLine(e);
    addTimes(e, outcome);
    addResourceFigures(e, outcome);
    addAccuracyFigures(e, outcome);
    addWarnings(e, outcome);
    addAssumptions(e, outcome);
    addDetails(e, outcome);
    addCautions(e, outcome);
    checkOutcome(outcome);
    task.report(1);
    return outcome;
}

}  // namespace waybench::machined
