#include "core/printed/printed_route.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <random>

#include "core/fault/input_fault.h"
#include "core/geometry/shape.h"
#include "core/printed/print_job.h"
#include "tests/printed/sample_prints.h"

using namespace waybench;
using namespace waybench::printed;

namespace {

/// Bar along x held at x = 0, pushed down at its end.
RouteTask bar(double length, double width, double thickness) {
    RouteTask task;
    task.partName = "bar";
    task.solid = std::make_shared<const Solid>(segmented(box(length, width, thickness)));
    LoadCase& load = task.loadCase;
    load.holds = {{FaceSelector::byPoint({0, width / 2, thickness / 2}, -Vec3::UnitX())}};
    const FaceSelector end = FaceSelector::byPoint({length, width / 2, thickness / 2}, Vec3::UnitX());
    Load force;
    force.face = end;
    force.vector = Vec3(0, 0, -10);
    load.loads = {force};
    load.measuredFace = end;
    load.measuredDirection = -Vec3::UnitZ();
    load.deflectionLimit_mm = 1;
    return task;
}

RouteOutcome outcomeOf(const RouteTask& task, const Recipe& recipe, Fidelity fidelity = Fidelity::draft) {
    return PrintedRoute(shippedShop(), recipe, "workshop").evaluate(task, fidelity, Task());
}

bool has(const RouteOutcome& outcome, const std::string& code) {
    return std::any_of(outcome.warnings.begin(), outcome.warnings.end(),
                       [&](const RouteWarning& w) { return w.code == code; });
}

}  // namespace

TEST_CASE("every question is answered with bounds, a working and steps that add up", "[printed]") {
    for (const double length : {24.0}) {
        const RouteOutcome o = outcomeOf(bar(length, 9, 6), Recipe(), Fidelity::standard);
        CHECK(o.feasible);
        double elapsed = 0, machine = 0, hands = 0;
        for (const Step& s : o.steps) {
            elapsed += s.seconds;
            machine += s.machine_seconds;
            hands += s.hands_on_seconds;
        }
        CHECK(o.at(Question::elapsed_time).value == Approx(elapsed).margin(0.01));
        CHECK(o.at(Question::machine_time).value == Approx(machine).margin(0.01));
        CHECK(o.at(Question::hands_on_time).value == Approx(hands).margin(0.01));
        CHECK(o.at(Question::stock).value ==
              Approx(o.at(Question::mass).value + o.at(Question::waste).value).margin(1e-9));
        for (const QuestionText& q : questions()) {
            INFO(q.key);
            const Figure& f = o.at(q.question);
            CHECK(f.low <= f.value);
            CHECK(f.value <= f.high);
            CHECK(f.unit == q.unit);
            CHECK_FALSE(o.workings.at(q.question).empty());
        }
        CHECK(o.at(Question::deflection).value > 0);
        CHECK(o.at(Question::deflection).high > 1.2 * o.at(Question::deflection).value);
        CHECK(o.assumptions.size() >= 8);
        CHECK(o.cautions.size() >= 2);
    }
}

TEST_CASE("a solid print bends as the beam of its modulus", "[printed]") {
    Recipe recipe;
    recipe.infillShare = 1;
    const double length = 60, width = 12, thickness = 8;
    const RouteOutcome o = outcomeOf(bar(length, width, thickness), recipe, Fidelity::standard);
    const double E = shippedShop().printingMaterial("petg").modulusInLayer.value;
    const double inertia = width * std::pow(thickness, 3) / 12;
    const double G = 0.8 * E / (2 * 1.39);
    const double beam = 10 * std::pow(length, 3) / (3 * E * inertia) + 1.2 * 10 * length / (G * width * thickness);
    CHECK(o.at(Question::deflection).value == Approx(beam).epsilon(0.03));
    CHECK(o.at(Question::mass).value ==
          Approx(length * width * thickness / 1000 * shippedShop().printingMaterial("petg").density_g_per_cm3.value)
              .epsilon(0.01));
}

TEST_CASE("another wall never makes the part softer, nor lighter", "[printed]") {
    double deflection = 1e300, mass = 0;
    for (int walls = 1; walls <= 6; ++walls) {
        Recipe recipe;
        recipe.walls = walls;
        const RouteOutcome o = outcomeOf(bar(60, 16, 10), recipe);
        CHECK(o.at(Question::deflection).value <= deflection * 1.002);
        CHECK(o.at(Question::mass).value >= mass);
        deflection = o.at(Question::deflection).value;
        mass = o.at(Question::mass).value;
    }
}

