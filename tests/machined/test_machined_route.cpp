#include <catch2/catch.hpp>
#include <random>

#include "sample_parts.h"

using namespace waybench;
using namespace waybench::machined;

namespace {

RouteTask fixturePlate() {
    return taskFor(plateWith(
        80, 50, 8, {circular("a", {15, 12}, 2.75), circular("b", {65, 12}, 2.75), circular("c", {40, 25}, 10)},
        {{roundedRectangle({10, 28}, {28, 44}, 4, {"w1", "w2", "w3", "w4"}, "c"), 3, false}}));
}

/// Steps against figures, stock against part and waste, plan against the mill.
void checkAgreement(const RouteOutcome& o) {
    double machine = 0, hands = 0, elapsed = 0;
    for (const Step& s : o.steps) {
        machine += s.machine_seconds;
        hands += s.hands_on_seconds;
        elapsed += s.seconds;
    }
    CHECK(machine == Approx(o.at(Question::machine_time).value).margin(0.1));
    CHECK(hands == Approx(o.at(Question::hands_on_time).value).margin(0.1));
    CHECK(elapsed == Approx(o.at(Question::elapsed_time).value).margin(0.1));
    CHECK(o.at(Question::stock).value == Approx(o.at(Question::mass).value + o.at(Question::waste).value).margin(0.1));
    for (const QuestionText& q : questions()) {
        const Figure& f = o.at(q.question);
        CHECK(f.low <= f.value);
        CHECK(f.value <= f.high);
        CHECK(o.workings.count(q.question) == 1);
    }
}

}  // namespace

TEST_CASE("A fixture plate is machined, and its figures agree with each other", "[machined][route]") {
    const RouteOutcome o = machine(fixturePlate());
    CHECK(o.feasible);
    checkAgreement(o);
    CHECK(o.at(Question::setups).value == 1);
    CHECK(o.at(Question::mass).value == Approx(volumeOf(o.solid->mesh) / 1000 * 2.7).epsilon(1e-6));
    CHECK(o.cautions.size() >= 2);
    CHECK_FALSE(o.assumptions.empty());
}

TEST_CASE("The blank is the plate of the part's own thickness, sawn with the margin", "[machined][stock]") {
    Plan plan;
    const StockChoice s = chooseStock(shippedShop(), plan, {80, 50, 10});
    REQUIRE(s.piece);
    CHECK(s.size_mm.isApprox(Vec3(116, 86, 10)));
    CHECK(s.excess_mm == 0);
    plan.stockMargin_mm = 2;
    CHECK(chooseStock(shippedShop(), plan, {80, 50, 10}).volume_mm3() < s.volume_mm3());
}

TEST_CASE("A part thicker than the next plate down is faced from the next one up", "[machined][stock]") {
    const StockChoice s = chooseStock(shippedShop(), {}, {80, 50, 9});
    REQUIRE(s.piece);
    CHECK(s.excess_mm == Approx(1));
}

TEST_CASE("Without stock on the shelf the figures are still there and say so", "[machined][stock]") {
    Plan plan;
    plan.material = "steel-s235";
    const RouteOutcome o = machine(taskFor(plateWith(80, 50, 30, {})), plan);
    CHECK_FALSE(o.feasible);
    REQUIRE(warningOf(o, "no_stock"));
    CHECK(warningOf(o, "no_stock")->severity == Severity::blocking);
    checkAgreement(o);
}

TEST_CASE("A material that is not for light machines and a part beyond the travel are refused", "[machined][route]") {
    Plan plan;
    plan.material = "stainless-304";
    CHECK(warningOf(machine(taskFor(plateWith(60, 40, 3, {})), plan), "material_blocked"));
    const RouteOutcome o = machine(taskFor(plateWith(400, 40, 8, {})));
    CHECK(warningOf(o, "larger_than_travel"));
    CHECK_FALSE(o.feasible);
}

TEST_CASE("An operation takes longer than its way at feed", "[machined][route]") {
    const Planned p = planned(*fixturePlate().solid);
    REQUIRE(p.work.operations.size() >= 3);
    for (const Operation& o : p.work.operations) {
        INFO(nameOf(o.kind) << ", " << o.tool->title);
        CHECK(o.seconds >= o.cut_mm / o.cutting.feed_mm_s * (1 - 1e-6));
        CHECK(o.cutting_seconds <= o.seconds + 1e-6);
        if (o.kind != OperationKind::drilling) CHECK(o.reach_mm <= o.tool->stickOut_mm);
    }
}

