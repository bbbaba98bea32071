#pragma once
#include <cstdint>
#include <vector>

#include "core/structure/cell_moments.h"

namespace waybench::statics {

/// What of one facet lies in a cell, in cell coordinates.
struct FacetInside {
    std::vector<Vec3> corners;
    Vec3 outward = Vec3::Zero();
    std::uint32_t facet = 0;
    int piece = 0;
};

/// A cell that holds two or more pieces of material with void between them: the two sides of a slot, say.
struct SplitCell {
    std::size_t cell = 0;
    std::vector<Moments> pieces;
    std::vector<FacetInside> facets;

    /// Piece the point (cell coordinates) lies in, or the one nearest in sight when it lies in the void.
    int pieceAt(const Vec3& local, bool* isInside = nullptr) const;
    /// Piece the facet bounds, or -1.
    int pieceBoundedBy(std::uint32_t facet) const;
};

/// All split cells of a grid, ascending.
struct SplitCells {
    std::vector<SplitCell> cells;
    std::size_t weldedCells = 0;  ///< hold unconnected pieces, yet stay whole because their surface is degenerate
    const SplitCell* at(std::size_t cell) const;
};

/// Finds the pieces. Facets joined along an edge inside the cell bound one piece; so do facets between which a straight
/// line runs through material only, directly or by way of a sample point. The moments of every piece are exact; a cell
/// whose pieces do not add up to the whole (a degenerate surface) stays whole.
SplitCells findPieces(const Mesh& mesh, const Grid& grid, const CellMoments& moments, const SurfaceInCells& surface,
                      const Task& task);

/// Pairs of pieces (of the lower cell, of the upper cell) that run into each other through the face between two
/// neighbours along an axis. Either may be null for a cell in one piece.
std::vector<std::pair<int, int>> joinedPieces(const SplitCell* low, const SplitCell* high, int axis);

}  // namespace waybench::statics
