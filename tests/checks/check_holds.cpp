// Sliding and bolted holds against closed forms of elasticity and a published joint.

#include <catch2/catch.hpp>
#include <numbers>

#include "core/structure/hold_supports.h"
#include "tests/structure/test_bodies.h"

using namespace waybench;
using namespace waybench::testing;

namespace {

struct Case {
    Solid solid;
    LoadCase loadCase;
    double modulus_MPa = 2000, poisson = 0.3;

    explicit Case(Mesh mesh) : solid(segmented(std::move(mesh))) { loadCase.deflectionLimit_mm = 1; }
    void slide(const Vec3& point, const Vec3& normal) {
        loadCase.holds.push_back({FaceSelector::byPoint(point, normal), HoldKind::sliding});
    }
    void fix(const Vec3& point, const Vec3& normal) {
        loadCase.holds.push_back({FaceSelector::byPoint(point, normal), HoldKind::fixed});
    }
    void press(const Vec3& point, const Vec3& normal, double pressure_MPa) {
        loadCase.loads.push_back(
            {LoadKind::pressure, FaceSelector::byPoint(point, normal), Vec3::Zero(), pressure_MPa});
    }
    void measure(const Vec3& point, const Vec3& normal, const Vec3& direction) {
        loadCase.measuredFace = FaceSelector::byPoint(point, normal);
        loadCase.measuredDirection = direction;
    }
    StructureAnswer solve() const {
        const Solid cut = refinedFor(loadCase, solid);
        Body body;
        body.solid = &cut;
        body.law = isotropicLaw(modulus_MPa, poisson);
        StrengthLaw strength;
        strength.inLayer_MPa = 40;
        return solveStructure(body, strength, bind(loadCase, cut), Resolution{}, Task());
    }
};

const Vec3 kX = Vec3::UnitX(), kY = Vec3::UnitY(), kZ = Vec3::UnitZ();

}  // namespace

// Hooke's law: F L/(E A) along, -nu F b/(E A) across; elementary elasticity, exact in a corner of smooth planes.
// The planes themselves give by a 25th of a cell (what stands for rigid), which the extrapolation takes away.
TEST_CASE("a bar on a sliding end stretches by FL/EA and narrows freely") {
    Case c(boxMesh({0, 50}, {0, 20}, {0, 10}));
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
    Case c(boxMesh({0, 40}, {0, 20}, {0, 15}));
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
    Case c(extruded({ring}, 10));
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
    Case whole(boxMesh({0, 45, 55, 100}, {0, 20}, {0, 10}));
    whole.loadCase.holds = {{FaceSelector::byPoint({0, 10, 5}, -kX)}, {FaceSelector::byPoint({100, 10, 5}, kX)}};
    whole.loadCase.loads = {{LoadKind::force, FaceSelector::byBox({45, 0, 10}, {55, 20, 10}), Vec3(0, 0, -400), 0}};
    whole.loadCase.measuredFace = whole.loadCase.loads[0].face;
    whole.loadCase.measuredDirection = -kZ;
    Case quarter(boxMesh({0, 45, 50}, {0, 10}, {0, 10}));
    quarter.fix({0, 5, 5}, -kX);
    quarter.slide({50, 5, 5}, kX);
    quarter.slide({25, 10, 5}, kY);
    quarter.loadCase.loads = {{LoadKind::force, FaceSelector::byBox({45, 0, 10}, {50, 10, 10}), Vec3(0, 0, -100), 0}};
    quarter.loadCase.measuredFace = quarter.loadCase.loads[0].face;
    quarter.loadCase.measuredDirection = -kZ;
    CHECK(quarter.solve().deflection.value == Approx(whole.solve().deflection.value).epsilon(0.005));
}

// judgement.md V41 (after VDI 2230): M5, two aluminium plates 5 + 5, head 8.03 on a hole of 5.5: k_m 419 100 N/mm.
// The grip of 10 mm is one cone to its middle from either side, two in series; modulus 70 000 MPa.
TEST_CASE("the seat of a bolt has the stiffness of the clamped plate") {
    const double area = std::numbers::pi / 4 * (8.03 * 8.03 - 5.5 * 5.5);
    const double cone = statics::boltBedding_N_per_mm3(70000, 10, 5.5, 8.03) * area;
    CHECK(cone / 2 == Approx(419100).epsilon(0.002));
}
