#include <catch2/catch.hpp>
#include <random>

#include "core/structure/cell_moments.h"
#include "core/structure/clipping.h"
#include "tests/structure/test_bodies.h"

using namespace waybench;
using namespace waybench::statics;

namespace {

Grid evenGrid(const Box3& box, int nx, int ny, int nz) {
    Grid grid;
    grid.lines = {testing::steps(box.low[0], box.high[0], nx), testing::steps(box.low[1], box.high[1], ny),
                  testing::steps(box.low[2], box.high[2], nz)};
    return grid;
}

double totalVolume(const CellMoments& moments, const Grid& grid) {
    double volume = 0;
    for (std::size_t c = 0; c < grid.cellCount(); ++c)
        volume += moments.of(c).volume() / 8 * grid.sizeOf(grid.cellAt(c)).prod();
    return volume;
}

}  // namespace

TEST_CASE("the seven triangle points integrate every monomial of degree five") {
    // integral of x^p y^q over the unit triangle = p! q! / (p + q + 2)!
    const auto factorial = [](int n) { return std::tgamma(n + 1.0); };
    for (int p = 0; p <= 5; ++p)
        for (int q = 0; p + q <= 5; ++q) {
            double sum = 0;
            for (const TrianglePoint& t : trianglePoints())
                sum += 0.5 * t.weight * std::pow(t.b, p) * std::pow(t.c, q);
            CHECK(sum == Approx(factorial(p) * factorial(q) / factorial(p + q + 2)).epsilon(1e-12));
        }
}

// Cells within 1e-7 of whole or void count as such, hence not to the last digit.
TEST_CASE("cells cut by an oblique body hold exactly its volume and centre") {
    std::mt19937 random(7);
    std::uniform_real_distribution<double> angle(0.1, 1.4);
    const Mesh bar = testing::boxMesh({0, 17}, {0, 5}, {0, 3});
    for (int trial = 0; trial < 5; ++trial) {
        const Mat3 turn =
            (Eigen::AngleAxisd(angle(random), Vec3::UnitX()) * Eigen::AngleAxisd(angle(random), Vec3::UnitY()) *
             Eigen::AngleAxisd(angle(random), Vec3::UnitZ()))
                .toRotationMatrix();
        const Mesh mesh = transformed(bar, turn, Vec3(0.3, -2, 5));
        const Grid grid = evenGrid(boundsOf(mesh), 9, 8, 7);
        const CellMoments moments = momentsOf(mesh, grid, Task());
        CHECK(totalVolume(moments, grid) == Approx(17.0 * 5 * 3).epsilon(1e-8));
        Vec3 first = Vec3::Zero();
        for (std::size_t c = 0; c < grid.cellCount(); ++c) {
            const Moments m = moments.of(c);
            const Vec3 size = grid.sizeOf(grid.cellAt(c)), low = grid.lowOf(grid.cellAt(c));
            const Vec3 local(m.value[1], m.value[3], m.value[9]);
            first += size.prod() / 8 * (low * m.volume() + 0.5 * size.cwiseProduct(local + Vec3::Constant(m.volume())));
        }
        CHECK((first / (17 * 5 * 3) - centroidOf(mesh)).norm() < 1e-7);
    }
}

TEST_CASE("a half-filled cell has the moments of half a cube") {
    const Mesh half = testing::boxMesh({-1, 1}, {-1, 1}, {-1, 0});
    Grid grid;
    grid.lines = {std::vector<double>{-1, 1}, std::vector<double>{-1, 1}, std::vector<double>{-1, 1}};
    const Moments m = momentsOf(half, grid, Task()).of(0);
    CHECK(m.volume() == Approx(4));
    CHECK(m.value[9] == Approx(-2));            // z
    CHECK(m.value[18] == Approx(4.0 / 3));      // z^2
    CHECK(m.value[2] == Approx(4.0 / 3));       // x^2
    CHECK(m.value[2 + 6] == Approx(4.0 / 9));   // x^2 y^2
    CHECK(m.value[2 + 9] == Approx(-2.0 / 3));  // x^2 z
    CHECK(m.value[1] == Approx(0).margin(1e-12));
}

TEST_CASE("bores are cut out exactly, whatever the grid") {
    const Mesh plate =
        testing::extruded({{{-20, -10}, {20, -10}, {20, 10}, {-20, 10}}, testing::circle(6, 37, true, {3, 1})}, 4);
    for (int n : {3, 8, 21}) {
        const Grid grid = evenGrid(boundsOf(plate), 2 * n, n, 2);
        CHECK(totalVolume(momentsOf(plate, grid, Task()), grid) == Approx(volumeOf(plate)).epsilon(1e-10));
    }
}

TEST_CASE("a stack of prisms fills what the same body as a surface fills") {
    const Region region{{{-20, -10}, {20, -12}, {18, 10}, {-20, 11}}, testing::circle(6, 37, true, {3, 1})};
    const Mesh mesh = testing::extruded(region, 4);
    const Grid grid = evenGrid(boundsOf(mesh), 13, 9, 3);
    PrismMoments prisms(grid);
    prisms.add(region, 0, 1.7);
    prisms.add(region, 1.7, 4);
    const CellMoments a = prisms.finish(), b = momentsOf(mesh, grid, Task());
    for (std::size_t c = 0; c < grid.cellCount(); ++c)
        for (std::size_t i = 0; i < 27; ++i)
            CHECK(a.of(c).value[i] == Approx(b.of(c).value[i]).margin(1e-9));
}
