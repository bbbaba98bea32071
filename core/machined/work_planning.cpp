#include "core/machined/machining_evaluation.h"

#include <algorithm>

namespace waybench::machined {
namespace {

/// The blank around the part in the first set-up, the part itself in later ones and where it is turned for the lower
/// half of a deep outline.
std::vector<HoldingCheck> holdingOf(const MachiningEvaluation& e, bool withRemedy, const Task& task) {
    std::vector<HoldingCheck> checks;
    const auto heldIn = [&](const SetUp& s, const Workholding& method, const Vec3& size) {
        const Box3 box = boundsOf(s.mesh);
        HeldWork held;
        held.method = &method;
        held.clamps = e.plan.clamps;
        const Vec2 middle = box.centre().head<2>(), half = 0.5 * size.head<2>();
        held.low = middle - half;
        held.high = middle + half;
        held.underside = s.slabs.front().section;
        held.bottom_mm = box.low.z();
        held.height_mm = size.z();
        return held;
    };
    const Workholding &first = e.shop.workholding(e.plan.holding), &later = e.shop.workholding(e.plan.holdingTurned);
    for (std::size_t i = 0; i < e.setUps.size(); ++i) {
        const SetUp& s = e.setUps[i];
        const HeldWork held = i == 0 ? heldIn(s, first, e.stock.size_mm) : heldIn(s, later, boundsOf(s.mesh).size());
        checks.push_back(checkHolding(held, static_cast<int>(i), e.work.operations, withRemedy, task));
    }
    if (e.work.needsTurnForOutline && e.setUps.size() == 1) {
        std::vector<Operation> turned;
        for (const Operation& o : e.work.operations)
            if (o.kind == OperationKind::outline || o.kind == OperationKind::outline_finish) {
                turned.push_back(o);
                turned.back().setUp = 1;
            }
        checks.push_back(checkHolding(heldIn(e.setUps.front(), later, e.stock.size_mm), 1, turned, withRemedy, task));
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
      tariff(workshopTables.tariff(tariffKey)) {
    checkKeys(chosen, workshopTables);
}

bool MachiningEvaluation::cutsOut() const {
    return std::any_of(work.operations.begin(), work.operations.end(),
                       [](const Operation& o) { return o.setUp == 0 && o.kind == OperationKind::outline; });
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
    e.holding = holdingOf(e, fidelity == Fidelity::standard, task);
    e.tabs = checkTabs(e.work, e.material, e.margin_mm(), boundsOf(e.setUps.front().mesh).size().z(),
                       e.plan.finishAllowance_mm);
    e.clampings = static_cast<int>(e.setUps.size());
    if (e.work.needsTurnForOutline && e.clampings == 1) e.clampings = 2;
    if (fidelity == Fidelity::standard) e.proof = proveRemoval(e.setUps, e.work, e.stock.size_mm, 0, task.part(0.6, 1));
    task.report(1);
}

}  // namespace waybench::machined
