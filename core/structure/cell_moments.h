#pragma once
#include <array>
#include <cstdint>
#include <vector>

#include "core/progress/task.h"
#include "core/structure/grid.h"

namespace waybench::statics {

/// Integrals of x^i y^j z^k (cell coordinates, each -1 to 1) over a part of one cell; index i + 3 j + 9 k. Held for
/// i, j, k <= 2 and i + j + k <= 4, all that products of the brick's gradients need; the others stay zero.
struct Moments {
    std::array<double, 27> value{};
    double volume() const { return value[0]; }  ///< 8 for a whole cell
    Moments& operator+=(const Moments& other);
    Moments minus(const Moments& other) const;
};
Moments wholeCell();

/// What of every grid cell is filled.
struct CellMoments {
    static constexpr std::int32_t kEmpty = -1, kWhole = -2;
    std::vector<std::int32_t> entry;  ///< per grid cell: kEmpty, kWhole or an index into cut
    std::vector<Moments> cut;

    Moments of(std::size_t cell) const;
};

/// The surface as the cells see it.
struct SurfaceInCells {
    std::vector<std::pair<std::uint32_t, std::uint32_t>> facets;  ///< (cell, facet), ascending
    /// Per axis and cell: share of the face between the cell and its lower neighbour through which material runs.
    std::array<std::vector<float>, 3> through;
};

/// Exact moments of the material in every cell, by the divergence theorem: each facet, clipped to the cells, adds the
/// prism below it with the sign of its upward area. Precondition: mesh closed, inside the grid.
/// @param surface filled when given: which facets pass through which cells, and how far neighbours hang together
CellMoments momentsOf(const Mesh& mesh, const Grid& grid, const Task& task, SurfaceInCells* surface = nullptr);

/// Both together, worked out once for a grid.
struct MaterialInCells {
    CellMoments moments;
    SurfaceInCells surface;
    std::size_t activeCells() const;  ///< that hold material
};
MaterialInCells materialInCells(const Mesh& mesh, const Grid& grid, const Task& task);

/// The same for a stack of prisms: `footprint` (rings of corner points, material on the left, holes clockwise)
/// between two heights. Adds into a dense accumulator; see body_regions.
class PrismMoments {
public:
    explicit PrismMoments(const Grid& grid);
    void add(const std::vector<std::vector<Eigen::Vector2d>>& footprint, double bottom_mm, double top_mm);
    CellMoments finish() const;

private:
    const Grid& grid_;
    std::vector<std::int32_t> entry_;
    std::vector<Moments> own_;
};

}  // namespace waybench::statics
