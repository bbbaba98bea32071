#pragma once
#include "core/structure/cell_pieces.h"

namespace waybench::statics {

/// Exact moments of each of `count` pieces of a cell whose facets carry their piece's number. By the divergence
/// theorem, three times over: facets and the cell's top face bound a piece; lines and the rim y = 1 bound its share of
/// the top face; points and the corner (1, 1, 1) bound its share of the rim.
std::vector<Moments> momentsOfPieces(const SplitCell& split, int count);

}  // namespace waybench::statics
