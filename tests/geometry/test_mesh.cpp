#include <algorithm>
#include <catch2/catch.hpp>
#include <random>

#include "core/fault/input_fault.h"
#include "core/geometry/mesh.h"
#include "core/geometry/shape.h"

using namespace waybench;

namespace {

Mesh bracketMesh() {
    Shape shape;
    shape.family = "bracket";
    return buildSolid(shape, {}).mesh;
}

Mat3 randomRotation(std::mt19937& random) {
    std::normal_distribution<double> normal;
    return Eigen::Quaterniond(normal(random), normal(random), normal(random), normal(random))
        .normalized()
        .toRotationMatrix();
}

}  // namespace

TEST_CASE("Volume and area of a mesh do not change when it is turned and moved; its centroid follows") {
    const Mesh mesh = bracketMesh();
    std::mt19937 random(3);
    for (int i = 0; i < 50; ++i) {
        const Mat3 turn = randomRotation(random);
        const Vec3 shift(100.0 * i, -20, 3);
        const Mesh moved = transformed(mesh, turn, shift);
        CHECK(volumeOf(moved) == Approx(volumeOf(mesh)).epsilon(1e-10));
        CHECK(areaOf(moved) == Approx(areaOf(mesh)).epsilon(1e-10));
        CHECK((centroidOf(moved) - (turn * centroidOf(mesh) + shift)).norm() < 1e-8);
        CHECK((normalOf(moved, 5) - turn * normalOf(mesh, 5)).norm() < 1e-10);
        CHECK(findLeak(moved).openEdges == 0);
    }
}

TEST_CASE("Each direction is turned to up by a proper rotation") {
    for (int i = 0; i < 6; ++i) {
        const auto d = static_cast<Direction>(i);
        const Mat3 r = rotationToUp(d);
        CHECK(r * unitVector(d) == Vec3(0, 0, 1));
        CHECK(r.determinant() == Approx(1));
        CHECK((r * r.transpose()).isIdentity(1e-15));
        CHECK(directionFromName(nameOf(d)) == d);
    }
    CHECK(rotationToUp(Direction::plus_z).isIdentity(0));
    CHECK_THROWS_AS(directionFromName("up"), InputFault);
}

TEST_CASE("A missing or flipped facet is found with its place") {
    Mesh mesh = bracketMesh();
    Mesh open = mesh;
    open.triangles.pop_back();
    CHECK(findLeak(open).openEdges == 3);
    CHECK(boundsOf(mesh).contains(findLeak(open).place, 1e-9));
    Mesh flipped = mesh;
    std::swap(flipped.triangles[7][0], flipped.triangles[7][1]);
    CHECK(findLeak(flipped).openEdges == 3);
}

TEST_CASE("A mesh inside out has negative volume") {
    Mesh mesh = bracketMesh();
    const double volume = volumeOf(mesh);
    for (auto& t : mesh.triangles)
        std::swap(t[0], t[1]);
    CHECK(volumeOf(mesh) == Approx(-volume));
}

TEST_CASE("Welding loose facets within a tolerance closes them") {
    const Mesh mesh = bracketMesh();
    std::mt19937 random(8);
    std::uniform_real_distribution<double> noise(-1e-6, 1e-6);
    Mesh loose;
    for (const auto& t : mesh.triangles) {
        const auto first = static_cast<std::uint32_t>(loose.vertices.size());
        for (const std::uint32_t v : t)
            loose.vertices.push_back(mesh.vertices[v] + Vec3(noise(random), noise(random), noise(random)));
        loose.triangles.push_back({first, first + 1, first + 2});
    }
    CHECK(findLeak(loose).openEdges == 3 * mesh.triangles.size());
    const Mesh closed = welded(loose, 1e-5);
    CHECK(closed.vertices.size() == mesh.vertices.size());
    CHECK(findLeak(closed).openEdges == 0);
    CHECK(volumeOf(closed) == Approx(volumeOf(mesh)).epsilon(1e-6));
    CHECK(welded(mesh, 0).vertices.size() == mesh.vertices.size());
    // Facets smaller than the tolerance collapse and go.
    CHECK(welded(mesh, 1000).triangles.empty());
}

TEST_CASE("An empty mesh measures nothing") {
    const Mesh none;
    CHECK(volumeOf(none) == 0);
    CHECK(areaOf(none) == 0);
    CHECK(centroidOf(none) == Vec3::Zero());
    CHECK(findLeak(none).openEdges == 0);
}
