#include "core/machined/operations.h"

#include <algorithm>

#include "core/machined/edge_break.h"
#include "core/machined/facing.h"
#include "core/machined/hole_making.h"
#include "core/machined/outline_cut.h"
#include "core/machined/pocketing.h"

namespace waybench::machined {

OperationPlan planOperations(const Workshop& shop, const std::vector<SetUp>& setUps, double excess_mm,
                             const Task& task) {
    OperationPlan plan;
    for (std::size_t i = 0; i < setUps.size(); ++i) {
        task.check();
        const SetUp& setUp = setUps[i];
        const int number = static_cast<int>(i);
        if (i == 0) planFacing(shop, setUp, number, excess_mm, plan);
        const std::vector<HoleMaking> holes = holesToMake(shop, setUp);
        std::vector<Hole> made;
        for (const HoleMaking& m : holes)
            made.push_back(m.hole);
        planPockets(shop, setUp, number, pocketsOf(setUp, made), plan, task);
        planHoles(shop, setUp, number, holes, plan);
        planEdgeBreak(shop, setUp, number, plan);
        if (i == 0) planOutline(shop, setUp, number, plan);
    }
    std::stable_sort(plan.operations.begin(), plan.operations.end(), [](const Operation& a, const Operation& b) {
        if (a.setUp != b.setUp) return a.setUp < b.setUp;
        if (a.kind != b.kind) return a.kind < b.kind;
        return a.tool->diameter_mm > b.tool->diameter_mm;
    });
    return plan;
}

int toolChangesOf(const OperationPlan& plan) {
    int changes = 0, setUp = -1;
    const Tool* tool = nullptr;
    for (const Operation& o : plan.operations) {
        if (o.tool != tool || o.setUp != setUp) ++changes;
        tool = o.tool;
        setUp = o.setUp;
    }
    return changes;
}

}  // namespace waybench::machined
