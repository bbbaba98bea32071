#include <catch2/catch.hpp>

#include "core/fault/input_fault.h"
#include "core/progress/thread_team.h"
#include "core/structure/hold_supports.h"
#include "tests/structure/held_solid.h"

using namespace waybench;
using namespace waybench::testing;

namespace {

std::string faultOf(const HeldSolid& held) {
    try {
        held.solve();
    } catch (const InputFault& fault) {
        return fault.code();
    }
    return "none";
}

HeldSolid block(double x, double y, double z) {
    return HeldSolid(boxMesh({0, x}, {0, y}, {0, z}));
}

/// Plate 60 x 40 x 8 on one bolt of 8 mm in a corner, pressed down at the far end.
HeldSolid boltedPlate(HoldKind kind = HoldKind::bolted) {
    HeldSolid h(segmented(extruded({{{0, 0}, {60, 0}, {60, 40}, {0, 40}}, circle(4, 32, true, {12, 20})}, 8)));
    h.hold({16, 20, 4}, -Vec3::UnitX(), kind, 18);
    h.pull(FaceSelector::byPoint({60, 20, 4}, Vec3::UnitX()), {0, 0, -20});
    return h;
}

}  // namespace

TEST_CASE("three sliding planes in a corner hold a part, fewer do not") {
    for (const Fidelity fidelity : {Fidelity::draft, Fidelity::standard}) {
        HeldSolid h = block(40, 20, 10);
        h.resolution.fidelity = fidelity;
        h.pull(FaceSelector::byPoint({40, 10, 5}, Vec3::UnitX()), {100, 0, 0});
        h.hold({0, 10, 5}, -Vec3::UnitX(), HoldKind::sliding);
        CHECK(faultOf(h) == "body_free");
        h.hold({20, 0, 5}, -Vec3::UnitY(), HoldKind::sliding);
        CHECK(faultOf(h) == "body_free");
        h.hold({20, 10, 0}, -Vec3::UnitZ(), HoldKind::sliding);
        CHECK(faultOf(h) == "none");
    }
}

TEST_CASE("the sliding corner holds however the part is turned") {
    const Mat3 turn = Eigen::AngleAxisd(0.7, Vec3(1, 2, 3).normalized()).toRotationMatrix();
    HeldSolid h(transformed(segmented(boxMesh({0, 40}, {0, 20}, {0, 10})), turn, {1, 2, 3}));
    const auto place = [&](const Vec3& p) { return Vec3(turn * p + Vec3(1, 2, 3)); };
    h.pull(FaceSelector::byPoint(place({40, 10, 5}), turn * Vec3::UnitX()), turn * Vec3(100, 0, 0));
    h.hold(place({0, 10, 5}), turn * -Vec3::UnitX(), HoldKind::sliding);
    h.hold(place({20, 0, 5}), turn * -Vec3::UnitY(), HoldKind::sliding);
    CHECK(faultOf(h) == "body_free");
    h.hold(place({20, 10, 0}), turn * -Vec3::UnitZ(), HoldKind::sliding);
    CHECK(h.solve().deflection.value == Approx(100.0 * 40 / (2000 * 200)).epsilon(2e-3));
}

TEST_CASE("a bore on a smooth shaft can still turn and slide, though its facets are flat") {
    HeldSolid h(segmented(extruded({{{0, 0}, {60, 0}, {60, 40}, {0, 40}}, circle(6, 24, true, {20, 20})}, 10)));
    h.pull(FaceSelector::byPoint({60, 20, 5}, Vec3::UnitX()), {0, 10, 0});
    h.hold({26, 20, 5}, -Vec3::UnitX(), HoldKind::sliding);
    CHECK(faultOf(h) == "body_free");
    h.hold({30, 10, 0}, -Vec3::UnitZ(), HoldKind::sliding);  // against sliding along the shaft
    CHECK(faultOf(h) == "body_free");
    h.hold({40, 0, 5}, -Vec3::UnitY(), HoldKind::sliding);  // against turning
    CHECK(faultOf(h) == "none");
}

TEST_CASE("a bolted hold stops every motion, in both fidelities, and its loads are carried") {
    for (const Fidelity fidelity : {Fidelity::draft, Fidelity::standard}) {
        HeldSolid h = boltedPlate();
        h.resolution.fidelity = fidelity;
        const StructureAnswer a = h.solve();
        CHECK((a.reaction + Vec3(0, 0, -20)).norm() < 2e-3);
        CHECK(a.strainEnergy_Nmm == Approx(a.work_Nmm).epsilon(1e-4));
        CHECK(std::any_of(a.notes.begin(), a.notes.end(),
                          [](const std::string& note) { return note.find("bolts:") == 0; }));
    }
}

