#include "core/machined/edge_break.h"

#include <algorithm>

namespace waybench::machined {
namespace {

constexpr double kEdge_mm = 0.3;

}  // namespace

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
    CuttingData c = chooseMilling(*shop.material, *shop.mill, tool, CutKind::finishing, kEdge_mm);
    // What is cut is a triangle of the edge's size, not a wall of full depth.
    const double share = 0.5 * std::min(1.0, kEdge_mm / c.depth_mm);
    c.depth_mm = std::min(c.depth_mm, kEdge_mm);
    c.force_N = c.force_N.times(share);
    c.power_W = c.power_W.times(share);
    c.torque_Nmm *= share;
    c.deflection_mm *= share;
    c.stress_MPa *= share;
    const std::vector<Pass> passes = contoursOf(top);
    if (passes.empty()) return;
    const CutMotion motion = motionFor(shop, c, tool, 0, 2);
    addWork(plan, OperationKind::edge_break, number, tool, c, passes, timeOf(passes, motion, *shop.mill), 1, 0, 0.5,
            setUp.high_mm - kEdge_mm);
}

}  // namespace waybench::machined
