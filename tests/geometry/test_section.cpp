#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <random>

#include "core/geometry/outline.h"
#include "core/geometry/section.h"
#include "core/geometry/shape.h"

using namespace waybench;

namespace {

Solid built(const std::string& family, const DimensionValues& dimensions = {}) {
    Shape shape;
    shape.family = family;
    shape.dimensions = dimensions;
    return buildSolid(shape, {});
}

/// Sphere by rings of latitude, poles closed by fans.
Mesh sphere(double radius, int rings, int sectors) {
    Mesh mesh;
    mesh.vertices.emplace_back(0, 0, -radius);
    for (int i = 1; i < rings; ++i)
        for (int j = 0; j < sectors; ++j) {
            const double polar = M_PI * i / rings, around = 2 * M_PI * j / sectors;
            mesh.vertices.emplace_back(radius * std::sin(polar) * std::cos(around),
                                       radius * std::sin(polar) * std::sin(around), -radius * std::cos(polar));
        }
    mesh.vertices.emplace_back(0, 0, radius);
    const auto at = [&](int i, int j) { return static_cast<std::uint32_t>(1 + (i - 1) * sectors + j % sectors); };
    const auto top = static_cast<std::uint32_t>(mesh.vertices.size() - 1);
    for (int j = 0; j < sectors; ++j) {
        mesh.triangles.push_back({0, at(1, j + 1), at(1, j)});
        mesh.triangles.push_back({top, at(rings - 1, j), at(rings - 1, j + 1)});
        for (int i = 1; i + 1 < rings; ++i) {
            mesh.triangles.push_back({at(i, j), at(i, j + 1), at(i + 1, j + 1)});
            mesh.triangles.push_back({at(i, j), at(i + 1, j + 1), at(i + 1, j)});
        }
    }
    return mesh;
}

Mesh joined(const Mesh& a, const Mesh& b) {
    Mesh both = a;
    const auto shift = static_cast<std::uint32_t>(a.vertices.size());
    both.vertices.insert(both.vertices.end(), b.vertices.begin(), b.vertices.end());
    for (const auto& t : b.triangles)
        both.triangles.push_back({t[0] + shift, t[1] + shift, t[2] + shift});
    return both;
}

double volumeFromSections(const Mesh& mesh, int count) {
    const Box3 box = boundsOf(mesh);
    const double step = box.size().z() / count;
    std::vector<double> heights;
    for (int i = 0; i < count; ++i)
        heights.push_back(box.low.z() + (i + 0.5) * step);
    double volume = 0;
    for (const Region& section : sectionsAt(mesh, heights))
        volume += areaOf(section) * step;
    return volume;
}

Mat3 randomRotation(std::mt19937& random) {
    std::normal_distribution<double> normal;
    return Eigen::Quaterniond(normal(random), normal(random), normal(random), normal(random))
        .normalized()
        .toRotationMatrix();
}

Region sectionAt(const Mesh& mesh, double height) {
    return sectionsAt(mesh, std::vector<double>{height}).front();
}

}  // namespace

TEST_CASE("Areas of sections add up to the volume of every family, however it stands") {
    std::mt19937 random(2);
    for (const Family* family : families()) {
        INFO(family->key());
        const Mesh mesh = built(family->key()).mesh;
        for (int d = 0; d < 6; ++d) {
            const Mesh turned = transformed(mesh, rotationToUp(static_cast<Direction>(d)), Vec3::Zero());
            CHECK(volumeFromSections(turned, 400) == Approx(volumeOf(mesh)).epsilon(0.005));
        }
        for (int i = 0; i < 3; ++i)
            CHECK(volumeFromSections(transformed(mesh, randomRotation(random), {1, 2, 3}), 250) ==
                  Approx(volumeOf(mesh)).epsilon(0.005));
    }
}

TEST_CASE("A height in a facet is read just above it") {
    const Mesh box =
        built("box", {{"length", 40}, {"width", 30}, {"height", 20}, {"thickness", 3}, {"floor_thickness", 4}}).mesh;
    const double solid = 40 * 30, walls = 40 * 30 - 34 * 24;
    CHECK(areaOf(sectionAt(box, 0)) == Approx(solid));
    CHECK(areaOf(sectionAt(box, 3.9)) == Approx(solid));
    CHECK(areaOf(sectionAt(box, 4)) == Approx(walls));
    CHECK(areaOf(sectionAt(box, 19.99)) == Approx(walls));
    CHECK(sectionAt(box, 20).empty());
    CHECK(sectionAt(box, -1).empty());
    const Mesh block = built("block", {{"bore_diameter", 0}}).mesh;
    CHECK(areaOf(sectionAt(block, 12)) == Approx(35 * 40));
    CHECK(areaOf(sectionAt(block, 11.9999)) == Approx(60 * 40));
}

TEST_CASE("Sections have their material on the left and the holes wind the other way") {
    const Mesh plate = built("plate").mesh;
    const Region section = sectionAt(plate, 4);
    REQUIRE(section.size() == 6);
    int holes = 0;
    for (const Ring& ring : section)
        holes += signedArea(ring) < 0 ? 1 : 0;
    CHECK(holes == 5);
    CHECK_FALSE(contains(section, {60, 40}));
    CHECK(contains(section, {30, 40}));
}

TEST_CASE("Sections of a ball are circles of the right size") {
    const Mesh ball = sphere(10, 120, 160);
    REQUIRE(findLeak(ball).openEdges == 0);
    std::vector<double> heights;
    for (double z = -9.5; z < 9.6; z += 0.25)
        heights.push_back(z);
    const auto sections = sectionsAt(ball, heights);
    for (std::size_t i = 0; i < heights.size(); ++i) {
        REQUIRE(sections[i].size() == 1);
        CHECK(areaOf(sections[i]) == Approx(M_PI * (100 - heights[i] * heights[i])).epsilon(0.003));
    }
}

