#pragma once
#include <array>
#include <cstddef>
#include <vector>

#include "core/geometry/mesh.h"

namespace waybench::statics {

using Index3 = std::array<int, 3>;

/// Rectilinear grid: cells between consecutive lines of each axis, mm. Spacing may differ from interval to interval.
struct Grid {
    std::array<std::vector<double>, 3> lines;

    int cells(int axis) const { return static_cast<int>(lines[axis].size()) - 1; }
    std::size_t cellCount() const { return std::size_t(cells(0)) * std::size_t(cells(1)) * std::size_t(cells(2)); }
    std::size_t cellIndex(const Index3& c) const {
        return (std::size_t(c[2]) * std::size_t(cells(1)) + std::size_t(c[1])) * std::size_t(cells(0)) +
               std::size_t(c[0]);
    }
    Index3 cellAt(std::size_t index) const;
    /// Interval of the axis that holds x; the upper one when x lies on a line, the outermost ones beyond the grid.
    int intervalOf(int axis, double x) const;
    Index3 cellOf(const Vec3& p) const { return {intervalOf(0, p[0]), intervalOf(1, p[1]), intervalOf(2, p[2])}; }
    Vec3 lowOf(const Index3& c) const;
    Vec3 sizeOf(const Index3& c) const;
    /// Coordinates of p in the cell, -1 to 1 on each axis inside it.
    Vec3 localOf(const Index3& c, const Vec3& p) const;
    double largestSpacing() const;
};

/// A plane normal to an axis that the grid should have a line on.
struct SnapPlane {
    int axis = 0;
    double position_mm = 0;
    double area_mm2 = 0;  ///< heavier planes win when two are too close to keep both
    double outward = 0;   ///< sign of the outward normal along the axis, 0 when both occur
};

/// Planes of all facets lying normal to an axis, positions merged within 1e-6 of the body's size.
std::vector<SnapPlane> axisParallelPlanes(const Mesh& mesh);

/// Grid over the box whose lines hold the planes, with equal cells no larger than spacing_mm between two of them.
/// Planes closer to each other than mergeShare * spacing_mm become one (the box ends always stay).
Grid snappedGrid(const Box3& box, const std::vector<SnapPlane>& planes, double spacing_mm, double mergeShare = 0.15);

/// Every cell halved along every axis, so that the given grid is nested in the result.
Grid bisected(const Grid& grid);

}  // namespace waybench::statics
