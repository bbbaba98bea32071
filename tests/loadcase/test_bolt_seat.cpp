#include <catch2/catch.hpp>
#include <cmath>
#include <numbers>
#include <random>

#include "core/fault/input_fault.h"
#include "core/loadcase/bolt_seat.h"
#include "tests/structure/test_bodies.h"

using namespace waybench;
using namespace waybench::testing;

namespace {

/// Plate 60 x 40 with a bore of radius r at (20, 15).
Solid boredPlate(double r = 2.75, double thickness = 8, int corners = 32) {
    return segmented(extruded({{{0, 0}, {60, 0}, {60, 40}, {0, 40}}, circle(r, corners, true, {20, 15})}, thickness));
}

LoadCase boltedCase(const FaceSelector& bore, double head_mm = 0) {
    LoadCase c;
    c.holds = {{bore, HoldKind::bolted, head_mm}};
    c.loads = {{LoadKind::force, FaceSelector::byPoint({5, 5, 8}, Vec3::UnitZ()), Vec3(0, 0, -10), 0}};
    c.measuredFace = c.loads[0].face;
    c.deflectionLimit_mm = 0.1;
    return c;
}

FaceSelector boreAt(double r = 2.75, double z = 4) {
    return FaceSelector::byPoint({20 + r, 15, z}, -Vec3::UnitX());
}

double areaOfFacets(const Solid& solid, const std::vector<std::uint32_t>& facets) {
    double area = 0;
    for (const std::uint32_t t : facets) {
        const auto& c = solid.mesh.triangles[t];
        const Vec3 &a = solid.mesh.vertices[c[0]], &b = solid.mesh.vertices[c[1]], &d = solid.mesh.vertices[c[2]];
        area += 0.5 * (b - a).cross(d - a).norm();
    }
    return area;
}

double ringArea(double bore, double head) {
    return std::numbers::pi * (head * head - bore * bore);
}

std::string faultOf(const Solid& solid, const LoadCase& c) {
    try {
        bind(c, refinedFor(c, solid));
    } catch (const InputFault& fault) {
        CHECK(fault.place().find("hold 1") != std::string::npos);
        CHECK_FALSE(fault.remedy().empty());
        return fault.code();
    }
    return "none";
}

}  // namespace

TEST_CASE("the rings under a bolt's head have the area they should, on both sides, and the surface stays closed") {
    for (const int corners : {20, 32, 64})
        for (const double head : {0.0, 9.0, 14.0}) {
            const Solid plate = boredPlate(2.75, 8, corners);
            const LoadCase c = boltedCase(boreAt(2.75), head);
            const Solid cut = refinedFor(c, plate);
            CHECK(findLeak(cut.mesh).openEdges == 0);
            CHECK(volumeOf(cut.mesh) == Approx(volumeOf(plate.mesh)).epsilon(1e-9));
            const BoundLoadCase bound = bind(c, cut);
            REQUIRE(bound.holds.size() == 1);
            const double r = head > 0 ? head / 2 : 5.5;
            CHECK(areaOfFacets(cut, bound.holds[0].ring) == Approx(2 * ringArea(2.75, r)).epsilon(0.01));
            CHECK(areaOfFacets(cut, bound.holds[0].triangles) == Approx(2 * std::numbers::pi * 2.75 * 8).epsilon(0.02));
            CHECK(bound.holds[0].grip_mm == Approx(8));
        }
}

TEST_CASE("a head that reaches over the edge presses on what there is") {
    const LoadCase c = boltedCase(boreAt(), 40);
    const Solid cut = refinedFor(c, boredPlate());
    // circle of radius 20 about (20, 15), 5 mm cut off at y < 0
    const double cutOff = 400 * std::acos(0.75) - 15 * std::sqrt(400.0 - 225);
    CHECK(areaOfFacets(cut, bind(c, cut).holds[0].ring) == Approx(2 * (ringArea(2.75, 20) - cutOff)).epsilon(0.01));
}

