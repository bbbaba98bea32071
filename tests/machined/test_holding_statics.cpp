// Holding while milling, against statics by hand.
#include <catch2/catch.hpp>
#include <cmath>
#include <random>

#include "core/machined/holding_statics.h"

using namespace waybench;
using namespace waybench::machined;

namespace {

HoldPoint hold(double x, double y, double pressed, double friction) {
    return {Vec2(x, y), pressed, friction * pressed};
}

const std::vector<Vec2> kPlate{{0, 0}, {100, 0}, {100, 60}, {0, 60}};

}  // namespace

TEST_CASE("two clamps resist a torque by friction times force times their distance") {
    // Pivot anywhere between them: mu N (a + b) = 0.1 * 500 * 80 = 4000 N mm.
    const std::vector<HoldPoint> two{hold(10, 30, 500, 0.1), hold(90, 30, 500, 0.1)};
    const HoldSafety s = holdSafety(two, kPlate, {Vec2(50, 10), 0, 0, 0, 1000});
    CHECK(s.turn == Approx(4).epsilon(1e-4));
    CHECK(s.slide == kFirmly);
    CHECK(s.lift == kFirmly);
}

TEST_CASE("a force through the middle of two clamps shifts, one beyond them turns about the farther") {
    const std::vector<HoldPoint> two{hold(10, 0, 500, 0.1), hold(90, 0, 500, 0.1)};
    CHECK(holdSafety(two, kPlate, {Vec2(50, 0), 0, 25, 0, 0}).turn == Approx(100.0 / 25).epsilon(1e-4));
    // Across the line, 60 mm beyond the right clamp: about the left one 50 * 80 / (F * 140).
    const HoldSafety beyond = holdSafety(two, kPlate, {Vec2(150, 0), 0, 25, 0, 0});
    CHECK(beyond.turn == Approx(50.0 * 80 / (25 * 140)).epsilon(1e-4));
    CHECK(beyond.slide == Approx(4));
}

TEST_CASE("one clamp does not stop turning about itself") {
    const std::vector<HoldPoint> one{hold(10, 0, 500, 0.1)};
    const HoldSafety s = holdSafety(one, kPlate, {Vec2(50, 0), 0, 25, 0, 0});
    CHECK(s.slide == Approx(2));
    CHECK(s.turn < 1e-6);
}

TEST_CASE("four clamps hold a torque by all their distances from the pivot in the middle") {
    // Square of half diagonal r: 4 mu N r.
    const double r = std::hypot(40, 20);
    const std::vector<HoldPoint> four{hold(10, 10, 500, 0.1), hold(90, 10, 500, 0.1), hold(90, 50, 500, 0.1),
                                      hold(10, 50, 500, 0.1)};
    CHECK(holdSafety(four, kPlate, {Vec2(20, 20), 0, 0, 0, 1000}).turn == Approx(4 * 50 * r / 1000).epsilon(1e-4));
}

TEST_CASE("lifting at an edge tips about the far one") {
    const std::vector<HoldPoint> one{hold(50, 30, 400, 0.1)};
    // 100 N up at x = 100, tipping about x = 0: 400 * 50 / (100 * 100) = 2; straight up 4.
    CHECK(holdSafety(one, kPlate, {Vec2(100, 30), 0, 0, 100, 0}).lift == Approx(2));
    CHECK(holdSafety(one, kPlate, {Vec2(50, 30), 0, 0, 100, 0}).lift == Approx(4));
    // Thrust inside what carries the plate never tips it; 20 mm outside it does: 400 * 50 / (300 * 20).
    CHECK(holdSafety(one, kPlate, {Vec2(90, 30), 0, 0, -300, 0}).lift == kFirmly);
    CHECK(holdSafety(one, kPlate, {Vec2(120, 30), 0, 0, -300, 0}).lift == Approx(400.0 * 50 / (300 * 20)));
}

