#include <catch2/catch.hpp>
#include <cmath>
#include <limits>
#include <numbers>

#include "core/fault/input_fault.h"
#include "core/loadcase/load_case.h"

using namespace waybench;

namespace {

/// Ring of bore radius r round the z axis, outer radius 2r, height h, n facets round: closed, faces named.
Solid ring(double r, double h, int n, double turn = 0) {
    Solid solid;
    Face bore;
    bore.name = "bore 1";
    bore.kind = SurfaceKind::cylinder;
    bore.direction = Vec3::UnitZ();
    bore.radius_mm = r;
    bore.isHollow = bore.isFullTurn = true;
    Face rim = bore;
    rim.name = "rim";
    rim.radius_mm = 2 * r;
    rim.isHollow = false;
    Face bottom, top;
    bottom.name = "bottom";
    bottom.kind = top.kind = SurfaceKind::plane;
    bottom.direction = -Vec3::UnitZ();
    top.name = "top";
    top.direction = Vec3::UnitZ();
    solid.faces = {bore, rim, bottom, top};
    for (int i = 0; i < n; ++i) {
        const double a = turn + 2 * std::numbers::pi * i / n;
        for (const double radius : {r, 2 * r})
            for (const double z : {0.0, h})
                solid.mesh.vertices.emplace_back(radius * std::cos(a), radius * std::sin(a), z);
    }
    const auto quad = [&](std::uint32_t a, std::uint32_t b, std::uint32_t c, std::uint32_t d, std::uint32_t face) {
        solid.mesh.triangles.push_back({a, b, c});
        solid.mesh.triangles.push_back({a, c, d});
        solid.faceOfTriangle.insert(solid.faceOfTriangle.end(), 2, face);
    };
    for (int i = 0; i < n; ++i) {
        const std::uint32_t p = 4 * i, q = 4 * ((i + 1) % n);
        quad(p, p + 1, q + 1, q, 0);          // bore, outward normal towards the axis
        quad(p + 2, q + 2, q + 3, p + 3, 1);  // rim
        quad(p, q, q + 2, p + 2, 2);          // bottom
        quad(p + 1, p + 3, q + 3, q + 1, 3);  // top
    }
    measureFaces(solid);
    return solid;
}

LoadCase caseWith(const Load& load) {
    LoadCase c;
    c.holds = {{FaceSelector::byName("bottom")}};
    c.loads = {load};
    c.measuredFace = FaceSelector::byName("top");
    c.deflectionLimit_mm = 0.1;
    return c;
}

Load loadOf(LoadKind kind, const std::string& face, const Vec3& vector, double pressure_MPa = 0) {
    Load load;
    load.kind = kind;
    load.face = FaceSelector::byName(face);
    load.vector = vector;
    load.pressure_MPa = pressure_MPa;
    return load;
}

/// Force and moment about a point by a rule that is exact for quadratics, independent of totalForce.
std::pair<Vec3, Vec3> resultant(const Solid& solid, const BoundLoadCase& bound, const Vec3& about) {
    Vec3 force = Vec3::Zero(), moment = Vec3::Zero();
    for (std::size_t load = 0; load < bound.loadedTriangles.size(); ++load)
        for (const std::uint32_t t : bound.loadedTriangles[load]) {
            const auto& c = solid.mesh.triangles[t];
            const Vec3 &p = solid.mesh.vertices[c[0]], &q = solid.mesh.vertices[c[1]], &r = solid.mesh.vertices[c[2]];
            const double third = (q - p).cross(r - p).norm() / 6;
            for (const Vec3& m : {Vec3((p + q) / 2), Vec3((q + r) / 2), Vec3((r + p) / 2)}) {
                const Vec3 traction = tractionAt(solid, bound, load, t, m);
                force += third * traction;
                moment += third * (m - about).cross(traction);
            }
        }
    return {force, moment};
}

std::string codeOf(const LoadCase& c, const Solid& solid) {
    try {
        bind(c, solid);
    } catch (const InputFault& f) {
        CHECK_FALSE(f.place().empty());
        CHECK_FALSE(f.remedy().empty());
        return f.code();
    }
    return "accepted";
}

}  // namespace

TEST_CASE("the ring used in these tests is a closed body", "[loadcase]") {
    const Solid solid = ring(5, 8, 40);
    CHECK(findLeak(solid.mesh).openEdges == 0);
    CHECK(volumeOf(solid.mesh) > 0);
}

