#include "core/machined/hole_making.h"

#include <algorithm>
#include <cmath>

#include "core/machined/drilling.h"
#include "core/machined/pocketing.h"
#include "core/motion/planner.h"

namespace waybench::machined {
namespace {

constexpr double kPi = 3.14159265358979323846;
constexpr double kDrillFit_mm = 0.05;
constexpr double kClearance_mm = 2;
constexpr double kDwell_s = 0.35;

double wallHeightAbove(const SetUp& setUp, const Hole& hole) {
    const Region around{circlePass(hole.centre, hole.diameter_mm / 2 + kColletClearance_mm).points};
    for (std::size_t k = setUp.slabs.size(); k-- > 0;) {
        if (setUp.slabs[k].top_mm <= hole.top_mm + 1e-6) break;
        if (areaOf(intersectionOf(around, setUp.slabs[k].shadow)) > 0.5) return setUp.slabs[k].top_mm;
    }
    return hole.top_mm;
}

const Tool* nearest(const std::vector<const Tool*>& tools, double low, double high, double target, double flute,
                    double reach) {
    const Tool* best = nullptr;
    for (const Tool* tool : tools) {
        if (tool->diameter_mm < low || tool->diameter_mm > high) continue;
        if (tool->fluteLength_mm < flute || tool->stickOut_mm < reach) continue;
        if (!best || std::abs(tool->diameter_mm - target) < std::abs(best->diameter_mm - target)) best = tool;
    }
    return best;
}

Pass dots(const std::vector<Vec2>& places) {
    return {places, false};
}

void addDrilling(const Workshop& shop, const SetUp& setUp, int number, const Hole& hole, const Tool& tool,
                 OperationPlan& plan) {
    const double depth = hole.top_mm - hole.bottom_mm;
    const CuttingData c = chooseDrilling(*shop.material, *shop.mill, tool, depth);
    PathTime time;
    time.seconds = drillingTime(shop, c, tool, depth, hole.isThrough);
    // the way from the hole before, taken as the middle distance over the part
    const double way = 0.35 * std::sqrt(std::max(1.0, areaOf(setUp.outline)));
    time.seconds += moveTime(way, shop.mill->rapid.value, shop.mill->acceleration_mm_s2.value, 0, 0) +
                    2 * moveTime(setUp.high_mm - hole.top_mm + kClearance_mm, shop.mill->rapidVertical.value,
                                 shop.mill->accelerationVertical_mm_s2.value, 0, 0);
    time.cutting_seconds = depth / c.feed_mm_s;
    time.cut_mm = depth;
    addWork(plan, OperationKind::drilling, number, tool, c, {dots({hole.centre})}, time, 1,
            kPi / 4 * hole.diameter_mm * hole.diameter_mm * depth, depth, hole.bottom_mm);
}

void addBoring(const Workshop& shop, const SetUp& setUp, int number, const Hole& hole, const Tool& tool,
               OperationPlan& plan) {
    const double depth = hole.top_mm - hole.bottom_mm + (hole.isThrough ? kBreakThrough_mm : 0);
    CuttingData c = chooseMilling(*shop.material, *shop.mill, tool, CutKind::slot, shop.plan.finishAllowance_mm);
    c.feed_mm_s *= 0.5;  // ramping and helical feed at most half (S58)
    c.feedPerTooth_mm *= 0.5;
    const double radius = (hole.diameter_mm - tool.diameter_mm) / 2;
    CutMotion motion = motionFor(shop, c, tool, 0, setUp.high_mm - hole.bottom_mm + kClearance_mm);
    const double pitch = std::min(c.depth_mm, 2 * kPi * radius * std::tan(motion.rampAngle_deg * kPi / 180));
    const std::vector<Pass> turn{circlePass(hole.centre, radius)};
    const int turns = levelsFor(depth, pitch) + 1;  // the last one levels the end of the helix and sizes the wall
    std::vector<Pass> helix(static_cast<std::size_t>(turns), turn.front());
    addWork(plan, OperationKind::boring, number, tool, c, turn, timeOf(helix, motion, *shop.mill), 1,
            kPi / 4 * hole.diameter_mm * hole.diameter_mm * (hole.top_mm - hole.bottom_mm), depth, hole.bottom_mm);
}

}  // namespace

std::vector<HoleMaking> holesToMake(const Workshop& shop, const SetUp& setUp) {
    std::vector<HoleMaking> made;
    for (const Hole& hole : setUp.holes) {
        HoleMaking m;
        m.hole = hole;
        const double d = hole.diameter_mm, depth = hole.top_mm - hole.bottom_mm;
        const double reach = wallHeightAbove(setUp, hole) - hole.bottom_mm + 0.5;
        const double flute = depth + (hole.isThrough ? pointLength(d, 118) : 0);
        m.drill = nearest(shop.drills, d - kDrillFit_mm, d + kDrillFit_mm, d, flute, reach);
        const bool drillBurns =
            m.drill && chooseDrilling(*shop.material, *shop.mill, *m.drill, depth).tooFast;  // then a helix is kinder
        if (!m.drill || drillBurns)
            for (const Tool* tool : shop.endMills)
                if (tool->diameter_mm < 0.8 * d && tool->diameter_mm > 0.53 * d && tool->stickOut_mm >= reach) {
                    m.endMill = tool;
                    break;
                }
        if (m.endMill) m.drill = nullptr;
        if (m.drill || m.endMill) made.push_back(m);
    }
    return made;
}

double drillingTime(const Workshop& shop, const CuttingData& cutting, const Tool& drill, double depth_mm,
                    bool through) {
    const double way =
        depth_mm + (through ? pointLength(drill.diameter_mm, drill.pointAngle_deg) + kBreakThrough_mm : 0);
    double seconds = (way + 1.0) / cutting.feed_mm_s;
    const StockGroup group = shop.material->group;
    const double freeDepth = (group == StockGroup::steel || group == StockGroup::stainless ? 2 : 3) * drill.diameter_mm;
    if (way > freeDepth)
        for (double at = drill.diameter_mm; at < way; at += 0.75 * drill.diameter_mm)
            seconds += 2 * at / shop.mill->rapidVertical.value + kDwell_s;
    return seconds;
}

void planHoles(const Workshop& shop, const SetUp& setUp, int number, const std::vector<HoleMaking>& holes,
               OperationPlan& plan) {
    for (const HoleMaking& m : holes) {
        if (m.drill) {
            addDrilling(shop, setUp, number, m.hole, *m.drill, plan);
            ++plan.drilledHoles;
        }
        if (m.endMill) {
            addBoring(shop, setUp, number, m.hole, *m.endMill, plan);
            ++plan.helicalHoles;
        }
    }
}

}  // namespace waybench::machined
