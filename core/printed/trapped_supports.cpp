#include "core/printed/trapped_supports.h"

#include <algorithm>
#include <numeric>

namespace waybench::printed {
namespace {

constexpr double kOpening_mm2 = 0.01;  // smaller gaps are noise of the sections

/// Neighbouring layers of one section.
struct Run {
    std::uint32_t section = 0;
    std::size_t firstHole = 0, holes = 0;
};

Region filledOutlines(const Region& section) {
    Region outlines;
    for (const Ring& ring : section)
        if (signedArea(ring) > 0) outlines.push_back(ring);
    return unionOf({outlines});
}

/// Empty space inside each hole of a section, islands of material in it taken out.
std::vector<Region> holesOf(const Region& section) {
    std::vector<Region> holes;
    for (const Ring& ring : section)
        if (signedArea(ring) < 0) {
            const Region hole = differenceOf(Region{Ring(ring.rbegin(), ring.rend())}, section);
            if (areaOf(hole) > kOpening_mm2) holes.push_back(hole);
        }
    return holes;
}

bool boxesMeet(const Region& a, const Region& b) {
    const auto boxOf = [](const Region& region) {
        Box3 box;
        for (const Ring& ring : region)
            for (const Vec2& p : ring)
                box.include({p.x(), p.y(), 0});
        return box;
    };
    const Box3 p = boxOf(a), q = boxOf(b);
    return (p.low.array() <= q.high.array()).all() && (q.low.array() <= p.high.array()).all();
}

bool standsInHole(const SectionStack& stack, const SupportStack& supports) {
    for (std::size_t k = 0; k < stack.layers.size(); ++k)
        for (const Ring& column : supports.regions[supports.regionOfLayer[k]])
            for (const Ring& ring : stack.sections[stack.layers[k].section])
                if (signedArea(ring) < 0 && contains({Ring(ring.rbegin(), ring.rend())}, column.front())) return true;
    return false;
}

/// Which holes belong to one cavity; entry 0 stands for the open air.
class Cavities {
public:
    std::size_t add() {
        parents_.push_back(parents_.size());
        return parents_.size() - 1;
    }
    void join(std::size_t a, std::size_t b) {
        a = rootOf(a);
        b = rootOf(b);
        parents_[std::max(a, b)] = std::min(a, b);
    }
    bool isOpen(std::size_t a) { return rootOf(a) == 0; }

private:
    std::size_t rootOf(std::size_t a) {
        while (parents_[a] != a)
            a = parents_[a] = parents_[parents_[a]];
        return a;
    }
    std::vector<std::size_t> parents_{0};
};

}  // namespace

TrappedSupports trappedSupports(const SectionStack& stack, const SupportStack& supports, const Task& task) {
    TrappedSupports trapped;
    if (!standsInHole(stack, supports)) return trapped;
    Cavities cavities;
    std::vector<Run> runs;
    std::vector<std::size_t> runOfLayer;
    std::vector<Region> holes{{}};  // by entry of the cavities
    for (const Layer& layer : stack.layers) {
        task.check();
        if (runs.empty() || runs.back().section != layer.section) {
            Run run{layer.section, holes.size(), 0};
            for (Region& hole : holesOf(stack.sections[layer.section])) {
                holes.push_back(std::move(hole));
                cavities.add();
                ++run.holes;
            }
            runs.push_back(run);
        }
        runOfLayer.push_back(runs.size() - 1);
    }
    const auto openInto = [&](const Run& run, const Region& outlines) {
        for (std::size_t h = run.firstHole; h < run.firstHole + run.holes; ++h)
            if (areaOf(differenceOf(holes[h], outlines)) > kOpening_mm2) cavities.join(0, h);
    };
    openInto(runs.front(), {});
    openInto(runs.back(), {});
    for (std::size_t r = 1; r < runs.size(); ++r) {
        task.check();
        const Run &lower = runs[r - 1], &upper = runs[r];
        if (lower.holes > 0) openInto(lower, filledOutlines(stack.sections[upper.section]));
        if (upper.holes > 0) openInto(upper, filledOutlines(stack.sections[lower.section]));
        for (std::size_t a = lower.firstHole; a < lower.firstHole + lower.holes; ++a)
            for (std::size_t b = upper.firstHole; b < upper.firstHole + upper.holes; ++b)
                if (boxesMeet(holes[a], holes[b]) && areaOf(intersectionOf(holes[a], holes[b])) > kOpening_mm2)
                    cavities.join(a, b);
    }
    for (std::size_t k = 0; k < stack.layers.size(); ++k) {
        const Region& column = supports.regions[supports.regionOfLayer[k]];
        if (column.empty()) continue;
        task.check();
        const Run& run = runs[runOfLayer[k]];
        for (std::size_t h = run.firstHole; h < run.firstHole + run.holes; ++h) {
            if (cavities.isOpen(h)) continue;
            const Region inside = intersectionOf(column, holes[h]);
            const double area = areaOf(inside);
            trapped.columns_mm3 += area * stack.layers[k].height_mm;
            noteLargest(trapped.at, inside, area, k);
        }
    }
    return trapped;
}

}  // namespace waybench::printed
