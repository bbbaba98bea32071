#include "core/machined/machining_evaluation.h"

namespace waybench::machined {
namespace {

/// The blank around the part in the first set-up, the part itself in later ones.
std::vector<HoldingCheck> holdingOf(const MachiningEvaluation& e) {
    std::vector<HoldingCheck> checks;
    for (std::size_t i = 0; i < e.setUps.size(); ++i) {
        const SetUp& s = e.setUps[i];
        const Box3 box = boundsOf(s.mesh);
        HeldWork held;
        held.method = &e.shop.workholding(i == 0 ? e.plan.holding : e.plan.holdingTurned);
        held.clamps = e.plan.clamps;
        const Vec2 middle = box.centre().head<2>();
        const Vec2 half = 0.5 * (i == 0 ? e.stock.size_mm : box.size()).head<2>();
        held.low = middle - half;
        held.high = middle + half;
        held.underside = s.slabs.front().section;
        checks.push_back(checkHolding(held, static_cast<int>(i), e.work.operations));
    }
    return checks;
}

}  // namespace

MachiningEvaluation::MachiningEvaluation(const RouteTask& task, const Shop& workshopTables, const Plan& chosen,
                                         const std::string& tariffKey)
    : part(task),
      shop(workshopTables),
      plan(chosen),
      material(workshopTables.stockMaterial(chosen.material)),
      mill(workshopTables.mill(chosen.mill)),
      tariff(workshopTables.tariff(tariffKey)) {}

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
    e.holding = holdingOf(e);
    e.tabs = checkTabs(e.work, e.material);
    e.clampings = static_cast<int>(e.setUps.size());
    if (e.work.needsTurnForOutline && e.clampings == 1) e.clampings = 2;
    if (fidelity == Fidelity::standard) e.proof = proveRemoval(e.setUps, e.work, e.stock.size_mm, 0, task.part(0.6, 1));
    task.report(1);
}

}  // namespace waybench::machined
