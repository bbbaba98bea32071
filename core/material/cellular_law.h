#pragma once

namespace waybench {

/// Relative modulus E/E_s of cellular solids against relative density rho, 0 <= rho <= 1.
///
/// Foam and honeycombs: Gibson and Ashby, Cellular Solids, 1997 (from memory). Square and triangular grids: stretching
/// of the walls, derived. Bounds: Hashin and Shtrikman for a void phase and Poisson's ratio 1/3, derived.

double openFoamModulus(double rho);              ///< rho^2
double hexagonModulusInPlane(double rho);        ///< 2.3 (t/l)^3 with rho = 1.155 t/l; bending of the walls, rho < 0.3
double squareGridModulusAlongWalls(double rho);  ///< rho/2
double squareGridModulusDiagonal(double rho);    ///< rho^3/4, walls bend
double triangularGridModulus(double rho);        ///< rho/3, any direction in the plane
double crossedLinesModulusAlongLines(
    double rho);                           ///< 0.4 rho: square grid with weak nodes (common practice, 0.3 to 0.5)
double gyroidModulus(double rho);          ///< 0.45 rho^1.7 (common practice; C 0.3-0.6, n 1.5-2)
double wallModulusAlongAxis(double rho);   ///< rho, any grid along its walls' common axis
double isotropicUpperBound2d(double rho);  ///< rho/(3 - 2 rho)
double isotropicUpperBound3d(double rho);  ///< rho/(2 - rho)

}  // namespace waybench
