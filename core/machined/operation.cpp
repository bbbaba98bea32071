#include "core/machined/operation.h"

#include <algorithm>
#include <cmath>

#include "core/machined/drilling.h"

namespace waybench::machined {

const char* nameOf(OperationKind kind) {
    switch (kind) {
        case OperationKind::facing:
            return "face the blank";
        case OperationKind::pocket:
            return "clear pockets";
        case OperationKind::rest:
            return "clear corners and narrow places";
        case OperationKind::surface:
            return "surface by levels";
        case OperationKind::drilling:
            return "drill";
        case OperationKind::boring:
            return "bore by helix";
        case OperationKind::finishing:
            return "finish walls";
        case OperationKind::edge_break:
            return "break edges";
        case OperationKind::outline:
            return "cut the outline";
        case OperationKind::outline_finish:
            return "finish the outline";
    }
    return "";
}

double lowestPoint(const Operation& o, std::size_t place, const SetUp& setUp, bool isHalf) {
    double z = o.heights_mm[place];
    const bool isOutline = o.kind == OperationKind::outline || o.kind == OperationKind::outline_finish;
    if (isOutline && isHalf) {
        z = 0.5 * (setUp.low_mm + setUp.high_mm) - kBreakThrough_mm;
    } else if (z < setUp.low_mm + 1e-6) {
        z -= kBreakThrough_mm;
        if (o.kind == OperationKind::drilling) z -= pointLength(o.tool->diameter_mm, o.tool->pointAngle_deg);
    }
    return std::max(z, setUp.high_mm - o.tool->stickOut_mm);
}

Workshop workshopFor(const Shop& shop, const Plan& plan) {
    Workshop w;
    w.material = &shop.stockMaterial(plan.material);
    w.mill = &shop.mill(plan.mill);
    w.plan = plan;
    std::vector<const Tool*> tooFast;
    for (const Tool& tool : shop.tools) {
        if (!(tool.diameter_mm > 0) || !(tool.stickOut_mm > 0)) continue;
        switch (tool.kind) {
            case ToolKind::end_mill: {
                if (tool.diameter_mm < plan.smallestTool_mm - 1e-9) break;
                const CuttingData slot =
                    chooseMilling(*w.material, *w.mill, tool, CutKind::slot, plan.finishAllowance_mm);
                (slot.tooFast || !slot.withinLimits ? tooFast : w.endMills).push_back(&tool);
                break;
            }
            case ToolKind::drill:
                w.drills.push_back(&tool);
                break;
            case ToolKind::reamer:
                break;
            case ToolKind::chamfer:
                w.chamfers.push_back(&tool);
                break;
        }
    }
    if (w.endMills.empty()) w.endMills = tooFast;
    const auto larger = [](const Tool* a, const Tool* b) {
        return a->diameter_mm != b->diameter_mm ? a->diameter_mm > b->diameter_mm : a->key < b->key;
    };
    for (auto* list : {&w.endMills, &w.drills, &w.chamfers})
        std::stable_sort(list->begin(), list->end(), larger);
    return w;
}

ToolReach reachOf(const Workshop& shop) {
    ToolReach reach;
    for (const Tool* tool : shop.endMills)
        reach.endMill_mm = std::max(reach.endMill_mm, tool->stickOut_mm);
    for (const Tool* tool : shop.drills) {
        reach.drillDiameter_mm = std::max(reach.drillDiameter_mm, tool->diameter_mm);
        reach.drillDepth_mm = std::max(reach.drillDepth_mm, tool->fluteLength_mm);
    }
    return reach;
}

void addWork(OperationPlan& plan, OperationKind kind, int setUp, const Tool& tool, const CuttingData& cutting,
             const std::vector<Pass>& passes, const PathTime& oneLevel, int levels, double removed_mm3, double reach_mm,
             double height_mm) {
    auto found = std::find_if(plan.operations.begin(), plan.operations.end(), [&](const Operation& o) {
        return o.kind == kind && o.setUp == setUp && o.tool == &tool;
    });
    if (found == plan.operations.end()) {
        Operation fresh;
        fresh.kind = kind;
        fresh.setUp = setUp;
        fresh.tool = &tool;
        fresh.cutting = cutting;
        plan.operations.push_back(fresh);
        found = plan.operations.end() - 1;
    }
    found->seconds += levels * oneLevel.seconds;
    found->cutting_seconds += levels * oneLevel.cutting_seconds;
    found->cut_mm += levels * oneLevel.cut_mm;
    found->removed_mm3 += removed_mm3;
    found->reach_mm = std::max(found->reach_mm, reach_mm);
    found->levels += levels;
    found->passes.push_back(passes);
    found->heights_mm.push_back(height_mm);
}

double linkFor(const Tool& tool) {
    return 1.5 * tool.diameter_mm;
}

CutMotion motionFor(const Workshop& shop, const CuttingData& cutting, const Tool& tool, double step_mm,
                    double lift_mm) {
    const StockGroup group = shop.material->group;
    const bool soft = group == StockGroup::polymer || group == StockGroup::panel;
    CutMotion motion;
    motion.feed_mm_s = cutting.feed_mm_s;
    motion.step_mm = step_mm;
    motion.lift_mm = lift_mm;
    motion.link_mm = linkFor(tool);
    motion.rampAngle_deg = soft ? 5 : 2;
    return motion;
}

int levelsFor(double depth_mm, double step_mm) {
    return std::max(1, static_cast<int>(std::ceil(depth_mm / step_mm - 1e-6)));
}

}  // namespace waybench::machined