TEST_CASE("bolted lies between the bore alone clamped rigidly with its ring and what half the seat would give") {
    const HeldSolid h = boltedPlate();
    const Solid cut = refinedFor(h.loadCase, h.solid);
    Body body;
    body.solid = &cut;
    body.law = isotropicLaw(h.modulus_MPa, h.poisson);
    const BoundLoadCase bound = bind(h.loadCase, cut);
    const auto deflection = [&](double share, bool rigid) {
        statics::Problem p;
        p.mesh = cut.mesh;
        p.law = body.law;
        p.supports = statics::supportsOf(body, bound, Mat3::Identity(), rigid);
        for (statics::Support& s : p.supports)
            if (s.bedding && s.bedding->tangential_N_per_mm3 > 0) {
                s.bedding->normal_N_per_mm3 *= share;
                s.bedding->tangential_N_per_mm3 *= share;
            }
        p.tractions = {{bound.loadedTriangles[0],
                        [&](std::uint32_t t, const Vec3& x) { return tractionAt(cut, bound, 0, t, x); }}};
        p.measured = bound.measuredTriangles;
        p.measuredDirection = -Vec3::UnitZ();
        return solveTwice(p, 1.5).deflection();
    };
    const double rigid = deflection(1, true), usual = deflection(1, false), half = deflection(0.5, false);
    CHECK(rigid < usual);
    CHECK(usual < half);
    const StructureAnswer a = h.solve();
    CHECK(a.deflection.value == Approx(usual).epsilon(0.02));
    CHECK(a.deflection.low <= rigid);
    CHECK(a.deflection.high >= half);
    // stiffer than stiff is clamped
    CHECK(deflection(1e9, false) == Approx(rigid).epsilon(1e-6));
}

TEST_CASE("on a soft seat a stiff block sinks by the force over stiffness and area") {
    statics::Problem p;
    const Solid solid = segmented(extruded({{{0, 0}, {30, 0}, {30, 30}, {0, 30}}, circle(4, 48, true, {15, 15})}, 20));
    LoadCase c;
    c.holds = {{FaceSelector::byPoint({19, 15, 10}, -Vec3::UnitX()), HoldKind::bolted, 20}};
    c.loads = {{LoadKind::force, FaceSelector::byPoint({30, 15, 10}, Vec3::UnitX()), Vec3(0, 0, -500), 0}};
    c.measuredFace = c.loads[0].face;
    c.deflectionLimit_mm = 1;
    const Solid cut = refinedFor(c, solid);
    const BoundLoadCase bound = bind(c, cut);
    Body body;
    body.solid = &cut;
    body.law = isotropicLaw(2e6, 0.3);
    p.mesh = cut.mesh;
    p.law = body.law;
    p.measured = bound.measuredTriangles;
    p.measuredDirection = -Vec3::UnitZ();
    // both opposite sides, so that the block sinks straight
    p.tractions = {evenForce(p.mesh, facetsOn(p.mesh, 0, 30), {0, 0, -500}),
                   evenForce(p.mesh, facetsOn(p.mesh, 0, 0), {0, 0, -500})};
    const auto sunk = [&](bool rigid, double normal_N_per_mm3) {
        p.supports = statics::supportsOf(body, bound, Mat3::Identity(), rigid);
        for (statics::Support& s : p.supports)
            if (s.bedding && s.bedding->tangential_N_per_mm3 > 0) s.bedding->normal_N_per_mm3 = normal_N_per_mm3;
        const statics::Grid grid = statics::snappedGrid(boundsOf(p.mesh), statics::axisParallelPlanes(p.mesh), 2.5);
        return statics::solveOnGrid(p, grid, 1e-9, nullptr, Task()).deflection_mm;
    };
    double area = 0;
    for (const std::uint32_t t : bound.holds[0].ring)
        area +=
            0.5 * (cut.mesh.vertices[cut.mesh.triangles[t][1]] - cut.mesh.vertices[cut.mesh.triangles[t][0]])
                      .cross(cut.mesh.vertices[cut.mesh.triangles[t][2]] - cut.mesh.vertices[cut.mesh.triangles[t][0]])
                      .norm();
    const double k = 50;
    CHECK(sunk(false, k) - sunk(true, k) == Approx(1000 / (k * area)).epsilon(0.005));
}

