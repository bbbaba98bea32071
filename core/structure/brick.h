#pragma once
#include <span>
#include <vector>

#include "core/material/elastic_law.h"
#include "core/structure/cell_moments.h"

namespace waybench::statics {

using Matrix24 = Eigen::Matrix<double, 24, 24>;
using Vector24 = Eigen::Matrix<double, 24, 1>;
using Vector6 = Eigen::Matrix<double, 6, 1>;

/// Part of a cell that is made of one material.
struct CellRegion {
    Moments moments;
    const Mat6* stiffness_MPa = nullptr;
};

/// Eight-node brick with nine incompatible modes, condensed, integrated over the material part of its cell.
///
/// Displacement: the trilinear polynomials plus the internal modes x^2, y^2, z^2 in each direction (Wilson et al. 1973,
/// Incompatible displacement models; Taylor, Beresford, Wilson 1976, both from memory). The gradient of each internal
/// mode is shifted to zero mean over the material, which keeps the patch test in cut cells. Where a cell holds two
/// materials, three more modes let the strain jump across their boundary (piecewise constant gradient of zero mean
/// along the line between the two centroids). Node order: bit 0 = x, bit 1 = y, bit 2 = z.
class Brick {
public:
    /// @param regions one or two, each with volume > 0; size_mm edge lengths of the cell
    Brick(const Vec3& size_mm, std::span<const CellRegion> regions);

    const Matrix24& stiffness() const { return stiffness_; }  ///< N/mm
    /// Amplitudes of all modes for given corner displacements, to be used with strainAt.
    Eigen::VectorXd amplitudes(const Vector24& u) const;
    /// Engineering strain at cell coordinates x in the region.
    Vector6 strainAt(const Eigen::VectorXd& amplitudes, const Vec3& x, std::size_t region) const;

private:
    struct Term {
        std::size_t function = 0;
        int axis = 0;
        std::size_t monomial = 0;                 // i + 3 j + 9 k
        std::array<double, 2> coefficient{0, 0};  // per region
    };
    std::vector<Term> terms_;
    std::size_t functions_ = 0;
    Matrix24 stiffness_;
    Eigen::MatrixXd internalFromOuter_;  // internal amplitudes = this * outer amplitudes
};

/// Values of the eight trilinear shape functions at cell coordinates x (may lie outside the cell).
std::array<double, 8> shapeAt(const Vec3& x);

}  // namespace waybench::statics
