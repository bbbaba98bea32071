#include <catch2/catch.hpp>

#include "core/geometry/shape.h"
#include "sample_parts.h"

using namespace waybench;
using namespace waybench::machined;

namespace {

Solid familySolid(const std::string& key, const DimensionValues& overrides = {}) {
    Shape shape;
    shape.family = key;
    return buildSolid(withDimensions(shape, overrides), ".");
}

}  // namespace

TEST_CASE("A plate with through holes needs one set-up", "[machined][access]") {
    const Solid plate = plateWith(80, 50, 8, {circular("a", {20, 25}, 2.5), circular("b", {60, 25}, 3)});
    const Planned p = planned(plate);
    CHECK(p.access.directions == std::vector<Direction>{Direction::plus_z});
    CHECK(p.access.hidden.empty());
    CHECK(p.work.drilledHoles + p.work.helicalHoles == 2);
    CHECK(p.work.leftovers.empty());
}

TEST_CASE("A pocket on either side needs two set-ups", "[machined][access]") {
    const Solid plate = plateWith(80, 50, 12, {},
                                  {{roundedRectangle({10, 10}, {30, 40}, 4, {"w1", "w2", "w3", "w4"}, "c"), 4, false},
                                   {roundedRectangle({50, 10}, {70, 40}, 4, {"v1", "v2", "v3", "v4"}, "d"), 4, true}});
    const Planned p = planned(plate);
    REQUIRE(p.access.directions.size() == 2);
    CHECK(p.access.directions[0] == Direction::plus_z);
    CHECK(p.access.directions[1] == Direction::minus_z);
    // each set-up removes its own pocket: 20 x 30 less the rounded corners, 4 deep
    const double pocket = 4 * (600 - (4 - M_PI) * 16);
    CHECK(p.setUps[0].removed_mm3 == Approx(pocket).epsilon(0.01));
    CHECK(p.setUps[1].removed_mm3 == Approx(pocket).epsilon(0.01));
}

TEST_CASE("A closed channel inside is refused with its volume", "[machined][access]") {
    const Solid guide = familySolid("guide");
    const AccessPlan plan = planAccess(accessGridOf(guide, Fidelity::standard, Task{}), guide);
    REQUIRE(plan.hidden.size() == 1);
    // duct 68 x 18 x 12 less the bore of 6 mm that the mouths let through
    const double expected = 68 * (18 * 12 - M_PI * 9);
    CHECK(plan.hidden_mm3 == Approx(expected).epsilon(0.03));
    CHECK(plan.hidden.front().centre.isApprox(Vec3(40, 22, 11), 0.02));
    Shape shape;
    shape.family = "guide";
    RouteTask task = taskFor(guide);
    task.loadCase.holds = {{FaceSelector::byName("end -x")}};
    task.loadCase.loads[0].face = task.loadCase.measuredFace = FaceSelector::byName("end +x");
    Plan pom;
    pom.material = "pom";
    const RouteOutcome outcome = machine(task, pom);
    CHECK_FALSE(outcome.feasible);
    REQUIRE(warningOf(outcome, "undercut"));
    CHECK(warningOf(outcome, "undercut")->severity == Severity::blocking);
    for (const QuestionText& q : questions())
        CHECK(outcome.figures.count(q.question) == 1);
}

TEST_CASE("Volume removed from above is the box less the part for a stepped body", "[machined][access]") {
    const Solid block = familySolid("block");
    const Planned p = planned(block);
    double removed = 0;
    for (const SetUp& s : p.setUps)
        removed += s.removed_mm3;
    // all empty space inside the outer outline; tolerance: slivers under 0.02 mm are dropped
    const Box3 box = boundsOf(block.mesh);
    CHECK(p.access.hidden.empty());
    CHECK(removed == Approx(box.size().prod() - volumeOf(block.mesh)).epsilon(0.01));
}

TEST_CASE("What is too deep from one side is given to a side the cutters reach it from", "[machined][access]") {
    // 45 mm high bracket with a gusset in the middle; the longest end mill on the rack reaches 37 mm
    const Solid bracket = familySolid("bracket", {{"base_length", 50}, {"upright_height", 45}});
    const ToolReach reach = reachOf(workshopFor(shippedShop(), {}));
    const auto setUpsWith = [&](const ToolReach& r) {
        return planAccess(accessGridOf(bracket, Fidelity::draft, Task{}, r), bracket).directions.size();
    };
    CHECK(setUpsWith({}) == 2);
    CHECK(setUpsWith(reach) > 2);
    const Planned p = planned(bracket);
    for (const Operation& o : p.work.operations)
        if (o.kind != OperationKind::drilling) CHECK(o.reach_mm <= o.tool->stickOut_mm);
}
