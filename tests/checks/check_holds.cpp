// Sliding and bolted holds against closed forms of elasticity and a published joint.

#include <catch2/catch.hpp>
#include <numbers>

#include "core/structure/hold_supports.h"
#include "tests/structure/held_solid.h"

using namespace waybench;
using namespace waybench::testing;

namespace {

const Vec3 kX = Vec3::UnitX(), kY = Vec3::UnitY(), kZ = Vec3::UnitZ();

}  // namespace

// Hooke's law: F L/(E A) along, -nu F b/(E A) across; elementary elasticity, exact in a corner of smooth planes.
// The planes themselves give by a 25th of a cell (what stands for rigid), which the extrapolation takes away.
TEST_CASE("a bar on a sliding end stretches by FL/EA and narrows freely") {
    HeldSolid c(boxMesh({0, 50}, {0, 20}, {0, 10}));
    c.slide({0, 10, 5}, -kX);
    c.slide({25, 0, 5}, -kY);
    c.slide({25, 10, 0}, -kZ);
    c.press({50, 10, 5}, kX, -8);
    c.measure({50, 10, 5}, kX, kX);
    CHECK(c.solve().deflection.value == Approx(8.0 * 50 / 2000).epsilon(1e-3));
    c.measure({25, 20, 5}, kY, -kY);
    CHECK(c.solve().deflection.value == Approx(0.3 * 8 * 20 / 2000).epsilon(1e-3));
}

// S. P. Timoshenko and J. N. Goodier, Theory of Elasticity, plane strain: E/(1 - nu^2) in place of E; both sides held:
// E (1 - nu)/((1 + nu)(1 - 2 nu)) (from memory, re-derived from Hooke's law).
TEST_CASE("a block between sliding walls is stiffer as plane strain and full confinement say") {
    const double nu = 0.35;
    HeldSolid c(boxMesh({0, 40}, {0, 20}, {0, 15}));
    c.poisson = nu;
    c.slide({0, 10, 7}, -kX);
    c.slide({20, 0, 7}, -kY);
    c.slide({20, 10, 0}, -kZ);
    c.slide({20, 20, 7}, kY);
    c.press({40, 10, 7}, kX, 10);
    c.measure({40, 10, 7}, kX, -kX);
    CHECK(c.solve().deflection.value == Approx(10 * 40 * (1 - nu * nu) / 2000).epsilon(2e-3));
    c.slide({20, 10, 15}, kZ);
    const double confined = 2000 * (1 - nu) / ((1 + nu) * (1 - 2 * nu));
    CHECK(c.solve().deflection.value == Approx(10 * 40 / confined).epsilon(4e-3));
}

// Lame's thick-walled cylinder, ends free: u(a) = p a/E [(a^2 + b^2)/(b^2 - a^2) + nu]. Timoshenko and Goodier, Theory
// of Elasticity, article 28 (from memory). A quarter on two sliding planes; the bore's mean of u cos(theta) is 2 u/pi.
TEST_CASE("a quarter of a thick-walled cylinder on sliding planes widens as Lame says") {
    const double a = 10, b = 20, pressure = 5;
    Ring ring;
    const int n = 48;
    for (int i = 0; i <= n; ++i) {
        const double t = i * std::numbers::pi / 2 / n;
        ring.push_back({b * std::cos(t), b * std::sin(t)});
    }
    for (int i = n; i >= 0; --i) {
        const double t = i * std::numbers::pi / 2 / n;
        ring.push_back({a * std::cos(t), a * std::sin(t)});
    }
    HeldSolid c(extruded({ring}, 10));
    c.slide({15, 0, 5}, -kY);
    c.slide({0, 15, 5}, -kX);
    c.slide({10.7, 10.7, 0}, -kZ);
    const Vec3 in = Vec3(1, 1, 0).normalized();
    c.press(a * in + Vec3(0, 0, 5), -in, pressure);
    c.measure(a * in + Vec3(0, 0, 5), -in, kX);
    const double u = pressure * a / 2000 * ((a * a + b * b) / (b * b - a * a) + 0.3);
    const StructureAnswer answer = c.solve();
    CHECK(answer.deflection.value == Approx(2 * u / std::numbers::pi).epsilon(0.01));
    CHECK(answer.deflection.low <= 2 * u / std::numbers::pi);
    CHECK(answer.deflection.high >= 2 * u / std::numbers::pi);
}

// A plane of symmetry is a smooth plane; no source needed.
TEST_CASE("a quarter on its planes of symmetry bends as the whole") {
    // beam clamped at both ends, pressed on the middle of its top
    HeldSolid whole(boxMesh({0, 45, 55, 100}, {0, 20}, {0, 10}));
    whole.loadCase.holds = {{FaceSelector::byPoint({0, 10, 5}, -kX)}, {FaceSelector::byPoint({100, 10, 5}, kX)}};
    whole.pull(FaceSelector::byBox({45, 0, 10}, {55, 20, 10}), Vec3(0, 0, -400));
    HeldSolid quarter(boxMesh({0, 45, 50}, {0, 10}, {0, 10}));
    quarter.hold({0, 5, 5}, -kX, HoldKind::fixed);
    quarter.slide({50, 5, 5}, kX);
    quarter.slide({25, 10, 5}, kY);
    quarter.pull(FaceSelector::byBox({45, 0, 10}, {50, 10, 10}), Vec3(0, 0, -100));
    CHECK(quarter.solve().deflection.value == Approx(whole.solve().deflection.value).epsilon(0.005));
}

// R. Budynas and J. Nisbett, Shigley's Mechanical Engineering Design, chapter 8, solutions manual: M12, washer face 18
// mm, 20 mm of steel (207 GPa) as the first frustum: k_1 = 4470 MN/m. And two aluminium plates 5 + 5 under an M5 head
// of 8.03 on a hole of 5.5: k_m = 419 100 N/mm, two frusta in series (reference sheet judgement.md V41, by the same
// formula).
TEST_CASE("the seat of a bolt has the stiffness of the clamped plate") {
    const auto frustum = [](double modulus, double grip, double hole, double head) {
        return statics::boltBedding_N_per_mm3(modulus, grip, hole, head) * std::numbers::pi / 4 *
               (head * head - hole * hole);
    };
    CHECK(frustum(207000, 40, 12, 18) == Approx(4.470e6).epsilon(0.001));
    CHECK(frustum(70000, 10, 5.5, 8.03) / 2 == Approx(419100).epsilon(0.002));
}
