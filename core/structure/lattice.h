#pragma once
#include <memory>
#include <optional>
#include <vector>

#include "core/structure/brick.h"
#include "core/structure/cell_pieces.h"
#include "core/structure/element_product.h"

namespace waybench::statics {

/// What a body is made of, cell by cell.
struct MaterialField {
    CellMoments material;               ///< all of it
    std::optional<CellMoments> infill;  ///< the part that follows infillLaw
    ElasticLaw law, infillLaw;
    std::shared_ptr<const SplitCells> split;    ///< null: every cell is one piece
    std::array<std::vector<float>, 3> through;  ///< of SurfaceInCells; empty: every face joins
};

/// The active cells of a grid with their nodes and matrices.
struct Lattice {
    Grid grid;
    std::vector<ElementLink> elements;
    std::vector<std::size_t> cellOf;          ///< per element, grid cell
    std::vector<std::uint8_t> pieceOf;        ///< per element, which piece of its cell
    std::vector<std::int32_t> elementOfCell;  ///< per grid cell the first of its elements, -1 = void
    std::shared_ptr<const SplitCells> split;
    std::vector<Index3> nodeAt;    ///< per node, grid lines it lies on
    std::vector<double> matrices;  ///< 576 per matrix, N/mm
    std::vector<char> isShared;    ///< per matrix: stands for many elements
    double droppedVolume_mm3 = 0;  ///< in slivers and crumbs left out
    double volume_mm3 = 0;         ///< in active cells

    std::size_t unknowns() const { return 3 * nodeAt.size(); }
    Index3 cellAt(std::size_t element) const { return grid.cellAt(cellOf[element]); }
    /// Element of a piece of a cell, -1 where it was left out.
    std::int32_t elementAt(std::size_t cell, int piece) const;
    /// Element of the cell that holds the point, or -1. @param facet the point lies on, if known
    std::int32_t elementHolding(const Index3& cell, const Vec3& point, std::int64_t facet = -1) const;
};

/// Regions of one cell: one or two, walls first.
struct CellRegions {
    std::array<CellRegion, 2> region;
    std::array<bool, 2> isInfill{false, false};
    std::size_t count = 0;
    std::span<const CellRegion> all() const { return {region.data(), count}; }
};
CellRegions regionsOf(const MaterialField& field, std::size_t cell, int piece = 0);

/// Cells filled by less than 0.1 % are left out, and so are crumbs: groups of cells joined to the rest by no face that
/// hold less than 0.1 % of the volume.
/// @throws InputFault "body_too_thin_for_grid" when nothing is left
Lattice buildLattice(const Grid& grid, const MaterialField& field, const Task& task);

/// Number of the group each element belongs to; elements that share a node are in one group.
std::vector<int> groupsOf(const Lattice& lattice);

/// Gives the element a matrix of its own and returns it for change.
double* ownMatrix(Lattice& lattice, std::size_t element);

}  // namespace waybench::statics
