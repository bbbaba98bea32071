#include <Eigen/Eigenvalues>
#include <Eigen/Geometry>
#include <Eigen/LU>
#include <catch2/catch.hpp>
#include <random>

#include "core/material/elastic_law.h"

using namespace waybench;

namespace {

Mat3 randomRotation(std::mt19937& random) {
    std::normal_distribution<double> normal;
    return Eigen::Quaterniond(normal(random), normal(random), normal(random), normal(random))
        .normalized()
        .toRotationMatrix();
}

}  // namespace

TEST_CASE("An isotropic law has Lame's constants and no direction") {
    const double E = 2600, nu = 0.35, G = E / (2 * (1 + nu)), lambda = E * nu / ((1 + nu) * (1 - 2 * nu));
    const ElasticLaw law = isotropicLaw(E, nu);
    CHECK(law.stiffness_MPa(0, 0) == Approx(lambda + 2 * G));
    CHECK(law.stiffness_MPa(0, 1) == Approx(lambda));
    CHECK(law.stiffness_MPa(4, 4) == Approx(G));
    std::mt19937 random(7);
    for (int i = 0; i < 20; ++i)
        CHECK((rotated(law, randomRotation(random)).stiffness_MPa - law.stiffness_MPa).norm() < 1e-8 * E);
}

TEST_CASE("Turning a law and turning it back gives the law again") {
    const ElasticLaw law = transverselyIsotropicLaw(2600, 2000, 0.35, 0.30, 750);
    std::mt19937 random(11);
    for (int i = 0; i < 20; ++i) {
        const Mat3 R = randomRotation(random);
        const Mat6 back = rotated(rotated(law, R), R.transpose()).stiffness_MPa;
        CHECK((back - law.stiffness_MPa).norm() < 1e-9 * law.stiffness_MPa.norm());
    }
}

TEST_CASE("Turning keeps the law symmetric and positive definite") {
    const ElasticLaw law = transverselyIsotropicLaw(8386, 3532, 0.35, 0.35, 900);
    std::mt19937 random(13);
    for (int i = 0; i < 20; ++i) {
        const Mat6 C = rotated(law, randomRotation(random)).stiffness_MPa;
        CHECK((C - C.transpose()).norm() == 0);
        CHECK(Eigen::SelfAdjointEigenSolver<Mat6>(C).eigenvalues().minCoeff() > 0);
    }
}

TEST_CASE("Turning about the build axis changes nothing, laying it along x swaps the moduli") {
    const ElasticLaw law = transverselyIsotropicLaw(2600, 2000, 0.35, 0.35, 750);
    const Mat3 about = Eigen::AngleAxisd(0.7, Vec3::UnitZ()).toRotationMatrix();
    CHECK((rotated(law, about).stiffness_MPa - law.stiffness_MPa).norm() < 1e-9 * law.stiffness_MPa.norm());
    const Mat3 laid = Eigen::AngleAxisd(std::acos(0.0), Vec3::UnitY()).toRotationMatrix();  // z to x
    const Mat6 S = rotated(law, laid).stiffness_MPa.inverse();
    CHECK(1 / S(0, 0) == Approx(2000));
    CHECK(1 / S(2, 2) == Approx(2600));
}

TEST_CASE("Constants that no solid can have are refused") {
    CHECK_THROWS_AS(isotropicLaw(0, 0.3), std::logic_error);
    CHECK_THROWS_AS(isotropicLaw(1000, 0.5), std::logic_error);
    CHECK_THROWS_AS(isotropicLaw(std::nan(""), 0.3), std::logic_error);
    CHECK_THROWS_AS(transverselyIsotropicLaw(1000, 100, 0.3, 2.0, 300), std::logic_error);
    CHECK_THROWS_AS(transverselyIsotropicLaw(1000, 1000, 0.3, 0.3, -1), std::logic_error);
    CHECK(scaled(isotropicLaw(1000, 0.3), 0.5).stiffness_MPa.isApprox(isotropicLaw(500, 0.3).stiffness_MPa));
}
