#include "core/structure/body_regions.h"

#include <algorithm>
#include <stdexcept>

#include "core/geometry/section.h"

namespace waybench::statics {

namespace {

constexpr std::size_t kMostExactSlabs = 60;
constexpr double kMostEvenSlabs = 400;

/// Heights between which a section is taken as constant: exact for bodies made of few level faces, else even.
std::vector<double> slabHeights(const Mesh& mesh, const ShellAndInfill& inside, const Grid& grid) {
    const Box3 box = boundsOf(mesh);
    std::vector<double> heights;
    const auto tidy = [](std::vector<double>& h) {
        std::sort(h.begin(), h.end());
        h.erase(std::unique(h.begin(), h.end(), [](double a, double b) { return b - a < 1e-6; }), h.end());
    };
    for (const Vec3& v : mesh.vertices)
        heights.push_back(v[2]);
    tidy(heights);
    const bool prismatic = std::all_of(mesh.triangles.begin(), mesh.triangles.end(), [&](const auto& t) {
        const Vec3 &a = mesh.vertices[t[0]], &b = mesh.vertices[t[1]], &c = mesh.vertices[t[2]];
        const Vec3 n = (b - a).cross(c - a).normalized();
        return std::abs(n[2]) < 1e-6 || std::abs(n[2]) > 1 - 1e-6;
    });
    if (prismatic && heights.size() <= kMostExactSlabs) {
        const std::vector<double> levels = heights;
        for (double z : levels) {
            heights.push_back(z + inside.skinBelow_mm);
            heights.push_back(z - inside.skinAbove_mm);
        }
    } else {
        heights = grid.lines[2];
        const std::size_t count = heights.size();
        for (std::size_t i = 0; i + 1 < count; ++i)
            heights.push_back(0.5 * (heights[i] + heights[i + 1]));
    }
    std::erase_if(heights, [&](double z) { return z < box.low[2] || z > box.high[2]; });
    heights.push_back(box.low[2]);
    heights.push_back(box.high[2]);
    tidy(heights);
    return heights;
}

}  // namespace

CellMoments infillMoments(const Mesh& mesh, const ShellAndInfill& inside, const Grid& grid, const Task& task) {
    if ((inside.buildDirection - Vec3::UnitZ()).norm() > 1e-6) throw std::logic_error("infill is built along z only");
    const std::vector<double> heights = slabHeights(mesh, inside, grid);
    const std::size_t slabs = heights.size() - 1;
    std::vector<double> middles;
    for (std::size_t i = 0; i < slabs; ++i)
        middles.push_back(0.5 * (heights[i] + heights[i + 1]));
    const std::vector<Region> sections = sectionsAt(mesh, middles);
    const auto shifted = [&](double by) {
        std::vector<double> z = middles;
        for (double& x : z)
            x += by;
        return sectionsAt(mesh, z);
    };
    const std::vector<Region> under = shifted(-inside.skinBelow_mm), over = shifted(inside.skinAbove_mm);
    PrismMoments prisms(grid);
    for (std::size_t i = 0; i < slabs; ++i) {
        task.check();
        // What stays covered over the whole of both skins; beyond the body there is no section, so skins end there.
        const double low = middles[i] - inside.skinBelow_mm, high = middles[i] + inside.skinAbove_mm;
        if (sections[i].empty() || under[i].empty() || over[i].empty()) continue;
        Region inner = offsetBy(sections[i], -inside.wallThickness_mm);
        if (inside.skinBelow_mm > 0) inner = intersectionOf(inner, under[i]);
        if (inside.skinAbove_mm > 0) inner = intersectionOf(inner, over[i]);
        for (std::size_t j = 0; j < slabs && !inner.empty(); ++j) {
            if (j == i || middles[j] <= low + 1e-9 || middles[j] >= high - 1e-9) continue;
            inner = sections[j].empty() ? Region{} : intersectionOf(inner, sections[j]);
        }
        if (!inner.empty()) prisms.add(inner, heights[i], heights[i + 1]);
    }
    return prisms.finish();
}

std::vector<SnapPlane> innerPlanes(const std::vector<SnapPlane>& outer, const ShellAndInfill& inside) {
    std::vector<SnapPlane> planes;
    for (const SnapPlane& p : outer) {
        if (p.outward == 0) continue;
        const double depth = p.axis != 2     ? inside.wallThickness_mm
                             : p.outward > 0 ? inside.skinAbove_mm
                                             : inside.skinBelow_mm;
        if (depth <= 0) continue;
        SnapPlane inner = p;
        inner.position_mm -= p.outward * depth;
        inner.area_mm2 *= 0.9;
        planes.push_back(inner);
    }
    return planes;
}

}  // namespace waybench::statics
