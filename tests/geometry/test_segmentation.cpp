#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <random>

#include "core/geometry/shape.h"
#include "core/geometry/solid.h"

using namespace waybench;

namespace {

Solid built(const std::string& family, const DimensionValues& dimensions = {}) {
    Shape shape;
    shape.family = family;
    shape.dimensions = dimensions;
    return buildSolid(shape, {});
}

/// The found face that covers the same stretch as the wanted one, nullptr if there is none.
const Face* alike(const Solid& found, const Face& wanted) {
    for (const Face& face : found.faces)
        if (face.kind == wanted.kind && std::abs(face.area_mm2 - wanted.area_mm2) < 1e-3 * (1 + wanted.area_mm2) &&
            (face.centroid - wanted.centroid).norm() < 0.02)
            return &face;
    return nullptr;
}

void requireSameFaces(const Solid& found, const Solid& wanted) {
    CHECK(found.faces.size() == wanted.faces.size());
    for (const Face& face : wanted.faces) {
        INFO(face.name);
        const Face* there = alike(found, face);
        REQUIRE(there != nullptr);
        if (face.kind == SurfaceKind::plane) CHECK(there->direction.dot(face.direction) > 1 - 1e-6);
        if (face.kind == SurfaceKind::cylinder) {
            CHECK(std::abs(there->direction.dot(face.direction)) > 1 - 1e-6);
            CHECK(there->radius_mm == Approx(face.radius_mm).epsilon(1e-3));
            CHECK(there->isHollow == face.isHollow);
            CHECK(there->isFullTurn == face.isFullTurn);
            CHECK((there->point - face.point).norm() < 0.01);
        }
    }
}

/// As a file in single precision would give it back.
Mesh inSinglePrecision(const Mesh& mesh) {
    Mesh rounded = mesh;
    for (Vec3& v : rounded.vertices)
        v = v.cast<float>().cast<double>();
    return rounded;
}

Mesh torus(double large, double small, int around, int across) {
    Mesh mesh;
    const auto at = [&](int i, int j) { return static_cast<std::uint32_t>((i % around) * across + j % across); };
    for (int i = 0; i < around; ++i)
        for (int j = 0; j < across; ++j) {
            const double u = 2 * M_PI * i / around, v = 2 * M_PI * j / across, r = large + small * std::cos(v);
            mesh.vertices.emplace_back(r * std::cos(u), r * std::sin(u), small * std::sin(v));
        }
    for (int i = 0; i < around; ++i)
        for (int j = 0; j < across; ++j) {
            mesh.triangles.push_back({at(i, j), at(i + 1, j), at(i + 1, j + 1)});
            mesh.triangles.push_back({at(i, j), at(i + 1, j + 1), at(i, j + 1)});
        }
    return mesh;
}

}  // namespace

TEST_CASE("Stripped of its faces, every family's body is told apart into the same planes and cylinders") {
    for (const Family* family : families()) {
        INFO(family->key());
        const Solid solid = built(family->key());
        requireSameFaces(segmented(solid.mesh), solid);
        requireSameFaces(segmented(inSinglePrecision(solid.mesh)), solid);
    }
    const Solid plate = built("plate", {{"slot_count", 2}, {"corner_radius", 15}, {"slot_length", 30}});
    requireSameFaces(segmented(plate.mesh), plate);
    const Solid arm = built("arm", {{"pocket_depth", 8}});
    requireSameFaces(segmented(arm.mesh), arm);
}

TEST_CASE("A turned body in single precision gives the same faces") {
    std::mt19937 random(6);
    std::normal_distribution<double> normal;
    for (const char* family : {"plate", "bracket", "arm"})
        for (int i = 0; i < 5; ++i) {
            INFO(family);
            const Mat3 turn = Eigen::Quaterniond(normal(random), normal(random), normal(random), normal(random))
                                  .normalized()
                                  .toRotationMatrix();
            const Solid solid = transformed(built(family), turn, {10, -4, 7});
            requireSameFaces(segmented(inSinglePrecision(solid.mesh)), solid);
        }
}

TEST_CASE("Names run by size and survive another order of facets and vertices") {
    const Solid plain = segmented(built("arm").mesh);
    CHECK(plain.faces.front().name == "face 1");
    for (std::size_t i = 1; i < plain.faces.size(); ++i) {
        CHECK(plain.faces[i].area_mm2 <= plain.faces[i - 1].area_mm2 + 1e-3);
        CHECK(plain.faces[i].name == "face " + std::to_string(i + 1));
    }
    std::mt19937 random(2);
    for (int trial = 0; trial < 5; ++trial) {
        Mesh mesh = built("arm").mesh;
        std::shuffle(mesh.triangles.begin(), mesh.triangles.end(), random);
        for (auto& t : mesh.triangles)
            std::rotate(t.begin(), t.begin() + trial % 3, t.end());
        const Solid again = segmented(mesh);
        REQUIRE(again.faces.size() == plain.faces.size());
        for (std::size_t i = 0; i < plain.faces.size(); ++i) {
            CHECK(again.faces[i].kind == plain.faces[i].kind);
            CHECK((again.faces[i].centroid - plain.faces[i].centroid).norm() < 1e-6);
        }
    }
}

TEST_CASE("A ring with a round section is one free-form face") {
    const Mesh ring = torus(30, 8, 64, 32);
    REQUIRE(findLeak(ring).openEdges == 0);
    REQUIRE(volumeOf(ring) > 0);
    const Solid solid = segmented(ring);
    REQUIRE(solid.faces.size() == 1);
    CHECK(solid.faces[0].kind == SurfaceKind::other);
    CHECK(solid.faces[0].area_mm2 == Approx(4 * M_PI * M_PI * 30 * 8).epsilon(0.01));
}

TEST_CASE("Every facet belongs to a face and the areas add up") {
    for (const Family* family : families()) {
        const Solid solid = segmented(built(family->key()).mesh);
        REQUIRE(solid.faceOfTriangle.size() == solid.mesh.triangles.size());
        double area = 0;
        for (const Face& face : solid.faces)
            area += face.area_mm2;
        CHECK(area == Approx(areaOf(solid.mesh)).epsilon(1e-9));
    }
    CHECK(segmented(Mesh{}).faces.empty());
}