TEST_CASE("a tall part is tipped by a cut at its top", "[machined][holding]") {
    // 65 N at 80 mm over a base 22 mm deep, 500 N pressed in its middle: 500 * 11 / (65 * 80).
    const std::vector<Vec2> base{{0, 0}, {44, 0}, {44, 22}, {0, 22}};
    const HoldSafety s = holdSafety({hold(22, 11, 500, 1.0)}, base, {Vec2(22, 11), 80, 65, 0, 0});
    CHECK(s.lift == Approx(500 * 11 / (65.0 * 80)));
}

TEST_CASE("what lifts takes its share of the grip") {
    const std::vector<HoldPoint> two{hold(10, 30, 500, 0.1), hold(90, 30, 500, 0.1)};
    // k (20 + 100 * 250 / 1000) = 100: k = 2.22; two and a half such loads would not be held.
    CHECK(holdSafety(two, kPlate, {Vec2(50, 30), 0, 20, 250, 0}).slide == Approx(100 / 45.0));
}

TEST_CASE("vacuum over an area holds as its friction over the area, and turns as a disc") {
    // machined-route.md case 35: 80 % vacuum on 100 cm2, friction 0.2: 811 N pressed, 162 N sideways (derived).
    const double pressed = 811;
    // A disc under even pressure resists 2/3 mu N R about its middle (plate clutch, handbook formula, from memory).
    const double R = std::sqrt(1e4 / 3.14159265358979);
    std::vector<HoldPoint> disc;
    const int n = 60;
    for (int i = 0; i < n; ++i)
        for (int j = 0; j < n; ++j) {
            const Vec2 p(R * (2 * (i + 0.5) / n - 1), R * (2 * (j + 0.5) / n - 1));
            if (p.norm() < R) disc.push_back({p, 0, 0});
        }
    for (HoldPoint& h : disc) {
        h.pressed_N = pressed / double(disc.size());
        h.grip_N = 0.2 * h.pressed_N;
    }
    const double torque = 1000;
    CHECK(holdSafety(disc, {{-R, -R}, {R, -R}, {R, R}, {-R, R}}, {Vec2(0, 0), 0, 0, 0, torque}).turn ==
          Approx(2.0 / 3 * 0.2 * pressed * R / torque).epsilon(0.01));
}

TEST_CASE("tabs of the sheet's example carry 1766 N") {
    // machined-route.md 6: four tabs 3 x 1 mm in aluminium of 255 MPa yield strength (derived).
    CHECK(tabShear_N(4, 3, 1, 0.577 * 255) == Approx(1766).epsilon(1e-3));
}

TEST_CASE("no motion found by trying beats the limit, and more clamps never hold less") {
    std::mt19937 random(7);
    std::uniform_real_distribution<double> u(0, 1);
    for (int round = 0; round < 200; ++round) {
        std::vector<HoldPoint> holds;
        const int count = 2 + int(random() % 5);
        for (int i = 0; i < count; ++i)
            holds.push_back(hold(100 * u(random), 60 * u(random), 100 + 900 * u(random), 0.1 + 0.2 * u(random)));
        const CutLoad load{Vec2(100 * u(random), 60 * u(random)), 0, 50 * u(random) + 1, 0, 2000 * (u(random) - 0.5)};
        const HoldSafety s = holdSafety(holds, kPlate, load);
        REQUIRE(s.turn <= s.slide * (1 + 1e-9));
        for (int k = 0; k < 200; ++k) {
            const Vec2 pivot(400 * u(random) - 150, 400 * u(random) - 170);
            double resisted = 0;
            for (const HoldPoint& h : holds)
                resisted += h.grip_N * (h.at - pivot).norm();
            const double power = load.sideways_N * (load.at - pivot).norm() + std::abs(load.torque_Nmm);
            REQUIRE(resisted / power >= s.turn * (1 - 0.01));  // the force's direction is taken in steps of 15 degrees
        }
        holds.push_back(hold(100 * u(random), 60 * u(random), 300, 0.1));
        REQUIRE(holdSafety(holds, kPlate, load).turn >= s.turn * (1 - 1e-6));
    }
}
