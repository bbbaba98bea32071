#include <catch2/catch.hpp>
#include <cmath>

#include "core/fault/input_fault.h"
#include "core/geometry/shape.h"
#include "core/geometry/solid.h"

using namespace waybench;

namespace {

Solid bracket() {
    Shape shape;
    shape.family = "bracket";
    return buildSolid(shape, {});
}

double areaTaken(const Solid& solid, const std::vector<std::uint32_t>& facets) {
    double area = 0;
    for (const std::uint32_t f : facets) {
        const auto& t = solid.mesh.triangles.at(f);
        const Vec3& a = solid.mesh.vertices[t[0]];
        area += (solid.mesh.vertices[t[1]] - a).cross(solid.mesh.vertices[t[2]] - a).norm() / 2;
    }
    return area;
}

double areaOfFace(const Solid& solid, const std::string& name) {
    for (const Face& face : solid.faces)
        if (face.name == name) return face.area_mm2;
    return -1;
}

}  // namespace

TEST_CASE("A face is taken whole by its name and by a point on it") {
    const Solid solid = bracket();
    const double wanted = areaOfFace(solid, "upright back");
    CHECK(areaTaken(solid, select(solid, FaceSelector::byName("upright back"))) == Approx(wanted));
    CHECK(areaTaken(solid, select(solid, FaceSelector::byPoint({0, 3, 30}, {-1, 0, 0}))) == Approx(wanted));
    // On the edge of two faces the normal decides.
    CHECK(areaTaken(solid, select(solid, FaceSelector::byPoint({0, 20, 0}, {-1, 0, 0}))) == Approx(wanted));
    CHECK(areaTaken(solid, select(solid, FaceSelector::byPoint({0, 20, 0}, {0, 0, -1}))) ==
          Approx(areaOfFace(solid, "base bottom")));
}

TEST_CASE("A point on the wall of a bore takes the bore") {
    const Solid solid = bracket();
    const auto taken = select(solid, FaceSelector::byPoint({45 + 3.3, 10, 3}, {-1, 0, 0}));
    CHECK(areaTaken(solid, taken) == Approx(areaOfFace(solid, "base bore 1")));
}

TEST_CASE("A box takes the facets inside it, and exactly its stretch after refinement") {
    const Solid solid = bracket();
    const FaceSelector upright = FaceSelector::byBox({-1, -1, 20}, {0.001, 41, 61});
    const Solid refined = refinedForBox(solid, upright.box);
    CHECK(findLeak(refined.mesh).openEdges == 0);
    CHECK(volumeOf(refined.mesh) == Approx(volumeOf(solid.mesh)).epsilon(1e-9));
    const double bores = 40.0 * 60.0 - areaOfFace(solid, "upright back");
    CHECK(areaTaken(refined, select(refined, upright)) == Approx(40 * 40 - bores + (40 + 2 * 40) * 0.001).margin(0.05));
    CHECK(areaTaken(refined, select(refined, FaceSelector::byName("base top"))) ==
          Approx(areaOfFace(solid, "base top")).epsilon(1e-9));
}

TEST_CASE("A selector that takes nothing says which faces there are") {
    const Solid solid = bracket();
    const FaceSelector wrong[] = {FaceSelector::byName("bore 9"),
                                  FaceSelector::byBox({500, 0, 0}, {501, 1, 1}),
                                  FaceSelector::byPoint({0, 20, 30}, {1, 0, 0}),
                                  FaceSelector::byPoint({-5, 20, 30}, {-1, 0, 0}),
                                  FaceSelector::byPoint({0, 20, 30}, {0, 0, 0}),
                                  FaceSelector::byPoint({std::nan(""), 20, 30}, {-1, 0, 0})};
    for (const FaceSelector& selector : wrong) {
        try {
            select(solid, selector);
            FAIL("took something: " << selector.text());
        } catch (const InputFault& fault) {
            CHECK(fault.code() == "face_not_found");
            CHECK(std::string(fault.what()).find(selector.text()) != std::string::npos);
            CHECK(std::string(fault.what()).find("'base bottom'") != std::string::npos);
        }
    }
}

TEST_CASE("Selectors read as people write them") {
    CHECK(FaceSelector::byName("bore 1").text() == "face 'bore 1'");
    CHECK(FaceSelector::byBox({1, 60, 10}, {0, 0, 0}).text() == "box (0 0 0) to (1 60 10)");
    CHECK(FaceSelector::byPoint({0.5, -2, 3}, {0, 0, 1}).text() == "point (0.5 -2 3) facing (0 0 1)");
    CHECK(FaceSelector::byBox({0, 0, 0}, {1, 1, 1}) == FaceSelector::byBox({1, 1, 1}, {0, 0, 0}));
    CHECK_FALSE(FaceSelector::byName("a") == FaceSelector::byName("b"));
}

TEST_CASE("A turned solid carries its faces along") {
    const Solid solid = bracket();
    const Mat3 up = rotationToUp(Direction::minus_x);
    const Solid turned = transformed(solid, up, {0, 0, 5});
    for (std::size_t f = 0; f < solid.faces.size(); ++f) {
        CHECK((turned.faces[f].direction - up * solid.faces[f].direction).norm() < 1e-12);
        CHECK(turned.faces[f].area_mm2 == Approx(solid.faces[f].area_mm2));
        CHECK((turned.faces[f].centroid - (up * solid.faces[f].centroid + Vec3(0, 0, 5))).norm() < 1e-9);
    }
    CHECK_THROWS_AS(transformed(solid, -Mat3::Identity(), Vec3::Zero()), std::logic_error);
}
