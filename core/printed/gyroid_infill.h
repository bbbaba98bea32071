#pragma once
#include <vector>

#include "core/geometry/curve_clipping.h"

namespace waybench::printed {

/// Cell of the gyroid, mm: 2.4584 d/s for beads at spacing d and share s.
///
/// The sheet has 3.09 L^2 of surface per cell (printed-route.md 2.1). A bead is as wide in its layer whatever the lean
/// of the sheet there, so the length of the cut per area counts, averaged over the height of a cell: 3.09/L times the
/// mean sine of the angle between the sheet's normal and the build axis, 0.7956, by quadrature of the curves below.
double gyroidCell_mm(double share, double spacing_mm);

/// The level curves sin x cos y + sin y cos z + sin z cos x = 0 (2 pi a cell) at height z_mm above the bed, cut to the
/// region and in order across it.
///
/// Either y is a function of x or x of y: A cos y + B sin y = C with A = sin x, B = cos z, C = -sin z cos x has the two
/// solutions atan2(B, A) +- acos(C/sqrt(A^2 + B^2)) for every x as long as |cos z| >= |sin z|, and the same holds with
/// the axes exchanged otherwise. 12 to 24 lines a cell, 0.15 mm long where that is
/// between: 0.14 to 0.6 % shorter than the curve.
/// Precondition: 0 < share < 1.
std::vector<Curve> gyroidCurves(const CurveClipper& region, double share, double spacing_mm, double z_mm);

}  // namespace waybench::printed