TEST_CASE("Volume cut is that of holes, pocket and outline slot", "[machined][route]") {
    const Planned p = planned(
        plateWith(80, 50, 8, {}, {{roundedRectangle({10, 10}, {40, 40}, 5, {"w1", "w2", "w3", "w4"}, "c"), 3, false}}));
    double pockets = 0;
    for (const Operation& o : p.work.operations)
        if (o.kind == OperationKind::pocket || o.kind == OperationKind::rest) pockets += o.removed_mm3;
    CHECK(pockets == Approx(3 * (900 - (4 - M_PI) * 25)).epsilon(0.005));
}

TEST_CASE("The draft lies within the band of the full answer where the plan is the same", "[machined][route]") {
    const RouteTask task = fixturePlate();
    const RouteOutcome draft = machine(task, {}, Fidelity::draft), full = machine(task, {}, Fidelity::standard);
    for (const Question q : {Question::machine_time, Question::hands_on_time, Question::elapsed_time, Question::cost,
                             Question::process_energy, Question::stock, Question::mass, Question::accuracy}) {
        CHECK(draft.at(q).value >= full.at(q).low);
        CHECK(draft.at(q).value <= full.at(q).high);
    }
    checkAgreement(full);
}

TEST_CASE("Twice the load bends twice as far, and a stiffer stock less", "[machined][route]") {
    const Solid plate = plateWith(80, 20, 8, {});
    const double once = machine(taskFor(plate, 40)).at(Question::deflection).value;
    CHECK(machine(taskFor(plate, 80)).at(Question::deflection).value == Approx(2 * once).epsilon(1e-3));
    Plan pom;
    pom.material = "pom";
    CHECK(machine(taskFor(plate, 40), pom).at(Question::deflection).value > 10 * once);
}

TEST_CASE("A load case hotter than the stock bears is refused, with figures", "[machined][route]") {
    RouteTask task = fixturePlate();
    task.loadCase.temperature_celsius = 180;
    const RouteOutcome o = machine(task);
    CHECK_FALSE(o.feasible);
    CHECK(warningOf(o, "too_hot"));
    CHECK(o.at(Question::temperature_margin).value < 0);
}

TEST_CASE("Cancelling stops the evaluation", "[machined][route]") {
    Task task;
    task.cancel();
    CHECK_THROWS_AS(MachinedRoute(shippedShop(), {}, "workshop").evaluate(fixturePlate(), Fidelity::draft, task),
                    Cancelled);
}

TEST_CASE("Random plates with holes and pockets are planned without contradiction", "[machined][route]") {
    std::mt19937 random(20);
    std::uniform_real_distribution<double> unit(0, 1);
    for (int i = 0; i < 12; ++i) {
        const double height = 3 + 9 * unit(random);
        std::vector<Outline> through;
        std::vector<Sunk> sunk;
        // a 3 x 2 pattern of fields of 25 mm, each empty, a hole, a window or a pocket on either side
        for (int f = 0; f < 6; ++f) {
            const double x = 5 + 27 * (f % 3), y = 5 + 27 * (f / 3), kind = unit(random);
            const std::string name = "f" + std::to_string(f);
            if (kind < 0.35)
                through.push_back(circular(name, {x + 10, y + 10}, 0.6 + 8 * unit(random)));
            else if (kind < 0.5)
                through.push_back(rectangleOutline(x, y, x + 2 + 18 * unit(random), y + 2 + 18 * unit(random), name));
            else if (kind < 0.85)
                sunk.push_back({rectangleOutline(x, y, x + 2 + 18 * unit(random), y + 2 + 18 * unit(random), name),
                                height * (0.2 + 0.6 * unit(random)), unit(random) < 0.4});
        }
        const Solid plate = plateWith(85, 58, height, through, sunk);
        const Planned p = planned(plate);
        CHECK(p.access.hidden.empty());
        const bool below = std::any_of(sunk.begin(), sunk.end(), [](const Sunk& s) { return s.below; });
        const bool above = std::any_of(sunk.begin(), sunk.end(), [](const Sunk& s) { return !s.below; });
        CHECK(p.access.directions.size() == (below && above ? 2 : 1));
        double removed = 0;
        for (const SetUp& s : p.setUps)
            removed += s.removed_mm3;
        CHECK(removed == Approx(85 * 58 * height - volumeOf(plate.mesh)).margin(0.02 * 85 * 58 * height * 0.1 + 2));
        for (const Operation& o : p.work.operations) {
            CHECK(std::isfinite(o.seconds));
            CHECK(o.seconds >= 0);
            if (o.kind != OperationKind::drilling) CHECK(o.reach_mm <= o.tool->stickOut_mm);
        }
    }
}