TEST_CASE("a bolt is refused where it cannot sit, by name of its hold") {
    const Solid plate = boredPlate();
    CHECK(faultOf(plate, boltedCase(FaceSelector::byPoint({20, 0, 4}, -Vec3::UnitY()))) == "bolt_not_in_bore");
    CHECK(faultOf(plate, boltedCase(boreAt(), 5.6)) == "bolt_head_absurd");
    CHECK(faultOf(plate, boltedCase(boreAt(), -8)) == "bolt_head_absurd");
    CHECK(faultOf(plate, boltedCase(boreAt(), std::nan(""))) == "bolt_head_absurd");
    CHECK(faultOf(plate, boltedCase(FaceSelector::byName("nowhere"))) == "face_not_found");
    const Solid two = segmented(extruded(
        {{{0, 0}, {60, 0}, {60, 40}, {0, 40}}, circle(2.75, 32, true, {20, 15}), circle(2.75, 32, true, {40, 15})}, 8));
    CHECK(faultOf(two, boltedCase(FaceSelector::byBox({15, 10, -1}, {45, 20, 9}))) == "bolt_not_in_bore");
    // an outer round is no bore, nor is an inner fillet
    const Solid disc = segmented(extruded({circle(20, 48)}, 8));
    CHECK(faultOf(disc, boltedCase(FaceSelector::byPoint({20, 0, 4}, Vec3::UnitX()))) == "bolt_not_in_bore");
    Ring fillet{{0, 0}, {60, 0}, {60, 10}};
    for (int i = 0; i <= 12; ++i) {
        const double a = i * std::numbers::pi / 24;
        fillet.push_back({20 - 10 * std::sin(a), 20 - 10 * std::cos(a)});
    }
    fillet.insert(fillet.end(), {{10, 40}, {0, 40}});
    const Solid corner = segmented(extruded({fillet}, 8));
    const Vec3 on(20 - 10 * std::sin(std::numbers::pi / 4), 20 - 10 * std::cos(std::numbers::pi / 4), 4);
    CHECK(faultOf(corner, boltedCase(FaceSelector::byPoint(on, Vec3(1, 1, 0).normalized()))) == "bolt_not_in_bore");
}

TEST_CASE("a load on a face with a bolt goes on the rest of it, and all under the head is refused") {
    LoadCase c = boltedCase(boreAt());
    c.loads[0] = {LoadKind::force, FaceSelector::byPoint({50, 30, 8}, Vec3::UnitZ()), Vec3(0, 0, -10), 0};
    const Solid cut = refinedFor(c, boredPlate());
    const BoundLoadCase bound = bind(c, cut);
    CHECK((totalForce(cut, bound) - Vec3(0, 0, -10)).norm() < 1e-9);
    CHECK(areaOfFacets(cut, bound.loadedTriangles[0]) == Approx(60 * 40 - std::numbers::pi * 5.5 * 5.5).epsilon(1e-3));
    c.loads[0].face = FaceSelector::byBox({17, 12, 7.9}, {23, 18, 8.1});
    const Solid again = refinedFor(c, boredPlate());
    try {
        bind(c, again);
        FAIL("loaded under the head");
    } catch (const InputFault& fault) {
        CHECK(fault.code() == "face_held_and_loaded");
    }
}

