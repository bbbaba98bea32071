#include "core/comparison/selection_check.h"

#include <catch2/catch.hpp>

#include "core/comparison/part_solid.h"
#include "tests/comparison/fake_outcome.h"

using namespace waybench;
using namespace waybench::testing;

namespace {

/// Points of a sweep over a block's height, its end held by a box of the given height.
Sweep sweepHeldBy(double boxTop) {
    Part part = fakePart();
    part.shape = {};
    part.shape.family = "bar";
    part.loadCase.holds = {{FaceSelector::byBox({-1000, -1000, -1000}, {0.5, 1000, boxTop})}};
    part.loadCase.loads.clear();
    Load load;
    load.face = FaceSelector::byName("end +x");
    load.vector = {0, 0, -1};
    part.loadCase.loads = {load};
    part.loadCase.measuredFace = load.face;
    part.loadCase.measuredDirection = -Vec3::UnitZ();
    part.loadCase.deflectionLimit_mm = 1;
    Sweep sweep;
    sweep.variable.name = sweep.variable.label = "thickness";
    sweep.variable.unit = Unit::millimetre;
    sweep.variable.current = 4;
    for (const double height : {4.0, 6.0, 8.0}) {
        SweepPoint point;
        point.at = height;
        point.comparison.part = part;
        point.comparison.part.shape.dimensions["thickness"] = height;
        for (RouteOutcome* outcome : {&point.comparison.printed, &point.comparison.machined}) {
            *outcome = fakeOutcome(outcome == &point.comparison.printed ? RouteKind::printed : RouteKind::machined);
            outcome->solid = std::make_shared<const Solid>(solidOf(point.comparison.part, RouteKind::printed, {}));
        }
        sweep.points.push_back(std::move(point));
    }
    return sweep;
}

}  // namespace

TEST_CASE("a box that is left behind by the growing part is told, one that reaches past it is not") {
    const Box3 at4 = boundsOf(sweepHeldBy(1000).points[0].comparison.printed.solid->mesh);
    CHECK(changedSelections(sweepHeldBy(1000)).empty());
    const std::vector<std::string> lines = changedSelections(sweepHeldBy(at4.high.z() + 0.5));
    REQUIRE(lines.size() == 1);
    CHECK(lines[0].find("hold 1") != std::string::npos);
    CHECK(lines[0].find("6 mm to 8 mm") != std::string::npos);
    CHECK(lines[0].find("than at 4 mm") != std::string::npos);
}

TEST_CASE("a sweep without solids or without valid points has nothing to tell") {
    Sweep sweep = sweepHeldBy(4.5);
    for (SweepPoint& point : sweep.points)
        point.comparison.printed.solid = point.comparison.machined.solid = nullptr;
    CHECK(changedSelections(sweep).empty());
    for (SweepPoint& point : sweep.points)
        point.valid = false;
    CHECK(changedSelections(sweep).empty());
}