TEST_CASE("a draft agrees with the full answer within their bands", "[printed]") {
    std::mt19937 random(5);
    std::uniform_real_distribution<double> unit(0, 1);
    for (int trial = 0; trial < 1; ++trial) {
        const RouteTask task = bar(16 + 8 * unit(random), 8 + 3 * unit(random), 5 + 2 * unit(random));
        const RouteOutcome draft = outcomeOf(task, Recipe()), full = outcomeOf(task, Recipe(), Fidelity::standard);
        for (const Question q : {Question::deflection, Question::mass, Question::machine_time, Question::process_energy,
                                 Question::cost, Question::stiffness}) {
            INFO(textOf(q).key);
            CHECK(full.at(q).value >= draft.at(q).low);
            CHECK(full.at(q).value <= draft.at(q).high);
        }
    }
}

TEST_CASE("what cannot be printed is blocked and says why", "[printed]") {
    CHECK(has(outcomeOf(bar(300, 20, 8), Recipe()), "too_large_for_printer"));
    CHECK_FALSE(outcomeOf(bar(300, 20, 8), Recipe()).feasible);
    Recipe brimmed;
    CHECK_FALSE(has(outcomeOf(bar(190, 20, 8), brimmed), "too_large_for_printer"));
    brimmed.brimReach_mm = 6;
    CHECK(has(outcomeOf(bar(190, 20, 8), brimmed), "too_large_for_printer"));
    RouteTask hot = bar(40, 20, 8);
    hot.loadCase.temperature_celsius = 95;
    Recipe pla;
    pla.material = "pla";
    const RouteOutcome o = outcomeOf(hot, pla);
    CHECK(has(o, "temperature_above_service"));
    CHECK_FALSE(o.feasible);
    CHECK(o.at(Question::temperature_margin).value < 0);
    Recipe abs;
    abs.material = "abs";
    CHECK(has(outcomeOf(bar(40, 20, 8), abs), "needs_enclosure"));
    Recipe unknown;
    unknown.material = "cheese";
    CHECK_THROWS_AS(outcomeOf(bar(40, 20, 8), unknown), InputFault);
}

TEST_CASE("what cannot be printed well is told with its place", "[printed]") {
    const auto textOf = [](const RouteOutcome& o, const std::string& code) {
        for (const RouteWarning& w : o.warnings)
            if (w.code == code) return w.text;
        return std::string();
    };
    Recipe recipe;
    recipe.supports = false;
    // a bar whose lower half is cut away in the middle: a bridge of 30 mm, 6 mm up
    const auto standing = [](const Region& outline, double depth) {
        Mat3 stand;
        stand << 1, 0, 0, 0, 0, -1, 0, 1, 0;
        return transformed(column(outline, depth), stand, Vec3(0, depth, 0));
    };
    const auto task = [](const Mesh& mesh, double length, double width, double z) {
        RouteTask t = bar(length, width, z);
        t.solid = std::make_shared<const Solid>(segmented(mesh));
        t.loadCase.holds = {{FaceSelector::byPoint({0, width / 2, z / 2}, -Vec3::UnitX())}};
        return t;
    };
    const Ring gate{{0, 0}, {10, 0}, {10, 6}, {40, 6}, {40, 0}, {50, 0}, {50, 12}, {0, 12}};
    const RouteOutcome bridged = outcomeOf(task(standing({gate}, 12), 50, 12, 12), recipe);
    CHECK(textOf(bridged, "bridge_too_long").find("z 6") != std::string::npos);
    CHECK(textOf(bridged, "overhang").find("z 6") != std::string::npos);
    recipe.supports = true;
    CHECK(textOf(outcomeOf(task(standing({gate}, 12), 50, 12, 12), recipe), "bridge_too_long").find("carry") !=
          std::string::npos);

    // a rib of 0.3 mm and a bore of 1.2 mm through the bar
    const Mesh ribbed = column({{{0, 0}, {40, 0}, {40, 10}, {20.3, 10}, {20.3, 14}, {20, 14}, {20, 10}, {0, 10}},
                                circle(30, 5, 0.6, 24, true)},
                               8);
    const RouteOutcome thin = outcomeOf(task(ribbed, 40, 10, 8), recipe);
    CHECK(textOf(thin, "thin_wall").find("x 20") != std::string::npos);
    CHECK(textOf(thin, "tiny_hole").find("x 30, y 5") != std::string::npos);

    RouteTask warm = bar(100, 20, 6);
    warm.loadCase.temperature_celsius = 38;
    Recipe pla;
    pla.material = "pla";
    CHECK(has(outcomeOf(warm, pla), "near_softening"));
    Recipe abs;
    abs.material = "abs";
    CHECK(has(outcomeOf(bar(100, 20, 6), abs), "warp_prone"));
}

