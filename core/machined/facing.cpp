#include "core/machined/facing.h"

namespace waybench::machined {

void planFacing(const Workshop& shop, const SetUp& setUp, int number, double excess_mm, OperationPlan& plan) {
    if (excess_mm <= 0.02 || shop.endMills.empty()) return;
    const Tool* best = nullptr;
    double bestRate = 0;
    for (const Tool* tool : shop.endMills) {
        const CuttingData c = chooseMilling(*shop.material, *shop.mill, *tool, CutKind::facing, 0);
        const double rate = c.depth_mm * c.width_mm * c.feed_mm_s;
        if (rate > bestRate) {
            bestRate = rate;
            best = tool;
        }
    }
    const CuttingData c = chooseMilling(*shop.material, *shop.mill, *best, CutKind::facing, 0);
    // so far beyond the outline that its slot is cut in faced material
    const Region area = offsetBy(setUp.outline, best->diameter_mm / 2 + 0.5);
    const std::vector<Pass> passes = rasterOver(area, c.width_mm);
    CutMotion motion = motionFor(shop, c, *best, 0, 2);
    addWork(plan, OperationKind::facing, number, *best, c, passes, timeOf(passes, motion, *shop.mill),
            levelsFor(excess_mm, c.depth_mm), areaOf(area) * excess_mm, excess_mm, setUp.high_mm);
}

}  // namespace waybench::machined