TEST_CASE("a countersunk screw's cone is no seat, a counterbore's floor is, and a blind bore has one ring") {
    // bodies of revolution about z: radius, height; 48 facets round
    const auto turned = [](const std::vector<Vec2>& profile) {
        const std::uint32_t n = 48, m = std::uint32_t(profile.size());
        Mesh mesh;
        for (std::uint32_t i = 0; i < n; ++i)
            for (const Vec2& p : profile) {
                const double a = 2 * std::numbers::pi * i / n;
                mesh.vertices.emplace_back(p.x() * std::cos(a), p.x() * std::sin(a), p.y());
            }
        for (std::uint32_t i = 0; i < n; ++i)
            for (std::uint32_t k = 0; k < m; ++k) {
                const std::uint32_t a = i * m + k, b = i * m + (k + 1) % m, c = (i + 1) % n * m + (k + 1) % m,
                                    d = (i + 1) % n * m + k;
                mesh.triangles.push_back({a, c, b});
                mesh.triangles.push_back({a, d, c});
            }
        Mesh closed = welded(mesh, 1e-9);
        if (volumeOf(closed) < 0)
            for (auto& t : closed.triangles)
                std::swap(t[1], t[2]);
        return segmented(closed);
    };
    LoadCase c;
    c.holds = {{FaceSelector::byPoint({3, 0, 1}, -Vec3::UnitX()), HoldKind::bolted, 10}};
    const auto rings = [&](const Solid& solid) {
        const Solid cut = refinedFor(c, solid);
        CHECK(findLeak(cut.mesh).openEdges == 0);
        const BoltSeat seat = boltSeatOf(cut, c.holds[0], "hold 1");
        double below = 0, above = 0;
        for (std::uint32_t t = 0; t < cut.mesh.triangles.size(); ++t)
            if (seat.isUnderHead(cut, t)) (normalOf(cut.mesh, t).z() < 0 ? below : above) += areaOfFacets(cut, {t});
        return std::pair(below, above);
    };
    const auto counterbored = rings(turned({{3, 0}, {20, 0}, {20, 10}, {6, 10}, {6, 6}, {3, 6}}));
    CHECK(counterbored.first == Approx(ringArea(3, 5)).epsilon(0.01));
    CHECK(counterbored.second == Approx(ringArea(3, 5)).epsilon(0.01));
    const auto chamfered = rings(turned({{3, 0}, {20, 0}, {20, 10}, {4, 10}, {3, 9}}));
    CHECK(chamfered.second == Approx(ringArea(4, 5)).epsilon(0.01));
    const auto countersunk = rings(turned({{3, 0}, {20, 0}, {20, 10}, {7, 10}, {3, 6}}));
    CHECK(countersunk.first == Approx(ringArea(3, 5)).epsilon(0.01));
    CHECK(countersunk.second == 0);
    // blind from below: the floor of 1 mm above it is no seat
    const auto blind = rings(turned({{3, 0}, {20, 0}, {20, 10}, {0, 10}, {0, 9}, {3, 9}}));
    CHECK(blind.first == Approx(ringArea(3, 5)).epsilon(0.01));
    CHECK(blind.second == 0);
}

TEST_CASE("bolts anywhere in plates turned anyhow: rings right to 1 %, surfaces closed, volume kept") {
    std::mt19937 random(11);
    const auto between = [&](double low, double high) { return low + (high - low) * double(random() % 1000) / 999; };
    for (int trial = 0; trial < 40; ++trial) {
        const double r = between(1.5, 5), head = between(1.3, 3) * r;
        const Vec2 at(between(15, 45), between(15, 25));
        const double thickness = between(2, 20);
        const Mat3 turn =
            Eigen::AngleAxisd(between(0, 3), Vec3(between(-1, 1), between(-1, 1), 1).normalized()).toRotationMatrix();
        const Vec3 shift(between(-50, 50), 7, 3);
        const Solid solid = transformed(
            segmented(extruded({{{0, 0}, {60, 0}, {60, 40}, {0, 40}}, circle(r, 24 + 4 * int(random() % 10), true, at)},
                               thickness)),
            turn, shift);
        LoadCase c;
        c.holds = {
            {FaceSelector::byPoint(turn * Vec3(at.x() + r, at.y(), thickness / 2) + shift, turn * -Vec3::UnitX()),
             HoldKind::bolted, 2 * head}};
        INFO("trial " << trial);
        const Solid cut = refinedFor(c, solid);
        CHECK(findLeak(cut.mesh).openEdges == 0);
        CHECK(volumeOf(cut.mesh) == Approx(volumeOf(solid.mesh)).epsilon(1e-9));
        const BoltSeat seat = boltSeatOf(cut, c.holds[0], "hold 1");
        double area = 0;
        for (std::uint32_t t = 0; t < cut.mesh.triangles.size(); ++t)
            if (seat.isUnderHead(cut, t)) area += areaOfFacets(cut, {t});
        // the bore of the mesh is a polygon inside the circle
        CHECK(area == Approx(2 * ringArea(r, head)).epsilon(0.03));
        const double polygon = volumeOf(transformed(solid.mesh, turn.transpose(), Vec3::Zero())) / thickness;
        CHECK(area == Approx(2 * (std::numbers::pi * head * head - (2400 - polygon))).epsilon(1e-3));
    }
}
