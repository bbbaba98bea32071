#include <Eigen/Eigenvalues>
#include <Eigen/LU>
#include <catch2/catch.hpp>
#include <random>

#include "tests/structure/test_bodies.h"

using namespace waybench;
using namespace waybench::statics;

namespace {

/// Moments of a cell cut by an oblique half-space or by a bar through it.
Moments cutCell(const Vec3& size, const Mat3& turn, const Vec3& shift) {
    const Mesh mesh = transformed(testing::boxMesh({-9, 0}, {-9, 9}, {-9, 9}), turn, shift);
    Grid grid;  // the cell, with a margin of cells that hold the rest of the mesh
    for (int axis = 0; axis < 3; ++axis)
        grid.lines[axis] = {-40, -size[axis] / 2, size[axis] / 2, 40};
    return momentsOf(mesh, grid, Task()).of(grid.cellIndex({1, 1, 1}));
}

Vector24 linearField(const Vec3& size, const Mat3& gradient, const Vec3& shift) {
    Vector24 u;
    for (int a = 0; a < 8; ++a) {
        const Vec3 x(((a & 1) != 0 ? 0.5 : -0.5) * size[0], ((a >> 1 & 1) != 0 ? 0.5 : -0.5) * size[1],
                     ((a >> 2 & 1) != 0 ? 0.5 : -0.5) * size[2]);
        u.segment<3>(3 * a) = gradient * x + shift;
    }
    return u;
}

Vector6 strainOf(const Mat3& g) {
    Vector6 e;
    e << g(0, 0), g(1, 1), g(2, 2), g(0, 1) + g(1, 0), g(1, 2) + g(2, 1), g(2, 0) + g(0, 2);
    return e;
}

}  // namespace

TEST_CASE("whole and cut bricks: rigid motion costs nothing, uniform strain costs exactly its energy") {
    std::mt19937 random(11);
    std::uniform_real_distribution<double> any(-1, 1);
    const Vec3 size(2, 3, 1.5);
    const Mat6 d = transverselyIsotropicLaw(2600, 2000, 0.35, 0.35, 750).stiffness_MPa;
    std::vector<Moments> cells{wholeCell()};
    for (int i = 0; i < 6; ++i)
        cells.push_back(cutCell(
            size, Eigen::AngleAxisd(any(random), Vec3(any(random), any(random), 1).normalized()).toRotationMatrix(),
            0.4 * Vec3(any(random), any(random), any(random))));
    for (const Moments& m : cells) {
        REQUIRE(m.volume() > 0.01);
        const CellRegion region{m, &d};
        const Brick brick(size, {&region, 1});
        const double scale = brick.stiffness().cwiseAbs().maxCoeff();
        Mat3 spin;
        spin << 0, -0.3, 0.2, 0.3, 0, -0.5, -0.2, 0.5, 0;
        CHECK((brick.stiffness() * linearField(size, spin, {1, 2, 3})).norm() < 1e-11 * scale);
        CHECK((brick.stiffness() - brick.stiffness().transpose()).norm() == 0);

        Mat3 g;
        for (int i = 0; i < 9; ++i)
            g(i) = any(random);
        const Vector24 u = linearField(size, g, {0, 0, 0});
        const Vector6 e = strainOf(g);
        const double volume = m.volume() / 8 * size.prod();
        CHECK(u.dot(brick.stiffness() * u) == Approx(volume * e.dot(d * e)).epsilon(1e-9));
        const Eigen::VectorXd q = brick.amplitudes(u);
        for (int i = 0; i < 4; ++i) {
            const Vec3 x(any(random), any(random), any(random));
            CHECK((brick.strainAt(q, x, 0) - e).norm() < 1e-9 * e.norm());
        }
        const Eigen::SelfAdjointEigenSolver<Matrix24> eigen(brick.stiffness());
        CHECK(eigen.eigenvalues()[0] > -1e-10 * scale);
    }
}

TEST_CASE("a brick of two layers pulled across them is a chain of two springs") {
    // uniaxial strain across: 1/stiffness = t1/C1 + t2/C2, exact with the jump modes
    const Mat6 hard = isotropicLaw(2000, 0).stiffness_MPa, soft = isotropicLaw(100, 0).stiffness_MPa;
    Grid grid;
    grid.lines = {std::vector<double>{-1, 1}, std::vector<double>{-1, 1}, std::vector<double>{-1, 1}};
    const Moments upper = momentsOf(testing::boxMesh({-1, 1}, {-1, 1}, {0.2, 1}), grid, Task()).of(0);
    const std::array<CellRegion, 2> regions{{{upper, &hard}, {wholeCell().minus(upper), &soft}}};
    const Brick brick({2, 2, 2}, regions);
    Mat3 g = Mat3::Zero();
    g(2, 2) = 0.01;
    const Vector24 u = linearField({2, 2, 2}, g, {0, 0, 0});
    const double series = 0.02 * 0.02 * 4 / (0.8 / 2000 + 1.2 / 100);
    CHECK(u.dot(brick.stiffness() * u) == Approx(series).epsilon(1e-6));
}
