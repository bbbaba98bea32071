#include "core/machined/edge_break.h"

namespace waybench::machined {

void planEdgeBreak(const Workshop& shop, const SetUp& setUp, int number, OperationPlan& plan) {
    const double lower = perimeterOf(setUp.slabs.front().section);
    const Region& top = setUp.slabs.back().section;
    const double upper = perimeterOf(top);
    plan.edge_mm += number == 0 ? lower : 0;
    if (shop.chamfers.empty()) {
        plan.edge_mm += upper;
        return;
    }
    const Tool& tool = *shop.chamfers.front();
    const CuttingData c = chooseMilling(*shop.material, *shop.mill, tool, CutKind::finishing, 0.3);
    const std::vector<Pass> passes = contoursOf(top);
    if (passes.empty()) return;
    const CutMotion motion = motionFor(shop, c, tool, 0, 2);
    addWork(plan, OperationKind::edge_break, number, tool, c, passes, timeOf(passes, motion, *shop.mill), 1, 0, 0.5,
            setUp.high_mm - 0.3);
}

}  // namespace waybench::machined
