#include "core/machined/reach.h"

#include <algorithm>
#include <cmath>

#include "core/geometry/section.h"

namespace waybench::machined {
namespace {

constexpr double kSliver_mm = 0.02;  // regions thinner than this are noise of facets and clipping

/// Heights of the planar faces across the tool axis, ends of the body included.
std::vector<double> faceHeights(const Solid& solid, double low, double high, const ToolReach& reach) {
    std::vector<double> heights{low, high};
    for (const Face& face : solid.faces)
        if (face.kind == SurfaceKind::plane && std::abs(face.direction.z()) > 1 - 1e-6) {
            heights.push_back(face.point.z());
            if (reach.endMill_mm > 0) heights.push_back(face.point.z() - reach.deepest_mm());
        }
    std::sort(heights.begin(), heights.end());
    std::vector<double> kept;
    for (const double h : heights)
        if (h >= low && h <= high && (kept.empty() || h > kept.back() + kSliver_mm)) kept.push_back(h);
    if (kept.size() > 1 && high - kept[kept.size() - 1] > 0) kept.back() = high;
    return kept;
}

bool sameRegion(const Region& a, const Region& b) {
    const double difference = areaOf(differenceOf(a, b)) + areaOf(differenceOf(b, a));
    return difference < 0.01 * (perimeterOf(a) + perimeterOf(b)) / 2 + 0.01;
}

Region withoutSlivers(const Region& region) {
    return offsetBy(offsetBy(region, -kSliver_mm), kSliver_mm);
}

Region outerRings(const Region& region) {
    Region outer;
    for (const Ring& ring : region)
        if (signedArea(ring) > 0) outer.push_back(ring);
    return unionOf(outer, {});
}

std::vector<Slab> slabsOf(const SetUp& setUp, const Solid& turned, Fidelity fidelity, const ToolReach& reach) {
    const std::vector<double> heights = faceHeights(turned, setUp.low_mm, setUp.high_mm, reach);
    std::vector<double> probes;
    for (std::size_t i = 0; i + 1 < heights.size(); ++i) {
        const double gap = heights[i + 1] - heights[i];
        for (const double share : {0.03, 0.5, 0.97})
            probes.push_back(heights[i] + share * gap);
    }
    const std::vector<Region> probed = sectionsAt(setUp.mesh, probes);
    std::vector<Slab> slabs;
    for (std::size_t i = 0; i + 1 < heights.size(); ++i) {
        const Region &below = probed[3 * i], &middle = probed[3 * i + 1], &above = probed[3 * i + 2];
        if (sameRegion(below, above) && sameRegion(below, middle)) {
            slabs.push_back({heights[i], heights[i + 1], middle, {}, {}, true});
            continue;
        }
        const double gap = heights[i + 1] - heights[i];
        const int most = fidelity == Fidelity::draft ? 8 : 24;
        const int parts = std::clamp(static_cast<int>(std::ceil(gap / 0.5)), 2, most);
        std::vector<double> levels;
        for (int p = 0; p < parts; ++p) {
            levels.push_back(heights[i] + gap * (p + 0.02) / parts);
            levels.push_back(heights[i] + gap * (p + 0.98) / parts);
        }
        const std::vector<Region> sections = sectionsAt(setUp.mesh, levels);
        for (int p = 0; p < parts; ++p)
            slabs.push_back({heights[i] + gap * p / parts,
                             heights[i] + gap * (p + 1) / parts,
                             unionOf(sections[2 * p], sections[2 * p + 1]),
                             {},
                             {},
                             false});
    }
    Region shadow;
    for (std::size_t k = slabs.size(); k-- > 0;) {
        shadow = unionOf(shadow, slabs[k].section);
        slabs[k].shadow = shadow;
    }
    return slabs;
}

/// Number of the set-up that clears a cell: the first whose direction reaches it; none for material and hidden space.
std::size_t turnOf(std::uint8_t cell, const AccessPlan& plan) {
    for (std::size_t t = 0; t < plan.directions.size(); ++t)
        if (!(cell & AccessGrid::kMaterial) && (cell >> static_cast<int>(plan.directions[t]) & 1u)) return t;
    return SIZE_MAX;
}

/// Cells that are this set-up's own, or those that are another's, per slab, as a region in the set-up's frame.
std::vector<Region> cellsOf(const AccessGrid& grid, const AccessPlan& plan, std::size_t turn, bool own,
                            const SetUp& setUp, double& largest) {
    const Mat3 rotation = rotationToUp(plan.directions[turn]);
    std::vector<Region> rectangles(setUp.slabs.size());
    for (std::size_t k = 0; k < grid.count(2); ++k)
        for (std::size_t j = 0; j < grid.count(1); ++j)
            for (std::size_t i = 0; i < grid.count(0); ++i) {
                const std::size_t by = turnOf(grid.cells[grid.index(i, j, k)], plan);
                if (by == SIZE_MAX || (by == turn) != own) continue;
                const Box3 box = grid.box(i, j, k);
                const Vec3 a = rotation * box.low, b = rotation * box.high;
                const Vec3 low = a.cwiseMin(b), high = a.cwiseMax(b);
                largest = std::max({largest, high.x() - low.x(), high.y() - low.y()});
                const double z = 0.5 * (low.z() + high.z());
                for (std::size_t s = 0; s < setUp.slabs.size(); ++s)
                    if (z >= setUp.slabs[s].bottom_mm && z <= setUp.slabs[s].top_mm) {
                        rectangles[s].push_back(
                            {{low.x(), low.y()}, {high.x(), low.y()}, {high.x(), high.y()}, {low.x(), high.y()}});
                        break;
                    }
            }
    std::vector<Region> regions;
    for (const Region& r : rectangles)
        regions.push_back(unionOf(r, {}));
    return regions;
}

std::vector<Hole> holesOf(const Solid& turned, const SetUp& setUp) {
    std::vector<Hole> holes;
    for (std::size_t f = 0; f < turned.faces.size(); ++f) {
        const Face& face = turned.faces[f];
        if (face.kind != SurfaceKind::cylinder || !face.isHollow || !face.isFullTurn) continue;
        if (std::abs(face.direction.z()) < 1 - 1e-5) continue;
        Hole hole;
        hole.centre = face.point.head<2>();
        hole.diameter_mm = 2 * face.radius_mm;
        hole.top_mm = -1e300;
        hole.bottom_mm = 1e300;
        for (std::size_t t = 0; t < turned.faceOfTriangle.size(); ++t) {
            if (turned.faceOfTriangle[t] != f) continue;
            for (const auto v : turned.mesh.triangles[t]) {
                hole.top_mm = std::max(hole.top_mm, turned.mesh.vertices[v].z());
                hole.bottom_mm = std::min(hole.bottom_mm, turned.mesh.vertices[v].z());
            }
        }
        if (!(hole.top_mm > hole.bottom_mm)) continue;
        hole.isThrough = hole.bottom_mm < setUp.low_mm + kSliver_mm;
        const double middle = 0.5 * (hole.top_mm + hole.bottom_mm);
        for (const Slab& slab : setUp.slabs)
            if (middle >= slab.bottom_mm && middle <= slab.top_mm && contains(slab.removable, hole.centre)) {
                holes.push_back(hole);
                break;
            }
    }
    std::stable_sort(holes.begin(), holes.end(), [](const Hole& a, const Hole& b) { return a.top_mm > b.top_mm; });
    return holes;
}

}  // namespace

std::vector<SetUp> setUpsFor(const Solid& solid, const AccessGrid& grid, const AccessPlan& plan, Fidelity fidelity,
                             const Task& task) {
    std::vector<SetUp> setUps;
    for (std::size_t turn = 0; turn < plan.directions.size(); ++turn) {
        task.check();
        SetUp setUp;
        setUp.direction = plan.directions[turn];
        const Solid turned = transformed(solid, rotationToUp(setUp.direction), Vec3::Zero());
        setUp.mesh = turned.mesh;
        const Box3 box = boundsOf(setUp.mesh);
        setUp.low_mm = box.low.z();
        setUp.high_mm = box.high.z();
        setUp.slabs = slabsOf(setUp, turned, fidelity, grid.reach);
        setUp.outline = outerRings(setUp.slabs.front().shadow);
        double cell_mm = 0;
        const std::vector<Region> cells = cellsOf(grid, plan, turn, turn > 0, setUp, cell_mm);
        for (std::size_t k = 0; k < setUp.slabs.size(); ++k) {
            task.check();
            Slab& slab = setUp.slabs[k];
            slab.removable = differenceOf(setUp.outline, slab.shadow);
            if (turn > 0)
                slab.removable = intersectionOf(slab.removable, offsetBy(cells[k], cell_mm));
            else if (!cells[k].empty())
                slab.removable = differenceOf(slab.removable, cells[k]);
            slab.removable = withoutSlivers(slab.removable);
            setUp.removed_mm3 += areaOf(slab.removable) * (slab.top_mm - slab.bottom_mm);
        }
        setUp.holes = holesOf(turned, setUp);
        setUps.push_back(std::move(setUp));
    }
    return setUps;
}

}  // namespace waybench::machined
