// Will it hold still: set-ups of planned parts against what holds them.
#include <catch2/catch.hpp>

#include "core/fault/input_fault.h"
#include "core/machined/outline_cut.h"
#include "sample_parts.h"

using namespace waybench;
using namespace waybench::machined;

namespace {

/// A light plate with a hole near one end.
RouteTask drilledPlate() {
    return taskFor(plateWith(150, 50, 3, {circular("a", {140, 40}, 3)}));
}

Operation drilling(double torque_Nmm, const Vec2& at) {
    Operation o;
    o.kind = OperationKind::drilling;
    static const Tool tool = [] {
        Tool t;
        t.title = "drill 8 mm";
        t.kind = ToolKind::drill;
        t.diameter_mm = 8;
        return t;
    }();
    o.tool = &tool;
    o.cutting.torque_Nmm = torque_Nmm;
    o.passes = {{{{at}, false}}};
    o.heights_mm = {0};
    return o;
}

HeldWork plateHeldBy(const std::string& key, int clamps) {
    HeldWork held;
    held.method = &shippedShop().workholding(key);
    held.clamps = clamps;
    held.low = {0, 0};
    held.high = {150, 60};
    held.underside = {{{0, 0}, {150, 0}, {150, 60}, {0, 60}}};
    held.height_mm = 3;
    return held;
}

}  // namespace

TEST_CASE("clamps stand evenly around the border, two of them opposite", "[machined][holding]") {
    const std::vector<Vec2> two = clampPlaces(plateHeldBy("hand-clamps", 2), 2);
    REQUIRE(two.size() == 2);
    CHECK(two[0].isApprox(Vec2(145, 30)));
    CHECK(two[1].isApprox(Vec2(5, 30)));
    for (const Vec2& p : clampPlaces(plateHeldBy("hand-clamps", 5), 5)) {
        CHECK(std::max(std::abs(p.x() - 75) / 70, std::abs(p.y() - 30) / 25) == Approx(1));
    }
}

TEST_CASE("a light plate drilled with two clamps may turn, by how much is said, and four hold it",
          "[machined][holding]") {
    // Two clamps of 200 N (100 to 400), friction 0.2 (0.1 to 0.35), 140 mm apart: 0.2 * 200 * 140 = 5600 N mm against
    // 1200 drilled; at the worst 0.1 * 100 * 140 = 1400 against 1.4 * 1200. Statics by hand.
    const HoldingCheck two = checkHolding(plateHeldBy("hand-clamps", 2), 0, {drilling(1200, {140, 40})}, true, Task{});
    CHECK_FALSE(two.holds());
    CHECK(two.way == WayLoose::turns);
    CHECK(two.safety.value == Approx(5600.0 / 1200).epsilon(1e-3));
    CHECK(two.safety.low == Approx(1400.0 / 1680).epsilon(1e-3));
    CHECK(two.carried == Approx(5600).epsilon(1e-3));
    CHECK(two.forceNeeded_N == Approx(200 * 1680 / 1400.0).epsilon(1e-3));
    CHECK(two.clampsNeeded >= 3);
    CHECK(two.clampsNeeded <= 4);
    const HoldingCheck four = checkHolding(plateHeldBy("hand-clamps", 4), 0, {drilling(1200, {140, 40})}, true, Task{});
    CHECK(four.holds());
    CHECK(four.safety.low > two.safety.low);
    // More than twice the torque: the two turn by their nominal figures too.
    const HoldingCheck more = checkHolding(plateHeldBy("hand-clamps", 2), 0, {drilling(6000, {140, 40})}, true, Task{});
    CHECK(more.safety.value < 1);
}

TEST_CASE("a drill that breaks through pulls the work up", "[machined][holding]") {
    Operation o = drilling(10, {75, 30});
    o.cutting.force_N = Figure::relative(300, 0.3, 0.3, Unit::newton);
    HeldWork held = plateHeldBy("hand-clamps", 2);
    CHECK(cutLoadOf(o, held, {75, 30}, true, 0).lift_N == Approx(150));
    CHECK(cutLoadOf(o, held, {75, 30}, true, 1).lift_N == Approx(300));
    CHECK(cutLoadOf(o, held, {75, 30}, false, 1).lift_N == 0);
    // 400 N pressed in the middle between them: 400 / 150 lifted straight up.
    CHECK(checkHolding(held, 0, {o}, false, Task{}).safety.value == Approx(400.0 / 150).epsilon(0.01));
}

TEST_CASE("a vice holds no farther out than its jaws, and no wider than it opens", "[machined][holding]") {
    HeldWork held = plateHeldBy("small-vice", 0);
    held.high = {300, 20};
    for (const HoldPoint& p : holdPointsOf(held, 0, 0))
        CHECK(std::abs(p.at.x() - 150) <= 0.5 * held.method->jaw_mm + 1e-9);
    CHECK(goesIn(held));
    held.high = {300, 100};
    CHECK_FALSE(goesIn(held));
}

TEST_CASE("the whole route tells a plate that walks in its clamps, and is content with better ones",
          "[machined][holding]") {
    Plan plan;
    plan.holding = "hand-clamps";
    plan.clamps = 1;
    const RouteOutcome weak = machine(drilledPlate(), plan);
    const RouteWarning* moves = warningOf(weak, "work_moves");
    REQUIRE(moves);
    CHECK(moves->severity == Severity::blocking);
    CHECK(moves->text.find("2.5 times is asked") != std::string::npos);
    const RouteOutcome firm = machine(drilledPlate());
    CHECK(warningOf(firm, "work_moves") == nullptr);
    CHECK(warningOf(firm, "holding_weak") == nullptr);
    CHECK(warningOf(firm, "no_room_for_clamps") == nullptr);
}

