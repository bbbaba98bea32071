#include <catch2/catch.hpp>

#include "core/comparison/part_solid.h"

using namespace waybench;

namespace {

Part barHeldBy(const FaceSelector& hold) {
    Part part;
    part.name = "bar";
    part.shape.family = "bar";
    part.loadCase.holds.push_back({hold});
    Load load;
    load.face = FaceSelector::byName("end +x");
    load.vector = Vec3(0, 0, -20);
    part.loadCase.loads.push_back(load);
    part.loadCase.measuredFace = FaceSelector::byName("end +x");
    part.loadCase.deflectionLimit_mm = 1;
    return part;
}

double areaOf(const Solid& solid, const std::vector<std::uint32_t>& facets) {
    double area = 0;
    for (const std::uint32_t f : facets) {
        const auto& t = solid.mesh.triangles[f];
        const Vec3& a = solid.mesh.vertices[t[0]];
        area += (solid.mesh.vertices[t[1]] - a).cross(solid.mesh.vertices[t[2]] - a).norm() / 2;
    }
    return area;
}

}  // namespace

TEST_CASE("a box that ends on a flat face holds just the stretch inside it, on either route") {
    const Solid plain = solidOf(barHeldBy(FaceSelector::byName("end -x")), RouteKind::printed, {});
    const Box3 bounds = boundsOf(plain.mesh);
    // the first 7 mm of the upper face, which no facet of the bar ends at
    const Vec3 low(bounds.low.x() - 1, bounds.low.y() - 1, bounds.high.z() - 0.01);
    const Vec3 high(bounds.low.x() + 7, bounds.high.y() + 1, bounds.high.z() + 1);
    const Part part = barHeldBy(FaceSelector::byBox(low, high));
    for (const RouteKind route : {RouteKind::printed, RouteKind::machined}) {
        const Solid solid = solidOf(part, route, {});
        CHECK(findLeak(solid.mesh).openEdges == 0);
        const BoundLoadCase bound = bind(part.loadCase, solid);
        const double width = bounds.size().y();
        // the top stretch and 0.01 mm of the sides and end below it
        CHECK(areaOf(solid, bound.holds[0].triangles) == Approx(7 * width + 0.01 * (2 * 7 + width)).epsilon(1e-6));
    }
}

TEST_CASE("cutting for one box leaves the rest of the surface as it was") {
    Part part = barHeldBy(FaceSelector::byName("end -x"));
    const Solid plain = solidOf(part, RouteKind::printed, {});
    const Box3 bounds = boundsOf(plain.mesh);
    part.loadCase.holds = {{FaceSelector::byBox(bounds.low - Vec3(1, 1, 1), bounds.low + Vec3(2, 2, 2))}};
    const Solid cut = solidOf(part, RouteKind::printed, {});
    CHECK(cut.mesh.triangles.size() < plain.mesh.triangles.size() + 60);
    CHECK(volumeOf(cut.mesh) == Approx(volumeOf(plain.mesh)).epsilon(1e-12));
}
