// Will it hold still: set-ups of planned parts against what holds them.
#include <catch2/catch.hpp>

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

TEST_CASE("a light plate drilled with two clamps turns, by how much is said, and four hold it", "[machined][holding]") {
    // Two clamps of 200 N, friction 0.2, 140 mm apart: 0.2 * 200 * 140 = 5600 N mm against 3000 drilled, times 2.5
    // asked: 7500. Statics by hand.
    const HoldingCheck two = checkHolding(plateHeldBy("hand-clamps", 2), 0, {drilling(3000, {140, 40})});
    CHECK_FALSE(two.holds());
    CHECK(two.way == WayLoose::turns);
    CHECK(two.safety.value == Approx(5600.0 / 3000).epsilon(1e-3));
    CHECK(two.carried_N == Approx(5600).epsilon(1e-3));
    // Least friction and force against the greatest torque: 0.1 * 100 * 140 / (1.4 * 3000).
    CHECK(two.safety.low == Approx(1400.0 / 4200).epsilon(1e-3));
    CHECK(two.forceNeeded_N == Approx(200 * 7500 / 5600.0).epsilon(1e-3));
    CHECK(two.clampsNeeded >= 3);
    CHECK(two.clampsNeeded <= 4);
    const HoldingCheck four = checkHolding(plateHeldBy("hand-clamps", 4), 0, {drilling(3000, {140, 40})});
    CHECK(four.holds());
    CHECK(four.safety.value > two.safety.value);
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
    CHECK(moves->text.find("turns") != std::string::npos);
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

TEST_CASE("proposed tabs carry the peak force two and a half times", "[machined][holding]") {
    const Planned p = planned(plateWith(150, 50, 3, {}));
    const TabCheck tabs = checkTabs(p.work, shippedShop().stockMaterial("al-6082"));
    CHECK(tabs.tabs >= 3);
    CHECK(tabs.force_N > 0);
    CHECK(tabs.safety() >= kHoldingAsked);
    CHECK(tabs.carries_N == Approx(tabShear_N(tabs.tabs, tabs.width_mm, tabs.height_mm,
                                              shippedShop().stockMaterial("al-6082").yieldStrength.low)));
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