TEST_CASE("without tabs the part comes loose from clamps on its blank, not from tape under it", "[machined][holding]") {
    Plan plan;
    plan.tabs = false;
    const RouteOutcome loose = machine(drilledPlate(), plan);
    const RouteWarning* comesLoose = warningOf(loose, "part_comes_loose");
    REQUIRE(comesLoose);
    CHECK(comesLoose->severity == Severity::blocking);
    CHECK_FALSE(loose.feasible);
    plan.holding = "double-sided-tape";
    CHECK(warningOf(machine(drilledPlate(), plan), "part_comes_loose") == nullptr);
}

TEST_CASE("proposed tabs carry the peak force two and a half times, where there is a rim to hang on",
          "[machined][holding]") {
    const Planned p = planned(plateWith(150, 50, 3, {}));
    const StockMaterial& aluminium = shippedShop().stockMaterial("al-6082");
    const TabCheck tabs = checkTabs(p.work, aluminium, 18, 3, 0.15);
    CHECK(tabs.tabs >= 3);
    CHECK(tabs.force_N > 0);
    CHECK(tabs.safety() >= kHoldingAsked);
    CHECK(tabs.height_mm <= 1.5);
    CHECK(checkTabs(p.work, aluminium, 5, 3, 0.15).carries_N == 0);
    CHECK(checkTabs(p.work, aluminium, 18, 1, 0.15).height_mm <= 0.5);
    // Panels part between their layers: rolling shear of 1.7 MPa, not their bending strength.
    const TabCheck plywood = checkTabs(p.work, shippedShop().stockMaterial("plywood"), 18, 6, 0.15);
    CHECK(plywood.carries_N == Approx(plywood.tabs * plywood.width_mm * plywood.height_mm * 1.7));
    CHECK_FALSE(checkTabs(p.work, shippedShop().stockMaterial("mdf"), 18, 6, 0.15).isStrengthKnown);
}

TEST_CASE("a margin too small for clamps or tabs is told", "[machined][holding]") {
    Plan plan;
    plan.stockMargin_mm = 2;
    const RouteOutcome o = machine(taskFor(plateWith(100, 50, 5, {})), plan);
    CHECK(warningOf(o, "no_room_for_clamps"));
    REQUIRE(warningOf(o, "tabs_on_nothing"));
    CHECK(warningOf(o, "tabs_on_nothing")->severity == Severity::blocking);
    plan.holding = "small-vice";
    CHECK(warningOf(machine(taskFor(plateWith(100, 50, 5, {})), plan), "cutter_meets_jaws"));
    plan.stockMargin_mm = 18;
    CHECK(warningOf(machine(taskFor(plateWith(100, 50, 5, {})), plan), "vice_too_small"));
    // A faced plate with the margin a plan begins with leaves the clamps alone.
    CHECK(warningOf(machine(taskFor(plateWith(100, 50, 7, {}))), "no_room_for_clamps") == nullptr);
}

TEST_CASE("tabs stand on straight runs, off corners", "[machined][holding]") {
    const Region outline{{{0, 0}, {100, 0}, {100, 40}, {0, 40}}};
    const std::vector<Tab> tabs = tabPlaces(outline, 4, 4);
    REQUIRE(tabs.size() == 4);
    for (const Tab& tab : tabs) {
        CHECK(std::abs(tab.outward.norm() - 1) < 1e-9);
        for (const Vec2& corner : outline.front())
            CHECK((tab.at - corner).norm() >= 4 - 1e-9);
        // Outward: a step that way leaves the part.
        CHECK_FALSE(contains(outline, tab.at + 0.1 * tab.outward));
        CHECK(contains(outline, tab.at - 0.1 * tab.outward));
    }
}

TEST_CASE("a plan that names no way of holding there is, or clamps for a turned part, is refused",
          "[machined][holding]") {
    const auto codeOf = [](const Plan& plan) {
        try {
            machine(drilledPlate(), plan);
        } catch (const InputFault& fault) {
            return fault.code();
        }
        return std::string("accepted");
    };
    Plan plan;
    plan.holdingTurned = "nonsense";
    CHECK(codeOf(plan) == "workholding_unknown");
    plan.holdingTurned = "strap-clamps";
    CHECK(codeOf(plan) == "workholding_unfit");
}

TEST_CASE("tape and vacuum hold by area: the sheet's figures", "[machined][holding]") {
    // machined-route.md 6: tape 20 to 60 kPa, 50 x 50 mm gives 50 to 150 N (common practice); case 35: 80 % vacuum on
    // 100 cm2 presses 811 N and holds 162 N sideways (derived).
    HeldWork patch = plateHeldBy("double-sided-tape", 0);
    patch.high = {50, 50};
    patch.underside = {{{0, 0}, {50, 0}, {50, 50}, {0, 50}}};
    const auto gripOf = [](const std::vector<HoldPoint>& points) {
        double sum = 0;
        for (const HoldPoint& p : points)
            sum += p.grip_N;
        return sum;
    };
    CHECK(gripOf(holdPointsOf(patch, 0, -1)) == Approx(50));
    CHECK(gripOf(holdPointsOf(patch, 0, 1)) == Approx(150));
    patch.method = &shippedShop().workholding("vacuum-plate");
    patch.high = {100, 100};
    patch.underside = {{{0, 0}, {100, 0}, {100, 100}, {0, 100}}};
    CHECK(gripOf(holdPointsOf(patch, 0, 0)) == Approx(162).epsilon(0.003));
    double pressed = 0;
    for (const HoldPoint& p : holdPointsOf(patch, 0, 0))
        pressed += p.pressed_N;
    CHECK(pressed == Approx(811).epsilon(0.003));
}