TEST_CASE("time under load and heat soften and weaken the part", "[printed]") {
    const RouteTask brief = bar(50, 16, 8);
    RouteTask held = brief, warm = brief, cycled = brief;
    held.loadCase.duration = Duration::hours;
    held.loadCase.duration_h = 1000;
    warm.loadCase.temperature_celsius = 40;
    cycled.loadCase.duration = Duration::cyclic;
    cycled.loadCase.cycles = 1e6;
    const RouteOutcome a = outcomeOf(brief, Recipe()), b = outcomeOf(held, Recipe()), c = outcomeOf(warm, Recipe()),
                       d = outcomeOf(cycled, Recipe());
    CHECK(b.at(Question::deflection).value > 1.2 * a.at(Question::deflection).value);
    CHECK(b.at(Question::strength_margin).value == Approx(0.25 * a.at(Question::strength_margin).value).epsilon(0.02));
    CHECK(c.at(Question::deflection).value > a.at(Question::deflection).value);
    CHECK(d.at(Question::strength_margin).value < a.at(Question::strength_margin).value);
    CHECK(has(b, "creep"));
}

TEST_CASE("sparser infill saves material and never stiffens", "[printed]") {
    double deflection = 0, mass = 1e300;
    for (const double share : {1.0, 0.6, 0.3, 0.1, 0.0}) {
        INFO(share);
        Recipe recipe;
        recipe.infillShare = share;
        const RouteOutcome o = outcomeOf(bar(60, 20, 14), recipe);
        CHECK(o.at(Question::deflection).value >= deflection * 0.998);
        CHECK(o.at(Question::mass).value < mass);
        deflection = o.at(Question::deflection).value;
        mass = o.at(Question::mass).value;
    }
}

TEST_CASE("standing on end, the layers break before the beads do", "[printed]") {
    Recipe lying, standing;
    lying.infillShare = standing.infillShare = 1;
    standing.up = Direction::plus_x;
    const RouteTask task = bar(50, 14, 8);
    const RouteOutcome a = outcomeOf(task, lying), b = outcomeOf(task, standing);
    CHECK(b.at(Question::strength_margin).value < 0.8 * a.at(Question::strength_margin).value);
    CHECK(b.at(Question::deflection).value > 1.05 * a.at(Question::deflection).value);
}

TEST_CASE("the same part gives the same answer twice, and a cancelled one none", "[printed]") {
    const RouteTask task = bar(45, 18, 7);
    const RouteOutcome a = outcomeOf(task, Recipe()), b = outcomeOf(task, Recipe());
    for (const QuestionText& q : questions())
        CHECK(a.at(q.question).value == b.at(q.question).value);
    Task cancelled;
    cancelled.cancel();
    CHECK_THROWS_AS(PrintedRoute(shippedShop(), Recipe(), "workshop").evaluate(task, Fidelity::draft, cancelled),
                    Cancelled);
}

TEST_CASE("every family prints with its standard dimensions", "[printed]") {
    const Shop& shop = shippedShop();
    for (const Family* family : families()) {
        INFO(family->key());
        Shape shape;
        shape.family = family->key();
        const Solid solid = buildSolid(shape, ".");
        const PrintJob job =
            printJob(solid.mesh, Recipe(), shop.printer("bed-moving"), shop.printingMaterial("petg"), false, Task());
        CHECK(job.section_mm3 == Approx(volumeOf(solid.mesh)).epsilon(0.005));
        CHECK(job.missing_mm3 < 0.002 * job.section_mm3);
    }
}

TEST_CASE("the summary of the layers adds up to the print's own figures", "[printed]") {
    Recipe recipe;
    recipe.brimReach_mm = 3;
    const RouteOutcome o = outcomeOf(bar(30, 12, 8), recipe);
    const auto group = [&](const std::string& key) {
        const auto found =
            std::find_if(o.summary.begin(), o.summary.end(), [&](const SummaryGroup& g) { return g.key == key; });
        REQUIRE(found != o.summary.end());
        return *found;
    };
    const auto sum = [](const SummaryGroup& g) {
        double total = 0;
        for (const auto& [key, figure] : g.figures)
            total += figure.value;
        return total;
    };
    double start = 0;  // what the machine waits for hands
    for (const Step& s : o.steps)
        if (s.hands_on_seconds > 0) start += s.machine_seconds;
    CHECK(sum(group("path_time")) + sum(group("other_time")) ==
          Approx(o.at(Question::machine_time).value - start).epsilon(1e-6));
    CHECK(sum(group("energy_by_phase")) == Approx(o.at(Question::process_energy).value).epsilon(1e-9));
    CHECK(group("layers").figures.front().second.value == 40);
    const RouteOutcome bare = outcomeOf(bar(30, 12, 8), Recipe());
    CHECK(o.at(Question::waste).value > bare.at(Question::waste).value);
    CHECK(o.at(Question::hands_on_time).value > bare.at(Question::hands_on_time).value);  // somebody breaks it off
    CHECK(o.at(Question::mass).value == Approx(bare.at(Question::mass).value));
}