TEST_CASE("Heights through many corners of a turned body leave closed rings") {
    // A sphere cut exactly at its rings of latitude, where every corner lies in the plane.
    const int rings = 60;
    const Mesh ball = sphere(10, rings, 64);
    std::vector<double> heights;
    for (int i = 1; i < rings; ++i)
        heights.push_back(-10 * std::cos(M_PI * i / rings));
    const auto sections = sectionsAt(ball, heights);
    for (std::size_t i = 0; i + 1 < heights.size(); ++i) {
        const double r2 = 100 - heights[i] * heights[i];
        REQUIRE(sections[i].size() == 1);
        CHECK(areaOf(sections[i]) == Approx(32 * r2 * std::sin(2 * M_PI / 64)).epsilon(1e-4).margin(0.01));
    }
}

TEST_CASE("Nested and overlapping shells section as one body") {
    const Mesh ball = sphere(10, 40, 64), small = sphere(5, 40, 64);
    CHECK(areaOf(sectionAt(joined(ball, small), 0.1)) == Approx(areaOf(sectionAt(ball, 0.1))));
    const Mesh beside = transformed(ball, Mat3::Identity(), {8, 0, 0});
    const Region one = sectionAt(ball, 0.1), other = sectionAt(beside, 0.1);
    CHECK(areaOf(sectionAt(joined(ball, beside), 0.1)) == Approx(areaOf(unionOf(one, other))));
    Mesh cavity = small;
    for (auto& t : cavity.triangles)
        std::swap(t[0], t[1]);
    CHECK(areaOf(sectionAt(joined(ball, cavity), 0.1)) ==
          Approx(areaOf(sectionAt(ball, 0.1)) - areaOf(sectionAt(small, 0.1))));
}

TEST_CASE("The order of facets does not change what sections measure") {
    Mesh mesh = transformed(built("bracket").mesh, rotationToUp(Direction::plus_x), Vec3::Zero());
    const double area = areaOf(sectionAt(mesh, 7));
    std::mt19937 random(1);
    std::shuffle(mesh.triangles.begin(), mesh.triangles.end(), random);
    CHECK(areaOf(sectionAt(mesh, 7)) == Approx(area).epsilon(1e-9));
}

TEST_CASE("A hairline gap in a chain is closed, an open surface gives nothing false") {
    Mesh torn = built("bar").mesh;
    // Every facet with corners of its own, a side's corners moved by less than the closable gap.
    Mesh loose;
    for (const auto& t : torn.triangles) {
        const auto first = static_cast<std::uint32_t>(loose.vertices.size());
        for (const std::uint32_t v : t)
            loose.vertices.push_back(torn.vertices[v] +
                                     Vec3(1e-6 * static_cast<double>(loose.vertices.size() % 7), 0, 0));
        loose.triangles.push_back({first, first + 1, first + 2});
    }
    CHECK(areaOf(sectionAt(loose, 4)) == Approx(120 * 20).epsilon(1e-4));
    torn.triangles.resize(torn.triangles.size() / 2);
    CHECK(areaOf(sectionAt(torn, 4)) >= 0);
}

TEST_CASE("The shadow of a body is the union of all its sections") {
    std::mt19937 random(12);
    for (const Family* family : families()) {
        INFO(family->key());
        const Mesh mesh = built(family->key()).mesh;
        const Region flat = shadowOf(mesh);
        const Box3 box = boundsOf(mesh);
        std::vector<double> heights;
        for (int i = 0; i < 60; ++i)
            heights.push_back(box.low.z() + box.size().z() * i / 60);
        CHECK(areaOf(flat) == Approx(areaOf(unionOf(sectionsAt(mesh, heights)))).epsilon(1e-4));
        const Mesh turned = transformed(mesh, randomRotation(random), Vec3::Zero());
        const Region shadow = shadowOf(turned);
        for (const Vec3& v : turned.vertices)
            CHECK(areaOf(differenceOf({{v.head<2>() + Vec2(-1e-3, -1e-3), v.head<2>() + Vec2(1e-3, -1e-3),
                                        v.head<2>() + Vec2(0, 1e-3)}},
                                      offsetBy(shadow, 0.01))) < 1e-6);
        Region inside;
        const Box3 tall = boundsOf(turned);
        heights.clear();
        for (int i = 0; i < 100; ++i)
            heights.push_back(tall.low.z() + tall.size().z() * (i + 0.5) / 100);
        inside = unionOf(sectionsAt(turned, heights));
        CHECK(areaOf(differenceOf(inside, offsetBy(shadow, 0.002))) < 1e-3);
        CHECK(areaOf(inside) == Approx(areaOf(shadow)).epsilon(0.05));
    }
    CHECK(areaOf(shadowOf(sphere(10, 80, 128))) == Approx(M_PI * 100).epsilon(0.002));
    CHECK(shadowOf(Mesh{}).empty());
}

TEST_CASE("Cost of sections and shadow of a hundred thousand facets", "[.][cost]") {
    const Mesh ball = transformed(sphere(50, 224, 224),
                                  Eigen::AngleAxisd(0.3, Vec3(1, 2, 3).normalized()).toRotationMatrix(), Vec3::Zero());
    std::vector<double> heights;
    for (int i = 0; i < 500; ++i)
        heights.push_back(-50 + 0.2 * (i + 0.5));
    CHECK(sectionsAt(ball, heights).size() == 500);
    CHECK_FALSE(shadowOf(ball).empty());
}
