#include <catch2/catch.hpp>

#include "tests/structure/test_bodies.h"

using namespace waybench;
using namespace waybench::statics;

TEST_CASE("grid lines lie on every axis-parallel plane of a stepped body") {
    const Mesh mesh = testing::extruded({{{0, 0}, {50, 0}, {50, 7}, {13, 7}, {13, 30}, {0, 30}}}, 4);
    const Grid grid = snappedGrid(boundsOf(mesh), axisParallelPlanes(mesh), 5);
    const auto has = [&](int axis, double x) {
        return std::any_of(grid.lines[axis].begin(), grid.lines[axis].end(),
                           [&](double l) { return std::abs(l - x) < 1e-9; });
    };
    CHECK(has(0, 13));
    CHECK(has(1, 7));
    for (int axis = 0; axis < 3; ++axis)
        for (std::size_t i = 1; i < grid.lines[axis].size(); ++i) {
            CHECK(grid.lines[axis][i] > grid.lines[axis][i - 1]);
            CHECK(grid.lines[axis][i] - grid.lines[axis][i - 1] <= 5.2);
        }
}

TEST_CASE("two planes too close to keep both leave the larger one") {
    const Box3 box{{0, 0, 0}, {10, 10, 10}};
    const Grid grid = snappedGrid(box, {{0, 4.0, 1, 1}, {0, 4.1, 9, 1}}, 2);
    CHECK(std::count(grid.lines[0].begin(), grid.lines[0].end(), 4.1) == 1);
    CHECK(std::count(grid.lines[0].begin(), grid.lines[0].end(), 4.0) == 0);
}

TEST_CASE("halving a grid keeps its lines") {
    const Grid coarse = snappedGrid({{0, 0, 0}, {7, 3, 2}}, {{0, 2.5, 1, 1}}, 1.3);
    const Grid fine = bisected(coarse);
    for (int axis = 0; axis < 3; ++axis) {
        REQUIRE(fine.cells(axis) == 2 * coarse.cells(axis));
        for (std::size_t i = 0; i < coarse.lines[axis].size(); ++i)
            CHECK(fine.lines[axis][2 * i] == coarse.lines[axis][i]);
    }
}