TEST_CASE("the stiffness of a seat follows the modulus and falls with a longer grip") {
    const double k = statics::boltBedding_N_per_mm3(2000, 10, 5.5, 11);
    CHECK(statics::boltBedding_N_per_mm3(4000, 10, 5.5, 11) == Approx(2 * k));
    CHECK(statics::boltBedding_N_per_mm3(2000, 20, 5.5, 11) < k);
}

TEST_CASE("holds of every kind give the same bits with one thread and with all") {
    HeldSolid h = boltedPlate();
    h.hold({30, 0, 4}, -Vec3::UnitY(), HoldKind::sliding);
    setMostThreads(1);
    const StructureAnswer one = h.solve();
    setMostThreads(0);
    const StructureAnswer many = h.solve();
    CHECK(one.deflection.value == many.deflection.value);
    CHECK(one.deflection.low == many.deflection.low);
    CHECK(one.strengthMargin.value == many.strengthMargin.value);
    CHECK(one.displacement_mm == many.displacement_mm);
}

TEST_CASE("a bore bolted twice is held once") {
    HeldSolid once = boltedPlate(), twice = boltedPlate();
    twice.hold({16, 20, 4}, -Vec3::UnitX(), HoldKind::bolted, 18);
    CHECK(twice.solve().deflection.value == Approx(once.solve().deflection.value).epsilon(1e-9));
}

TEST_CASE("a bolt's head that reaches past its flat face is told, one far too wide is refused") {
    const auto toldOf = [](double head) {
        HeldSolid h(segmented(extruded({{{0, 0}, {60, 0}, {60, 40}, {0, 40}}, circle(4, 32, true, {12, 20})}, 8)));
        h.hold({16, 20, 4}, -Vec3::UnitX(), HoldKind::bolted, head);
        h.pull(FaceSelector::byPoint({60, 20, 4}, Vec3::UnitX()), {0, 0, -20});
        for (const std::string& caution : h.solve().cautions)
            if (caution.find("head reaches past") != std::string::npos) return true;
        return false;
    };
    CHECK_FALSE(toldOf(16));
    CHECK(toldOf(36));
    CHECK_THROWS_AS(toldOf(80), InputFault);
}

TEST_CASE("a part that would lift off what it slides on is told, one that is pressed on it is not") {
    for (const double force : {-50.0, 50.0}) {
        HeldSolid h = block(40, 20, 10);
        h.pull(FaceSelector::byPoint({20, 10, 10}, Vec3::UnitZ()), {0, 0, force});
        h.hold({0, 10, 5}, -Vec3::UnitX(), HoldKind::sliding);
        h.hold({20, 0, 5}, -Vec3::UnitY(), HoldKind::sliding);
        h.hold({20, 10, 0}, -Vec3::UnitZ(), HoldKind::sliding);
        bool told = false;
        for (const std::string& caution : h.solve().cautions)
            told = told || caution.find("would have to pull") != std::string::npos;
        CHECK(told == (force > 0));
    }
}

TEST_CASE("the largest deflection is found in the middle of a long facet too") {
    HeldSolid h = block(100, 10, 4);
    h.hold({0, 5, 2}, -Vec3::UnitX(), HoldKind::fixed);
    h.hold({100, 5, 2}, Vec3::UnitX(), HoldKind::fixed);
    h.pull(FaceSelector::byPoint({50, 5, 4}, Vec3::UnitZ()), {0, 0, -20});
    const StructureAnswer a = h.solve();
    // clamped beam under an even load: the middle sinks F L^3 / (384 E I), 1.875 times the mean F L^3 / (720 E I)
    // (Euler-Bernoulli; integral of x^2 (L - x)^2 over L)
    CHECK(a.deflectionMax.value / a.deflection.value == Approx(1.875).epsilon(0.03));
}

TEST_CASE("the natural frequency does not hang on where the deflection is measured") {
    const auto frequency = [](const Vec3& direction) {
        HeldSolid h = block(80, 12, 5);
        h.density_g_per_mm3 = 1.2e-3;
        h.hold({0, 6, 2.5}, -Vec3::UnitX(), HoldKind::fixed);
        h.pull(FaceSelector::byPoint({80, 6, 2.5}, Vec3::UnitX()), {0, 0, -5});
        h.loadCase.measuredDirection = direction;
        return h.solve().firstFrequency.value().value;
    };
    const double along = frequency({0, 0, -1});
    CHECK(frequency({1, 0, 0}) == Approx(along).epsilon(1e-3));
    CHECK(frequency({0, 1, 0}) == Approx(along).epsilon(1e-3));
}
