#include "core/machined/outline_cut.h"

#include <algorithm>
#include <cmath>

#include "core/machined/pocketing.h"

namespace waybench::machined {
namespace {

constexpr double kTabSeconds = 2;  // two ramps each (1 to 3 s, common practice, no source)
constexpr double kSliver_mm = 0.03;

Region innerCorners(const Region& outline, double radius) {
    const Region grown = offsetBy(outline, radius, Corner::round);
    const Region left = differenceOf(offsetBy(grown, -radius, Corner::round), outline);
    return offsetBy(offsetBy(left, -kSliver_mm), kSliver_mm);
}

}  // namespace

int tabsFor(double perimeter_mm) {
    return std::max(3, static_cast<int>(std::lround(perimeter_mm / 80)));
}

std::vector<Tab> tabPlaces(const Region& outline, int tabs, double width_mm) {
    std::vector<Tab> places;
    const Ring* outer = nullptr;
    for (const Ring& ring : outline)
        if (!outer || signedArea(ring) > signedArea(*outer)) outer = &ring;
    if (!outer || tabs < 1) return places;
    struct Run {
        double middle = 0, length = 0;
        Vec2 at = Vec2::Zero(), along = Vec2::Zero();
    };
    std::vector<Run> runs;
    double whole = 0;
    for (std::size_t i = 0; i < outer->size(); ++i) {
        const Vec2 a = (*outer)[i], b = (*outer)[(i + 1) % outer->size()];
        const double length = (b - a).norm();
        if (!(length > 0)) continue;
        runs.push_back({whole + length / 2, length, 0.5 * (a + b), (b - a) / length});
        whole += length;
    }
    for (int k = 0; k < tabs; ++k) {
        const double wanted = (k + 0.5) * whole / tabs, share = whole / tabs;
        const Run* best = nullptr;
        double shift = 0, nearest = 1e300;
        for (const Run& run : runs) {
            // Anywhere on a long run, as near to the wanted place as its ends allow.
            const double room = 0.5 * run.length - width_mm;
            if (room < 0) continue;
            const double offset = std::clamp(wanted - run.middle, -room, room);
            const double away = std::abs(run.middle + offset - wanted);
            if (away > 0.5 * share || away >= nearest) continue;
            nearest = away;
            best = &run;
            shift = offset;
        }
        if (!best)
            for (const Run& run : runs)
                if (const double away = std::abs(run.middle - wanted); away < nearest) {
                    nearest = away;
                    best = &run;
                    shift = 0;
                }
        places.push_back({best->at + shift * best->along, Vec2(best->along.y(), -best->along.x())});
    }
    return places;
}

void planOutline(const Workshop& shop, const SetUp& setUp, int number, OperationPlan& plan) {
    const double height = setUp.high_mm - setUp.low_mm, whole = height + kBreakThrough_mm;
    const auto reaches = [](const Tool* tool, double depth) { return tool->stickOut_mm >= depth + 0.5; };
    const auto any = [&](double depth) {
        return std::any_of(shop.endMills.begin(), shop.endMills.end(),
                           [&](const Tool* t) { return reaches(t, depth); });
    };
    double depth = whole;
    if (!any(whole)) {
        plan.needsTurnForOutline = true;
        depth = height / 2 + kBreakThrough_mm;
    }
    if (!any(depth)) {
        Leftover left;
        const Vec3 middle = rotationToUp(setUp.direction) * boundsOf(setUp.mesh).centre();
        left.place = rotationToUp(setUp.direction).transpose() * middle;
        left.volume_mm3 = perimeterOf(setUp.outline) * height;
        left.share = 1;
        left.tooDeep = true;
        left.depth_mm = depth;
        plan.leftovers.push_back(left);
        return;
    }
    const Tool* best = nullptr;
    double bestSeconds = 0;
    for (const Tool* tool : shop.endMills) {
        if (!reaches(tool, depth)) continue;
        const CuttingData c =
            chooseMilling(*shop.material, *shop.mill, *tool, CutKind::slot, shop.plan.finishAllowance_mm);
        const double length = perimeterOf(offsetBy(setUp.outline, tool->diameter_mm / 2, Corner::round));
        double seconds = levelsFor(whole, c.depth_mm) * length / c.feed_mm_s;
        if (areaOf(innerCorners(setUp.outline, tool->diameter_mm / 2)) > 0.03) seconds += shop.mill->toolChange.value;
        if (!best || seconds < bestSeconds) {
            best = tool;
            bestSeconds = seconds;
        }
    }
    const double radius = best->diameter_mm / 2, allowance = shop.plan.finishAllowance_mm;
    const double reach = depth;
    const CuttingData c = chooseMilling(*shop.material, *shop.mill, *best, CutKind::slot, allowance);
    const std::vector<Pass> rough = contoursOf(offsetBy(setUp.outline, radius + allowance, Corner::round));
    const CutMotion motion = motionFor(shop, c, *best, c.depth_mm, height + 2);
    PathTime time = timeOf(rough, motion, *shop.mill);
    addWork(plan, OperationKind::outline, number, *best, c, rough, time, levelsFor(whole, c.depth_mm),
            lengthOf(rough) * best->diameter_mm * height, reach, setUp.low_mm);
    if (shop.plan.tabs) {
        plan.tabs = tabsFor(perimeterOf(setUp.outline));
        PathTime tabTime;
        tabTime.seconds = kTabSeconds;
        addWork(plan, OperationKind::outline, number, *best, c, {}, tabTime, plan.tabs, 0, reach, setUp.low_mm);
    }
    if (allowance > 0) {
        const CuttingData f = chooseMilling(*shop.material, *shop.mill, *best, CutKind::finishing, allowance);
        const std::vector<Pass> fine = contoursOf(offsetBy(setUp.outline, radius, Corner::round));
        const CutMotion fineMotion = motionFor(shop, f, *best, 0, height + 2);
        addWork(plan, OperationKind::outline_finish, number, *best, f, fine, timeOf(fine, fineMotion, *shop.mill),
                levelsFor(height, f.depth_mm), 0, reach, setUp.low_mm);
    }
    Pocket corners;
    corners.region = innerCorners(setUp.outline, radius);
    if (areaOf(corners.region) < 0.03) return;
    corners.shadow = setUp.outline;
    corners.top_mm = corners.wallTop_mm = setUp.high_mm;
    corners.bottom_mm = setUp.high_mm - std::min(height, depth);
    for (Region& island : islandsOf(corners.region)) {
        Pocket one = corners;
        one.region = std::move(island);
        const std::size_t before = plan.leftovers.size();
        planPocket(shop, setUp, number, one, areaOf(setUp.outline) * height, plan);
        for (std::size_t i = before; i < plan.leftovers.size(); ++i)
            if (plan.leftovers[i].cornerRadius_mm <= 0) {
                plan.leftovers[i].cornerRadius_mm = radius;  // no smaller one reaches
                plan.leftovers[i].share = plan.leftovers[i].volume_mm3 / (areaOf(setUp.outline) * height);
            }
    }
}

}  // namespace waybench::machined