TEST_CASE("a force spreads evenly and adds up to its vector", "[loadcase]") {
    const Solid solid = ring(5, 8, 40);
    const Vec3 force(3, -4, 12);
    const BoundLoadCase bound = bind(caseWith(loadOf(LoadKind::force, "top", force)), solid);
    CHECK((totalForce(solid, bound) - force).norm() < 1e-10);
    const double area = solid.faces[3].area_mm2;
    CHECK((tractionAt(solid, bound, 0, bound.loadedTriangles[0][0], Vec3::Zero()) - force / area).norm() < 1e-12);
}

TEST_CASE("a positive pressure pushes into the material", "[loadcase]") {
    const Solid solid = ring(5, 8, 40);
    const BoundLoadCase bound = bind(caseWith(loadOf(LoadKind::pressure, "top", Vec3::Zero(), 2)), solid);
    const Vec3 expected(0, 0, -2 * solid.faces[3].area_mm2);
    CHECK((totalForce(solid, bound) - expected).norm() < 1e-9);
}

TEST_CASE("a moment has exactly its vector and no net force", "[loadcase]") {
    const Solid solid = ring(5, 8, 31, 0.1);
    for (const std::string face : {"top", "bore 1", "rim"}) {
        for (const Vec3& m : {Vec3(100, 0, 0), Vec3(0, 0, 50), Vec3(10, -20, 30)}) {
            const BoundLoadCase bound = bind(caseWith(loadOf(LoadKind::moment, face, m)), solid);
            const auto [force, moment] = resultant(solid, bound, Vec3(7, 1, -3));
            CHECK(force.norm() < 1e-10);
            CHECK((moment - m).norm() < 1e-9);
        }
    }
}

TEST_CASE("a bearing load pushes on the half of the bore it points to, by the cosine", "[loadcase]") {
    for (const int n : {12, 31, 80}) {
        const Solid solid = ring(5, 8, n, 0.07);
        const Vec3 force(300, 400, 0);
        const BoundLoadCase bound = bind(caseWith(loadOf(LoadKind::bearing, "bore 1", force)), solid);
        const auto [total, moment] = resultant(solid, bound, Vec3(0, 0, 4));
        CHECK((total - force).norm() < 1e-9);
        CHECK(moment.norm() < 1e-9 * force.norm());
        for (const std::uint32_t t : bound.loadedTriangles[0]) {
            const Vec3 outward = -normalOf(solid.mesh, t);
            const Vec3 traction = tractionAt(solid, bound, 0, t, Vec3::Zero());
            if (outward.dot(force) < 0) CHECK(traction.norm() == 0);
            if (outward.dot(force) > 0.2 * force.norm()) CHECK(traction.dot(outward) > 0);
        }
    }
}

TEST_CASE("the peak of the cosine law is 2 F / (pi r h)", "[loadcase]") {
    // Integral of p0 cos^2 over the half circle is p0 r h pi/2 = F.
    const double r = 5, h = 8, F = 1000;
    const Solid solid = ring(r, h, 360);
    const BoundLoadCase bound = bind(caseWith(loadOf(LoadKind::bearing, "bore 1", Vec3(F, 0, 0))), solid);
    double peak = 0;
    for (const std::uint32_t t : bound.loadedTriangles[0])
        peak = std::max(peak, tractionAt(solid, bound, 0, t, Vec3::Zero()).norm());
    CHECK(peak == Approx(2 * F / (std::numbers::pi * r * h)).epsilon(1e-3));
}

TEST_CASE("several loads add up", "[loadcase]") {
    const Solid solid = ring(5, 8, 40);
    LoadCase c = caseWith(loadOf(LoadKind::force, "top", Vec3(0, 0, -10)));
    c.loads.push_back(loadOf(LoadKind::bearing, "bore 1", Vec3(5, 0, 0)));
    c.loads.push_back(loadOf(LoadKind::moment, "rim", Vec3(0, 0, 70)));
    CHECK((totalForce(solid, bind(c, solid)) - Vec3(5, 0, -10)).norm() < 1e-9);
}

TEST_CASE("the measured direction comes back as a unit vector", "[loadcase]") {
    LoadCase c = caseWith(loadOf(LoadKind::force, "top", Vec3(0, 0, -10)));
    c.measuredDirection = Vec3(0, 0, -5);
    CHECK(bind(c, ring(5, 8, 12)).loadCase.measuredDirection == Vec3(0, 0, -1));
}

