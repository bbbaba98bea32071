#include <catch2/catch.hpp>
#include <cmath>
#include <vector>

#include "core/motion/planner.h"

// Kinematics of constant acceleration; the closed forms and the printed values stand in printed-route.md section 7
// (K4 to K10) and machined-route.md section 11 (cases 29 to 31). Status of each value is named beside it.
using namespace waybench;

namespace {

Vec3 headingAfter(double interiorAngle_deg) {
    const double turn = (180 - interiorAngle_deg) * M_PI / 180;
    return {std::cos(turn), std::sin(turn), 0};
}

std::vector<PathMove> square(double side, double speed, double acceleration) {
    return {{{side, 0, 0}, speed, acceleration},
            {{side, side, 0}, speed, acceleration},
            {{0, side, 0}, speed, acceleration},
            {{0, 0, 0}, speed, acceleration}};
}

}  // namespace

TEST_CASE("K4: rest-to-rest moves take the time of the trapezoid or triangle of speed", "[check][motion]") {
    // derived (kinematics)
    CHECK(moveTime(100, 100, 1000, 0, 0) == Approx(1.1).epsilon(1e-6));
    CHECK(moveTime(10, 100, 1000, 0, 0) == Approx(0.2).epsilon(1e-6));
    CHECK(moveTime(5, 100, 1000, 0, 0) == Approx(0.1414214).epsilon(1e-6));
}

TEST_CASE("K5: moves with entry and exit speed take the closed-form time", "[check][motion]") {
    // derived (kinematics)
    CHECK(moveTime(20, 100, 1000, 10, 10) == Approx(0.281).epsilon(1e-6));
    CHECK(moveTime(5, 100, 1000, 10, 10) == Approx(0.1228286).epsilon(1e-6));
    CHECK(moveTime(30, 80, 1500, 0, 20) == Approx(0.4166667).epsilon(1e-6));
}

TEST_CASE("K6: corner speed from junction deviation at a right angle", "[check][motion]") {
    // Public note on corner speed by constant centripetal acceleration (after S. Jeon, 2011); 39.5 mm/s printed
    // elsewhere for a 500 is a known misprint
    CHECK(cornerSpeed(Vec3::UnitX(), Vec3::UnitY(), 1000, 0.013) == Approx(5.602212).epsilon(1e-6));
    CHECK(cornerSpeed(Vec3::UnitX(), Vec3::UnitY(), 500, 0.013) == Approx(3.961362).epsilon(1e-6));
}

TEST_CASE("K7: the right-angle speed gives the deviation and the speeds at other angles", "[check][motion]") {
    // Open motion-controller source, square-corner velocity to deviation (K. O'Connor et al.)
    const double deviation = cornerDeviationFor(5, 3000);
    CHECK(deviation == Approx(0.003451780).epsilon(1e-5));
    const double angles[] = {60, 90, 135, 170}, speeds[] = {3.217971, 5, 11.210865, 52.06666};
    for (int i = 0; i < 4; ++i)
        CHECK(cornerSpeed(Vec3::UnitX(), headingAfter(angles[i]), 3000, deviation) == Approx(speeds[i]).epsilon(1e-5));
}

TEST_CASE("K8: a closed 40 mm square with corners at 5 mm/s takes 1.97075 s", "[check][motion]") {
    // derived (kinematics)
    const auto path = square(40, 100, 1000);
    CHECK(plannedTime(Vec3::Zero(), path, cornerDeviationFor(5, 1000)) == Approx(1.97075).epsilon(1e-6));
}

TEST_CASE("K10: a raster of 111 lines and 110 links takes 63.304 s", "[check][motion]") {
    // derived (kinematics)
    CHECK(moveTime(50, 100, 2000, 5, 5) == Approx(0.545125).epsilon(1e-5));
    CHECK(moveTime(0.45, 100, 2000, 5, 5) == Approx(0.0254138).epsilon(1e-5));
    std::vector<PathMove> path;
    for (int i = 0; i < 111; ++i) {
        if (i > 0) path.push_back({{i % 2 == 1 ? 50.0 : 0.0, 0.45 * i, 0}, 100, 2000});
        path.push_back({{i % 2 == 0 ? 50.0 : 0.0, 0.45 * i, 0}, 100, 2000});
    }
    // the sheet's total counts 5 mm/s at both ends too; ours starts and ends at rest, which costs twice the same sliver
    const double ends = moveTime(50, 100, 2000, 0, 5) - moveTime(50, 100, 2000, 5, 5);
    CHECK(plannedTime(Vec3::Zero(), path, cornerDeviationFor(5, 2000)) == Approx(63.30439 + 2 * ends).epsilon(1e-5));
}

TEST_CASE("machined cases 29 to 31: bench-mill moves, corners and a square with full stops", "[check][motion]") {
    // machined-route.md section 11: 29 and 31 derived; 30 after the junction model of S. Jeon, 2011 (from memory)
    CHECK(moveTime(20, 20, 200, 0, 0) == Approx(1.100).epsilon(1e-6));
    CHECK(moveTime(1, 20, 200, 0, 0) == Approx(0.1414).epsilon(1e-3));
    CHECK(moveTime(100, 50, 500, 0, 0) == Approx(2.100).epsilon(1e-6));
    CHECK(cornerSpeed(Vec3::UnitX(), Vec3::UnitY(), 500, 0.01) == Approx(3.474).epsilon(1e-3));
    CHECK(cornerSpeed(Vec3::UnitX(), Vec3::UnitY(), 200, 0.01) == Approx(2.197).epsilon(1e-3));
    CHECK(cornerSpeed(Vec3::UnitX(), headingAfter(135), 200, 0.02) == Approx(6.968).epsilon(1e-3));
    const auto path = square(25, 25, 200);
    CHECK(plannedTime(Vec3::Zero(), path, 0) == Approx(4.50).epsilon(1e-6));
}
