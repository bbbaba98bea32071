#include "core/structure/grid.h"

#include <algorithm>
#include <cmath>

namespace waybench::statics {

Index3 Grid::cellAt(std::size_t index) const {
    const auto nx = std::size_t(cells(0)), ny = std::size_t(cells(1));
    return {int(index % nx), int(index / nx % ny), int(index / (nx * ny))};
}

int Grid::intervalOf(int axis, double x) const {
    const auto& l = lines[axis];
    const auto above = std::upper_bound(l.begin(), l.end(), x) - l.begin();
    return std::clamp(int(above) - 1, 0, cells(axis) - 1);
}

Vec3 Grid::lowOf(const Index3& c) const {
    return {lines[0][std::size_t(c[0])], lines[1][std::size_t(c[1])], lines[2][std::size_t(c[2])]};
}

Vec3 Grid::sizeOf(const Index3& c) const {
    return Vec3(lines[0][std::size_t(c[0]) + 1], lines[1][std::size_t(c[1]) + 1], lines[2][std::size_t(c[2]) + 1]) -
           lowOf(c);
}

Vec3 Grid::localOf(const Index3& c, const Vec3& p) const {
    return (2.0 * (p - lowOf(c)).cwiseQuotient(sizeOf(c))).array() - 1.0;
}

double Grid::largestSpacing() const {
    double largest = 0;
    for (const auto& l : lines)
        for (std::size_t i = 1; i < l.size(); ++i)
            largest = std::max(largest, l[i] - l[i - 1]);
    return largest;
}

std::vector<SnapPlane> axisParallelPlanes(const Mesh& mesh) {
    const Box3 box = boundsOf(mesh);
    const double tolerance = 1e-6 * std::max(1e-9, box.size().maxCoeff());
    std::vector<SnapPlane> found;
    for (const auto& t : mesh.triangles) {
        const Vec3 &a = mesh.vertices[t[0]], &b = mesh.vertices[t[1]], &c = mesh.vertices[t[2]];
        const Vec3 doubled = (b - a).cross(c - a);
        for (int axis = 0; axis < 3; ++axis) {
            const double low = std::min({a[axis], b[axis], c[axis]}), high = std::max({a[axis], b[axis], c[axis]});
            if (high - low > tolerance || doubled.norm() < tolerance * tolerance) continue;
            found.push_back({axis, 0.5 * (low + high), 0.5 * std::abs(doubled[axis]), doubled[axis] > 0 ? 1.0 : -1.0});
        }
    }
    std::stable_sort(found.begin(), found.end(), [](const SnapPlane& p, const SnapPlane& q) {
        return p.axis != q.axis ? p.axis < q.axis : p.position_mm < q.position_mm;
    });
    std::vector<SnapPlane> merged;
    for (const SnapPlane& p : found) {
        if (!merged.empty() && merged.back().axis == p.axis &&
            p.position_mm - merged.back().position_mm <= 2 * tolerance) {
            merged.back().area_mm2 += p.area_mm2;
            if (merged.back().outward != p.outward) merged.back().outward = 0;
        } else {
            merged.push_back(p);
        }
    }
    return merged;
}

Grid snappedGrid(const Box3& box, const std::vector<SnapPlane>& planes, double spacing_mm, double mergeShare) {
    Grid grid;
    for (int axis = 0; axis < 3; ++axis) {
        std::vector<SnapPlane> wanted;
        for (const SnapPlane& p : planes)
            if (p.axis == axis && p.position_mm > box.low[axis] && p.position_mm < box.high[axis]) wanted.push_back(p);
        std::stable_sort(wanted.begin(), wanted.end(),
                         [](const SnapPlane& p, const SnapPlane& q) { return p.area_mm2 > q.area_mm2; });
        std::vector<double> kept{box.low[axis], box.high[axis]};
        for (const SnapPlane& p : wanted) {
            const bool tooClose = std::any_of(kept.begin(), kept.end(), [&](double x) {
                return std::abs(x - p.position_mm) < mergeShare * spacing_mm;
            });
            if (!tooClose) kept.push_back(p.position_mm);
        }
        std::sort(kept.begin(), kept.end());
        auto& lines = grid.lines[axis];
        lines.push_back(kept[0]);
        for (std::size_t i = 1; i < kept.size(); ++i) {
            const double length = kept[i] - kept[i - 1];
            const int count = std::max(1, int(std::ceil(length / spacing_mm - 0.02)));
            for (int k = 1; k < count; ++k)
                lines.push_back(kept[i - 1] + length * k / count);
            lines.push_back(kept[i]);
        }
    }
    return grid;
}

Grid bisected(const Grid& grid) {
    Grid fine;
    for (int axis = 0; axis < 3; ++axis) {
        const auto& l = grid.lines[axis];
        for (std::size_t i = 0; i + 1 < l.size(); ++i) {
            fine.lines[axis].push_back(l[i]);
            fine.lines[axis].push_back(0.5 * (l[i] + l[i + 1]));
        }
        fine.lines[axis].push_back(l.back());
    }
    return fine;
}

}  // namespace waybench::statics