TEST_CASE("a box takes the part of a face inside it once the facets are cut", "[loadcase]") {
    const Solid solid = ring(5, 8, 40);
    LoadCase c = caseWith(loadOf(LoadKind::force, "bore 1", Vec3(0, 0, -10)));
    c.measuredFace = FaceSelector::byBox(Vec3(-20, 0, 7.9), Vec3(20, 20, 8.1));
    const Solid refined = refinedFor(c, solid);
    const BoundLoadCase bound = bind(c, refined);
    double area = 0;
    for (const std::uint32_t t : bound.measuredTriangles) {
        const auto& v = refined.mesh.triangles[t];
        const Vec3& a = refined.mesh.vertices[v[0]];
        if (refined.faces[refined.faceOfTriangle[t]].name == "top")
            area += (refined.mesh.vertices[v[1]] - a).cross(refined.mesh.vertices[v[2]] - a).norm() / 2;
    }
    CHECK(area == Approx(solid.faces[3].area_mm2 / 2));
}

TEST_CASE("a load case that cannot be computed is refused with its place", "[loadcase]") {
    const Solid solid = ring(5, 8, 24);
    const double nan = std::numeric_limits<double>::quiet_NaN();
    const LoadCase good = caseWith(loadOf(LoadKind::force, "top", Vec3(0, 0, -10)));
    REQUIRE(codeOf(good, solid) == "accepted");
    const auto with = [&](auto change) {
        LoadCase c = good;
        change(c);
        return codeOf(c, solid);
    };
    CHECK(with([](LoadCase& c) { c.holds.clear(); }) == "no_support");
    CHECK(with([](LoadCase& c) { c.loads.clear(); }) == "no_load");
    CHECK(with([](LoadCase& c) { c.loads[0].vector.setZero(); }) == "load_zero");
    CHECK(with([](LoadCase& c) { c.loads[0].kind = LoadKind::pressure; }) == "load_zero");
    CHECK(with([&](LoadCase& c) { c.loads[0].vector.x() = nan; }) == "number_not_finite");
    CHECK(with([](LoadCase& c) { c.loads[0].face.name = "lid"; }) == "face_not_found");
    CHECK(with([](LoadCase& c) { c.holds[0].face.name = "lid"; }) == "face_not_found");
    CHECK(with([](LoadCase& c) { c.measuredFace.name = ""; }) == "face_not_found");
    CHECK(with([](LoadCase& c) { c.measuredDirection.setZero(); }) == "direction_zero");
    CHECK(with([&](LoadCase& c) { c.measuredDirection.x() = nan; }) == "number_not_finite");
    CHECK(with([](LoadCase& c) { c.deflectionLimit_mm = 0; }) == "limit_missing");
    CHECK(with([&](LoadCase& c) { c.deflectionLimit_mm = nan; }) == "limit_missing");
    CHECK(with([](LoadCase& c) { c.strengthFactor = 0; }) == "strength_factor_missing");
    CHECK(with([](LoadCase& c) { c.loadSpread = 2; }) == "load_spread_absurd");
    CHECK(with([](LoadCase& c) { c.temperature_celsius = -300; }) == "temperature_absurd");
    CHECK(with([](LoadCase& c) { c.duration = Duration::hours; }) == "duration_missing");
    CHECK(with([](LoadCase& c) { c.duration = Duration::cyclic; }) == "cycles_missing");
    CHECK(with([](LoadCase& c) { c.loads[0].face.name = "bottom"; }) == "face_held_and_loaded");
    const auto bearing = [&](const std::string& face, const Vec3& vector) {
        return codeOf(caseWith(loadOf(LoadKind::bearing, face, vector)), solid);
    };
    CHECK(bearing("top", Vec3(1, 0, 0)) == "bearing_not_on_bore");
    CHECK(bearing("bore 1", Vec3(1, 0, 1)) == "bearing_along_axis");
}

TEST_CASE("names of kinds and durations read back", "[loadcase]") {
    for (const LoadKind kind : {LoadKind::force, LoadKind::pressure, LoadKind::moment, LoadKind::bearing})
        CHECK(loadKindFromName(nameOf(kind)) == kind);
    for (const Duration duration : {Duration::brief, Duration::hours, Duration::cyclic})
        CHECK(durationFromName(nameOf(duration)) == duration);
    CHECK_THROWS_AS(loadKindFromName("twist"), InputFault);
    CHECK_THROWS_AS(durationFromName("forever"), InputFault);
}
