#include "core/machined/machined_route.h"

#include <algorithm>
#include <cmath>

#include "core/fault/input_fault.h"
#include "core/machined/machining_evaluation.h"

namespace waybench::machined {
namespace {

constexpr double kAveragingLength_mm = 2;  // judgement.md 4.2
constexpr double kFatigueShare = 0.3;      // where no fatigue strength is on file (common practice, no source)

/// A modulus factor that stops at the service temperature.
Figure coveredFactor(const StockMaterial& material, double temperature, double duration_h, bool& isTooHot) {
    if (temperature <= material.serviceTemperature.value) return modulusFactor(material, temperature, duration_h);
    isTooHot = true;
    return modulusFactor(material, material.serviceTemperature.value, duration_h);
}

void chooseStrength(MachiningEvaluation& e) {
    e.strength_MPa = e.material.yieldStrength.low;
    e.strengthReason = "minimum yield strength";
    if (e.part.loadCase.duration != Duration::cyclic) return;
    const double fatigue =
        e.material.fatigueAmplitude ? e.material.fatigueAmplitude->low : kFatigueShare * e.strength_MPa;
    if (fatigue < e.strength_MPa) {
        e.strength_MPa = fatigue;
        e.strengthReason = "fatigue amplitude (the load taken as fully reversed)";
    }
}

std::string recipeLine(const MachiningEvaluation& e) {
    std::string from;
    for (const Direction d : e.access.directions)
        from += (from.empty() ? "" : ", ") + std::string(nameOf(d));
    return e.material.title + " from " + e.stock.text + ", " + std::to_string(e.clampings) +
           (e.clampings == 1 ? " set-up from " : " set-ups from ") + from + ", " +
           std::to_string(toolChangesOf(e.work)) + " tool changes, " + e.mill.title;
}

void planWork(MachiningEvaluation& e, Fidelity fidelity, const Task& task) {
    const Solid& solid = *e.part.solid;
    e.workshop = workshopFor(e.shop, e.plan);
    e.part_mm3 = volumeOf(solid.mesh);
    e.size_mm = boundsOf(solid.mesh).size();
    const AccessGrid grid = accessGridOf(solid, fidelity, task, reachOf(e.workshop));
    e.access = planAccess(grid, solid);
    task.report(0.3);
    e.setUps = setUpsFor(solid, grid, e.access, fidelity, task);
    task.report(0.6);
    e.stock = chooseStock(e.shop, e.plan, boundsOf(e.setUps.front().mesh).size());
    e.work = planOperations(e.workshop, e.setUps, e.stock.excess_mm, task);
    e.clampings = static_cast<int>(e.setUps.size());
    if (e.work.needsTurnForOutline && e.clampings == 1) e.clampings = 2;
    task.report(1);
}

}  // namespace

MachinedRoute::MachinedRoute(const Shop& shop, Plan plan, std::string tariff)
    : shop_(shop), plan_(std::move(plan)), tariff_(std::move(tariff)) {}

RouteOutcome MachinedRoute::evaluate(const RouteTask& part, Fidelity fidelity, const Task& task) const {
    MachiningEvaluation e{part,
                          shop_,
                          plan_,
                          shop_.stockMaterial(plan_.material),
                          shop_.mill(plan_.mill),
                          shop_.tariff(tariff_),
                          {},
                          {},
                          {},
                          {},
                          {},
                          1,
                          0,
                          Vec3::Zero(),
                          {},
                          false,
                          0,
                          {},
                          {},
                          0};
    const LoadCase& loadCase = part.loadCase;
    const BoundLoadCase bound = bind(loadCase, *part.solid);
    e.force_N = totalForce(*part.solid, bound).norm();
    planWork(e, fidelity, task.part(0, 0.3));

    const double hours = loadCase.duration == Duration::hours ? loadCase.duration_h : 0;
    e.modulusFactor = coveredFactor(e.material, loadCase.temperature_celsius, hours, e.isTooHot);
    chooseStrength(e);
    Body body;
    body.solid = part.solid.get();
    body.law = isotropicLaw(e.material.modulus.value * e.modulusFactor.value, e.material.poissonRatio.value);
    body.density_g_per_mm3 = e.material.density_g_per_cm3.value / 1000;
    StrengthLaw strength;
    strength.inLayer_MPa = e.strength_MPa;
    strength.averagingLength_mm = kAveragingLength_mm;
    Resolution resolution;
    resolution.fidelity = fidelity;
    resolution.comfortableMargin = kComfortable * loadCase.strengthFactor;
    e.structure = std::make_shared<const StructureAnswer>(
        solveStructure(body, strength, bound, resolution, task.part(0.3, 0.98)));

    RouteOutcome outcome;
    outcome.kind = RouteKind::machined;
    outcome.solid = part.solid;
    outcome.structure = e.structure;
    outcome.recipe = recipeLine(e);
    addTimes(e, outcome);
    addStructureFigures(e, outcome);
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
