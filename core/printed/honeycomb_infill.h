#pragma once
#include <vector>

#include "core/geometry/curve_clipping.h"

namespace waybench::printed {

/// Honeycomb as it is made from bonded ribbons: each track follows the cell edges up and down along its row of regular
/// hexagons, and touches the next row's track along every second level edge, one bead spacing apart. All rows lie
/// alike in every layer, so that the cells stand on each other.
///
/// Edge l, bead spacing d: a track runs 4 l while it advances 3 l, and rows lie l sin 60 + d apart; the share of
/// material s = 4 d / (3 (l sin 60 + d)) gives the edge. Precondition: 0 < share < 1.
/// @return the cells' edges cut to the region, row by row
std::vector<Curve> honeycombCurves(const CurveClipper& region, double share, double spacing_mm);

/// Edge of the hexagons, mm.
double honeycombEdge_mm(double share, double spacing_mm);

}  // namespace waybench::printed
