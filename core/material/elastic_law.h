#pragma once
#include <Eigen/Core>

#include "core/geometry/vector.h"

namespace waybench {

using Mat6 = Eigen::Matrix<double, 6, 6>;

/// Linear elastic law. Engineering strain order: xx, yy, zz, xy, yz, zx; shear strains are gammas. MPa.
struct ElasticLaw {
    Mat6 stiffness_MPa = Mat6::Zero();
};

/// Hooke's law of an isotropic solid. Preconditions E > 0, -1 < nu < 0.5.
ElasticLaw isotropicLaw(double E_MPa, double nu);

/// Transversely isotropic about z (the build axis): in-plane E_xy, nu_xy; across E_z; nu_xz = contraction along z when
/// pulled along x; G_xz. Source: compliance matrix of an orthotropic solid, structural case S28.
/// @throws std::logic_error when the constants are not positive definite
ElasticLaw transverselyIsotropicLaw(double Exy_MPa, double Ez_MPa, double nu_xy, double nu_xz, double Gxz_MPa);

/// The same material turned: rotation maps material axes to part axes.
ElasticLaw rotated(const ElasticLaw& law, const Mat3& rotation);
/// Every modulus scaled.
ElasticLaw scaled(const ElasticLaw& law, double factor);

}  // namespace waybench
