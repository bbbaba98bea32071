#include "core/machined/pocketing.h"

#include <algorithm>
#include <cmath>
#include <optional>

namespace waybench::machined {
namespace {

constexpr double kSliver_mm = 0.03;
constexpr double kLeastLeft_mm2 = 0.03;
constexpr double kClearance_mm = 2;  // height of rapids over the work
constexpr double kStairs_mm = 0.1;   // level distance on curved and sloping surfaces
constexpr double kSlugShare = 0.3;   // a window whose core is larger than this share is cut round, not cleared

Region disc(const Vec2& centre, double radius) {
    return {circlePass(centre, radius).points};
}

Box3 boundsOfRegion(const Region& region) {
    Box3 box;
    for (const Ring& ring : region)
        for (const Vec2& p : ring)
            box.include({p.x(), p.y(), 0});
    return box;
}

bool sameIsland(const Region& a, const Region& b) {
    const double areaA = areaOf(a), areaB = areaOf(b);
    if (std::abs(areaA - areaB) > 2e-3 * areaA + 0.02) return false;
    const Box3 boxA = boundsOfRegion(a), boxB = boundsOfRegion(b);
    if ((boxA.low - boxB.low).norm() > 0.05 || (boxA.high - boxB.high).norm() > 0.05) return false;
    return std::abs(perimeterOf(a) - perimeterOf(b)) < 5e-3 * perimeterOf(a) + 0.05;
}

/// What of the shadow can matter to a tool in the region; keeps the polygons small.
Region near(const Region& shadow, const Region& region) {
    constexpr double kFarthestTool_mm = 30;
    const Box3 box = boundsOfRegion(region);
    const Vec2 low = box.low.head<2>() - Vec2::Constant(kFarthestTool_mm);
    const Vec2 high = box.high.head<2>() + Vec2::Constant(kFarthestTool_mm);
    return intersectionOf(shadow, {{low, {high.x(), low.y()}, high, {low.x(), high.y()}}});
}

Vec3 placeOf(const SetUp& setUp, const Region& region, double height) {
    const Ring* largest = nullptr;
    for (const Ring& ring : region)
        if (!largest || signedArea(ring) > signedArea(*largest)) largest = &ring;
    Vec2 middle = Vec2::Zero();
    if (largest) {
        for (const Vec2& p : *largest)
            middle += p;
        middle /= static_cast<double>(largest->size());
    }
    return rotationToUp(setUp.direction).transpose() * Vec3(middle.x(), middle.y(), height);
}

bool reaches(const Tool& tool, double depth) {
    return tool.stickOut_mm >= depth + 0.5;
}

double ratePerSecond(const CuttingData& c) {
    return c.depth_mm * c.width_mm * c.feed_mm_s;
}

struct Choice {
    const Tool* tool = nullptr;
    Region left;
    double seconds = 0;
};

/// Quickest main tool: its own clearing, the rest at the pace of the finest tool, and one tool change when a rest is
/// left.
std::optional<Choice> mainTool(const Workshop& shop, const Pocket& pocket, double reach) {
    const double depth = pocket.top_mm - pocket.bottom_mm, area = areaOf(pocket.region);
    const Tool* finest = nullptr;
    for (const Tool* tool : shop.endMills)
        if (reaches(*tool, reach)) finest = tool;
    if (!finest) return std::nullopt;
    const double finePace = ratePerSecond(
        chooseMilling(*shop.material, *shop.mill, *finest, CutKind::clearing, shop.plan.finishAllowance_mm));
    std::optional<Choice> best;
    double diameter = 0;
    Region left;
    for (const Tool* tool : shop.endMills) {
        if (!reaches(*tool, reach)) continue;
        if (tool->diameter_mm != diameter) {
            // where a larger tool leaves nothing, a smaller one leaves nothing either
            if (diameter == 0 || !left.empty()) left = leftByTool(pocket.region, pocket.shadow, tool->diameter_mm);
            diameter = tool->diameter_mm;
        }
        const double leftArea = areaOf(left);
        if (leftArea > 0.98 * area) continue;
        const CuttingData c =
            chooseMilling(*shop.material, *shop.mill, *tool, CutKind::clearing, shop.plan.finishAllowance_mm);
        double seconds = (area - leftArea) * depth / ratePerSecond(c) + leftArea * depth / finePace;
        if (leftArea > 0) seconds += shop.mill->toolChange.value;
        if (!best || seconds < best->seconds) best = Choice{tool, left, seconds};
    }
    return best;
}

/// Lowest floor a cutter that fits in can reach beside the pocket's walls.
double deepestReach(const Workshop& shop, const Pocket& pocket) {
    double lowest = 1e300, diameter = 0;
    bool fits = false;
    for (const Tool* tool : shop.endMills) {
        if (reaches(*tool, pocket.wallTop_mm - pocket.bottom_mm + (pocket.isThrough ? 0.3 : 0)))
            return pocket.bottom_mm;
        if (tool->diameter_mm != diameter) {
            diameter = tool->diameter_mm;
            fits = areaOf(leftByTool(pocket.region, pocket.shadow, diameter)) < 0.98 * areaOf(pocket.region);
        }
        if (fits) lowest = std::min(lowest, pocket.wallTop_mm - tool->stickOut_mm + 0.5);
    }
    return lowest;
}

void finishWalls(const Workshop& shop, const SetUp& setUp, int number, const Pocket& pocket, const Tool& tool,
                 double reach, OperationPlan& plan) {
    const double depth = pocket.top_mm - pocket.bottom_mm;
    const CuttingData c =
        chooseMilling(*shop.material, *shop.mill, tool, CutKind::finishing, shop.plan.finishAllowance_mm);
    const std::vector<Pass> passes = contoursOf(toolCentres(pocket.region, pocket.shadow, tool.diameter_mm / 2));
    if (passes.empty()) return;
    const double step = pocket.isPrismatic ? c.depth_mm : std::min(kStairs_mm, c.depth_mm);
    const CutMotion motion = motionFor(shop, c, tool, 0, setUp.high_mm - pocket.bottom_mm + kClearance_mm);
    addWork(plan, pocket.isPrismatic ? OperationKind::finishing : OperationKind::surface, number, tool, c, passes,
            timeOf(passes, motion, *shop.mill), levelsFor(depth, step), 0, reach, pocket.bottom_mm);
}

/// Rings, or a single cut round when the core may fall out.
std::vector<Pass> clearingPasses(const Pocket& pocket, const Region& centres, double stepover, double radius) {
    if (pocket.isThrough) {
        const Region core = offsetBy(centres, -(2 * radius));
        if (areaOf(core) > kSlugShare * areaOf(pocket.region)) return contoursOf(centres);
    }
    std::vector<Pass> passes = ringsInside(centres, stepover);
    std::reverse(passes.begin(), passes.end());
    return passes;
}

void clear(const Workshop& shop, const SetUp& setUp, int number, const Pocket& pocket, const Tool& tool,
           OperationKind kind, double area, double reach, OperationPlan& plan) {
    const double depth = pocket.top_mm - pocket.bottom_mm, radius = tool.diameter_mm / 2;
    const CuttingData c =
        chooseMilling(*shop.material, *shop.mill, tool, CutKind::clearing, shop.plan.finishAllowance_mm);
    Region centres = toolCentres(pocket.region, pocket.shadow, radius + shop.plan.finishAllowance_mm);
    if (centres.empty()) centres = toolCentres(pocket.region, pocket.shadow, radius);
    const std::vector<Pass> passes = clearingPasses(pocket, centres, std::min(c.width_mm, radius), radius);
    if (passes.empty()) return;
    const CutMotion motion =
        motionFor(shop, c, tool, std::min(depth, c.depth_mm), setUp.high_mm - pocket.bottom_mm + kClearance_mm);
    double removed = area * depth;
    if (pocket.isThrough && passes.size() == centres.size())
        removed = std::min(removed, lengthOf(passes) * tool.diameter_mm * depth);
    addWork(plan, kind, number, tool, c, passes, timeOf(passes, motion, *shop.mill), levelsFor(depth, c.depth_mm),
            removed, reach, pocket.bottom_mm);
}

}  // namespace

Region toolCentres(const Region& region, const Region& shadow, double radius_mm) {
    const Region forbidden = offsetBy(shadow, radius_mm, Corner::round);
    Region inside = differenceOf(region, forbidden);
    const double uncovered = areaOf(differenceOf(region, offsetBy(inside, radius_mm, Corner::round)));
    const double little = 0.05 + 1e-3 * areaOf(region);
    if (uncovered < little) return inside;
    Region over = differenceOf(offsetBy(region, radius_mm), forbidden);
    const double uncoveredOver = areaOf(differenceOf(region, offsetBy(over, radius_mm, Corner::round)));
    return uncoveredOver < uncovered - little ? over : inside;
}

Region leftByTool(const Region& region, const Region& shadow, double diameter_mm) {
    const double r = diameter_mm / 2;
    const Region reachable = differenceOf(offsetBy(region, r), offsetBy(shadow, r, Corner::round));
    const Region left = differenceOf(region, offsetBy(reachable, r, Corner::round));
    Region kept;
    for (const Region& island : islandsOf(offsetBy(offsetBy(left, -kSliver_mm), kSliver_mm)))
        if (areaOf(island) > kLeastLeft_mm2) kept.insert(kept.end(), island.begin(), island.end());
    return kept;
}

std::vector<Pocket> pocketsOf(const SetUp& setUp, const std::vector<Hole>& madeHoles) {
    std::vector<Pocket> pockets;
    std::vector<std::size_t> open;  // pockets that reach down to the slab above
    for (std::size_t k = setUp.slabs.size(); k-- > 0;) {
        const Slab& slab = setUp.slabs[k];
        Region region = slab.removable;
        const double middle = 0.5 * (slab.bottom_mm + slab.top_mm);
        Region discs;
        for (const Hole& hole : madeHoles)
            if (middle > hole.bottom_mm && middle < hole.top_mm) {
                const Region one = disc(hole.centre, hole.diameter_mm / 2 + 0.06);
                discs.insert(discs.end(), one.begin(), one.end());
            }
        if (!discs.empty()) region = offsetBy(offsetBy(differenceOf(region, discs), -kSliver_mm), kSliver_mm);
        std::vector<std::size_t> nowOpen;
        for (Region& island : islandsOf(region)) {
            std::size_t joined = pockets.size();
            if (slab.isPrismatic)
                for (const std::size_t p : open)
                    if (pockets[p].isPrismatic && sameIsland(pockets[p].region, island)) joined = p;
            if (joined == pockets.size()) {
                Pocket fresh;
                fresh.region = std::move(island);
                fresh.top_mm = slab.top_mm;
                fresh.isPrismatic = slab.isPrismatic;
                pockets.push_back(std::move(fresh));
            }
            pockets[joined].bottom_mm = slab.bottom_mm;
            pockets[joined].shadow = near(slab.shadow, pockets[joined].region);
            pockets[joined].isThrough = slab.bottom_mm <= setUp.low_mm + 1e-6;
            nowOpen.push_back(joined);
        }
        open = std::move(nowOpen);
    }
    for (Pocket& pocket : pockets) {
        pocket.wallTop_mm = pocket.top_mm;
        const Region around = offsetBy(pocket.region, kColletClearance_mm);
        for (std::size_t k = setUp.slabs.size(); k-- > 0;) {
            if (setUp.slabs[k].top_mm <= pocket.top_mm) break;
            if (areaOf(intersectionOf(around, setUp.slabs[k].shadow)) > 0.5) {
                pocket.wallTop_mm = setUp.slabs[k].top_mm;
                break;
            }
        }
    }
    return pockets;
}

void planPocket(const Workshop& shop, const SetUp& setUp, int number, const Pocket& asked, double wholeVolume_mm3,
                OperationPlan& plan) {
    Pocket pocket = asked;
    const double lowest = deepestReach(shop, pocket);
    if (pocket.isPrismatic && lowest > pocket.bottom_mm + 0.01 && lowest < pocket.top_mm - 0.1) {
        // as far down as the longest cutter that fits reaches; the floor below it stays
        Leftover left;
        left.place = placeOf(setUp, pocket.region, pocket.bottom_mm);
        left.volume_mm3 = areaOf(pocket.region) * (lowest - pocket.bottom_mm);
        left.share = 1;
        left.tooDeep = true;
        left.depth_mm = pocket.wallTop_mm - pocket.bottom_mm;
        plan.leftovers.push_back(left);
        pocket.bottom_mm = lowest;
        pocket.isThrough = false;
    }
    const double depth = pocket.top_mm - pocket.bottom_mm;
    const double reach = pocket.wallTop_mm - pocket.bottom_mm + (pocket.isThrough ? 0.3 : 0);
    const auto leave = [&](const Region& region, double radius, bool tooDeep) {
        for (const Region& island : islandsOf(region)) {
            Leftover left;
            left.place = placeOf(setUp, island, pocket.bottom_mm);
            left.volume_mm3 = areaOf(island) * depth;
            left.share = left.volume_mm3 / std::max(wholeVolume_mm3, left.volume_mm3);
            left.cornerRadius_mm = radius;
            left.tooDeep = tooDeep;
            left.isSlice = !pocket.isPrismatic;
            left.depth_mm = reach;
            plan.leftovers.push_back(left);
        }
    };
    const std::optional<Choice> chosen = mainTool(shop, pocket, reach);
    if (!chosen) {
        const bool someFits = std::any_of(shop.endMills.begin(), shop.endMills.end(), [&](const Tool* tool) {
            return areaOf(leftByTool(pocket.region, pocket.shadow, tool->diameter_mm)) < 0.98 * areaOf(pocket.region);
        });
        leave(pocket.region, 0, someFits);
        return;
    }
    const Tool& tool = *chosen->tool;
    clear(shop, setUp, number, pocket, tool, OperationKind::pocket, areaOf(pocket.region) - areaOf(chosen->left), reach,
          plan);
    if (shop.plan.finishAllowance_mm > 0) finishWalls(shop, setUp, number, pocket, tool, reach, plan);
    if (areaOf(chosen->left) <= kLeastLeft_mm2) return;

    // the largest smaller tool that leaves hardly more than the smallest one
    const Tool* rest = nullptr;
    Region left = chosen->left;
    const double area = areaOf(left);
    double least = area;
    std::vector<std::pair<const Tool*, Region>> smaller;
    for (const Tool* t : shop.endMills)
        if (t->diameter_mm < tool.diameter_mm && reaches(*t, reach) &&
            (smaller.empty() || smaller.back().first->diameter_mm != t->diameter_mm)) {
            smaller.emplace_back(t, leftByTool(pocket.region, pocket.shadow, t->diameter_mm));
            least = std::min(least, areaOf(smaller.back().second));
        }
    for (auto& [t, remains] : smaller)
        if (areaOf(remains) <= 1.05 * least + 0.05 && areaOf(remains) < area) {
            rest = t;
            left = remains;
            break;
        }
    if (rest) {
        Pocket corners = pocket;
        corners.isThrough = false;
        corners.region = offsetBy(chosen->left, 0.2);
        corners.region = differenceOf(corners.region, pocket.shadow);
        clear(shop, setUp, number, corners, *rest, OperationKind::rest, area - areaOf(left), reach, plan);
    }
    if (areaOf(left) > kLeastLeft_mm2) leave(left, (rest ? rest : &tool)->diameter_mm / 2, false);
}

void planPockets(const Workshop& shop, const SetUp& setUp, int number, const std::vector<Pocket>& pockets,
                 OperationPlan& plan, const Task& task) {
    for (const Pocket& pocket : pockets) {
        task.check();
        // a slice of a curved space is no pocket of its own: its leftovers count against all that is removed
        const double own = areaOf(pocket.region) * (pocket.top_mm - pocket.bottom_mm);
        planPocket(shop, setUp, number, pocket, pocket.isPrismatic ? own : setUp.removed_mm3, plan);
    }
}

}  // namespace waybench::machined
