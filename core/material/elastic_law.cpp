#include "core/material/elastic_law.h"

#include <Eigen/Cholesky>
#include <Eigen/LU>
#include <cmath>
#include <stdexcept>

namespace waybench {

namespace {

ElasticLaw lawFromCompliance(const Mat6& compliance) {
    if (!compliance.allFinite()) throw std::logic_error("elastic law: constants are not finite");
    const Eigen::LLT<Mat6> factor(compliance);
    if (factor.info() != Eigen::Success) throw std::logic_error("elastic law: constants are not positive definite");
    const Mat6 inverse = factor.solve(Mat6::Identity());
    return {0.5 * (inverse + inverse.transpose())};
}

/// Engineering strain, order xx yy zz xy yz zx, as a tensor and back.
Mat3 strainTensor(const Eigen::Matrix<double, 6, 1>& e) {
    Mat3 t;
    t << e(0), e(3) / 2, e(5) / 2,  //
        e(3) / 2, e(1), e(4) / 2,   //
        e(5) / 2, e(4) / 2, e(2);
    return t;
}

Eigen::Matrix<double, 6, 1> engineeringStrain(const Mat3& t) {
    Eigen::Matrix<double, 6, 1> e;
    e << t(0, 0), t(1, 1), t(2, 2), 2 * t(0, 1), 2 * t(1, 2), 2 * t(2, 0);
    return e;
}

}  // namespace

ElasticLaw isotropicLaw(double E_MPa, double nu) {
    if (!(E_MPa > 0) || !(nu > -1 && nu < 0.5)) throw std::logic_error("isotropic law: E > 0 and -1 < nu < 0.5");
    return transverselyIsotropicLaw(E_MPa, E_MPa, nu, nu, E_MPa / (2 * (1 + nu)));
}

ElasticLaw transverselyIsotropicLaw(double Exy_MPa, double Ez_MPa, double nu_xy, double nu_xz, double Gxz_MPa) {
    if (!(Exy_MPa > 0) || !(Ez_MPa > 0) || !(Gxz_MPa > 0) || !(nu_xy > -1))
        throw std::logic_error("elastic law: moduli must be positive");
    Mat6 S = Mat6::Zero();
    S(0, 0) = S(1, 1) = 1 / Exy_MPa;
    S(2, 2) = 1 / Ez_MPa;
    S(0, 1) = S(1, 0) = -nu_xy / Exy_MPa;
    S(0, 2) = S(2, 0) = S(1, 2) = S(2, 1) = -nu_xz / Exy_MPa;
    S(3, 3) = 2 * (1 + nu_xy) / Exy_MPa;
    S(4, 4) = S(5, 5) = 1 / Gxz_MPa;
    return lawFromCompliance(S);
}

ElasticLaw rotated(const ElasticLaw& law, const Mat3& rotation) {
    Mat6 toMaterial;  // engineering strain in part axes -> in material axes
    for (int i = 0; i < 6; ++i) {
        const Mat3 strain = strainTensor(Eigen::Matrix<double, 6, 1>::Unit(i));
        toMaterial.col(i) = engineeringStrain(rotation.transpose() * strain * rotation);
    }
    const Mat6 turned = toMaterial.transpose() * law.stiffness_MPa * toMaterial;
    return {0.5 * (turned + turned.transpose())};
}

ElasticLaw scaled(const ElasticLaw& law, double factor) {
    return {factor * law.stiffness_MPa};
}

}  // namespace waybench
