#include "core/material/cellular_law.h"

#include <cmath>

namespace waybench {

double openFoamModulus(double rho) {
    return rho * rho;
}

double hexagonModulusInPlane(double rho) {
    const double wallRatio = rho * std::sqrt(3.0) / 2;  // t/l, since rho = 2/sqrt(3) t/l
    return 2.3 * wallRatio * wallRatio * wallRatio;
}

double squareGridModulusAlongWalls(double rho) {
    return rho / 2;
}

double squareGridModulusDiagonal(double rho) {
    return rho * rho * rho / 4;
}

double triangularGridModulus(double rho) {
    return rho / 3;
}

double crossedLinesModulusAlongLines(double rho) {
    return 0.4 * rho;
}

double gyroidModulus(double rho) {
    return 0.45 * std::pow(rho, 1.7);
}

double wallModulusAlongAxis(double rho) {
    return rho;
}

double isotropicUpperBound2d(double rho) {
    return rho / (3 - 2 * rho);
}

double isotropicUpperBound3d(double rho) {
    return rho / (2 - rho);
}

}  // namespace waybench
