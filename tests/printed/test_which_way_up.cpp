#include "core/printed/which_way_up.h"

#include <catch2/catch.hpp>
#include <cmath>
#include <set>

#include "core/geometry/shape.h"
#include "core/quantity/quantity_text.h"
#include "tests/printed/sample_prints.h"

using namespace waybench;
using namespace waybench::printed;

namespace {

/// A solid held on its face towards one direction and pushed on the face towards another, measured there.
RouteTask loaded(Solid solid, const Vec3& heldTowards, const Vec3& pushedTowards, const Vec3& force_N,
                 double limit_mm) {
    RouteTask task;
    task.partName = "part";
    const auto towards = [&](const Vec3& direction) {
        const Face* furthest = nullptr;
        for (const Face& face : solid.faces)
            if (face.kind == SurfaceKind::plane && face.direction.dot(direction) > 0.99 &&
                (!furthest || face.centroid.dot(direction) > furthest->centroid.dot(direction)))
                furthest = &face;
        REQUIRE(furthest);
        return FaceSelector::byName(furthest->name);
    };
    task.loadCase.holds = {{towards(heldTowards)}};
    Load load;
    load.face = towards(pushedTowards);
    load.vector = force_N;
    task.loadCase.loads = {load};
    task.loadCase.measuredFace = load.face;
    task.loadCase.measuredDirection = force_N.normalized();
    task.loadCase.deflectionLimit_mm = limit_mm;
    task.solid = std::make_shared<const Solid>(std::move(solid));
    return task;
}

std::vector<WayUp> ranked(const RouteTask& task, const Recipe& recipe = {}) {
    return rankedWaysUp(task, recipe, shippedShop(), shippedShop().tariffs.front().key, Task());
}

bool isAlong(Direction d, int axis) {
    return std::abs(unitVector(d)[axis]) > 0.5;
}

/// Two boxes of one width that meet exactly make an L; rests on its foot or on its back.
Solid angle() {
    return segmented(column({{{0, 0}, {40, 0}, {40, 8}, {8, 8}, {8, 40}, {0, 40}}}, 30));
}

}  // namespace

TEST_CASE("a flat plate lies down", "[printed]") {
    const auto ways = ranked(loaded(segmented(box(60, 40, 5)), -Vec3::UnitX(), Vec3::UnitX(), Vec3(0, 0, -5), 2));
    REQUIRE(ways.size() == 6);
    CHECK(isAlong(ways[0].up, 2));
    CHECK(isAlong(ways[1].up, 2));
    CHECK(ways[0].footprint_mm2 == Approx(2400).epsilon(0.01));
    CHECK(ways[0].height_mm == Approx(5));
}

TEST_CASE("a tall pin loaded sideways does not stand with its layers across the bending", "[printed]") {
    const RouteTask task = loaded(segmented(box(8, 8, 50)), -Vec3::UnitZ(), Vec3::UnitZ(), Vec3(12, 0, 0), 1.5);
    const auto ways = ranked(task);
    CHECK_FALSE(isAlong(ways[0].up, 2));
    CHECK(isAlong(ways[4].up, 2));
    CHECK(isAlong(ways[5].up, 2));
    CHECK(ways[5].strength.figure.value < ways[0].strength.figure.value);
    CHECK(ways[5].deflection.figure.value > ways[0].deflection.figure.value);
    CHECK(ways[5].why.find("weaker") + ways[5].why.find("Fails") != 2 * std::string::npos);
}

TEST_CASE("a part with an overhang is turned so that it needs no support", "[printed]") {
    // An angle lies on its side without support; standing on either leg's edge it overhangs.
    const auto ways = ranked(loaded(angle(), -Vec3::UnitX(), Vec3::UnitX(), Vec3(0, -3, 0), 2));
    CHECK(ways[0].support_mm3.value == 0);
    bool someNeedIt = false;
    for (const WayUp& way : ways)
        someNeedIt = someNeedIt || way.support_mm3.value > 100;
    CHECK(someNeedIt);
    CHECK(ways[5].support_mm3.value > 100);
    CHECK(ways[5].why.find("support") != std::string::npos);
}

TEST_CASE("every direction is ranked once, with its figures, a reason, and the rank by its penalty", "[printed]") {
    const auto ways = ranked(loaded(angle(), -Vec3::UnitX(), Vec3::UnitX(), Vec3(0, -3, 0), 2));
    std::set<Direction> seen;
    for (std::size_t i = 0; i < ways.size(); ++i) {
        seen.insert(ways[i].up);
        CHECK_FALSE(ways[i].why.empty());
        CHECK(std::isfinite(ways[i].penalty));
        CHECK(ways[i].machineTime.value > 0);
        if (i > 0 && ways[i - 1].holding() == ways[i].holding() && ways[i - 1].fitsPrinter == ways[i].fitsPrinter)
            CHECK(ways[i - 1].penalty <= ways[i].penalty + 0.005);
        if (i > 0 && ways[i].fitsPrinter) CHECK(ways[i - 1].holding() <= ways[i].holding());
    }
    CHECK(seen.size() == 6);
}

TEST_CASE("the ranking does not hang on which way up the recipe stands", "[printed]") {
    const RouteTask task = loaded(segmented(box(30, 20, 6)), -Vec3::UnitX(), Vec3::UnitX(), Vec3(0, 0, -5), 2);
    Recipe other;
    other.up = Direction::minus_y;
    const auto a = ranked(task), b = ranked(task, other);
    for (std::size_t i = 0; i < a.size(); ++i) {
        CHECK(a[i].up == b[i].up);
        CHECK(a[i].why == b[i].why);
    }
}

TEST_CASE("bores come out round where their axis points up", "[printed]") {
    const Solid plate = segmented(column({rectangle(0, 0, 50, 30), circle(15, 15, 4, 48, true)}, 6));
    for (const WayUp& way : ranked(loaded(plate, -Vec3::UnitX(), Vec3::UnitX(), Vec3(0, 0, -5), 2))) {
        CHECK(way.holes == 1);
        CHECK(way.roundHoles == (isAlong(way.up, 2) ? 1 : 0));
    }
}

TEST_CASE("a direction that does not fit the printer comes last and says so", "[printed]") {
    Shop low = shippedShop();
    for (Printer& printer : low.printers)
        printer.travel_mm.z() = 30;
    const auto ways =
        rankedWaysUp(loaded(segmented(box(12, 10, 40)), -Vec3::UnitZ(), Vec3::UnitZ(), Vec3(0.5, 0, 0), 20), Recipe(),
                     low, low.tariffs.front().key, Task());
    for (std::size_t i = 0; i < ways.size(); ++i)
        CHECK(ways[i].fitsPrinter == !isAlong(ways[i].up, 2));
    CHECK_FALSE(ways[5].fitsPrinter);
    CHECK(ways[5].why.find("fit") != std::string::npos);
}

TEST_CASE("a limit between value and unfavourable bound cannot be said to hold, and stands between", "[printed]") {
    const auto with = [](double limit) {
        return ranked(loaded(segmented(box(60, 40, 5)), -Vec3::UnitX(), Vec3::UnitX(), Vec3(0, 0, -5), limit)).front();
    };
    const Figure deflection = with(2).deflection.figure;
    REQUIRE(deflection.value < deflection.high);
    CHECK(with(deflection.high * 1.01).holding() == Holding::holds);
    const WayUp between = with((deflection.value + deflection.high) / 2);
    CHECK(between.holding() == Holding::uncertain);
    CHECK(between.why.find("unfavourable bound fails") != std::string::npos);
    const WayUp failing = with(deflection.value * 0.9);
    CHECK(failing.holding() == Holding::fails);
    CHECK(failing.why.find("No way up meets the limits") == 0);
}

TEST_CASE("of several load cases each figure keeps its own requirement and name", "[printed]") {
    RouteTask task = loaded(segmented(box(60, 40, 5)), -Vec3::UnitX(), Vec3::UnitX(), Vec3(0, 0, -5), 50);
    task.loadCase.name = "strong";
    task.loadCase.strengthFactor = 3;
    LoadCase stiff = task.loadCase;
    stiff.name = "stiff";
    stiff.loads.front().vector = Vec3(0, 0, -1);
    stiff.deflectionLimit_mm = 0.001;
    stiff.strengthFactor = 1;
    task.furtherLoadCases = {stiff};
    const WayUp way = ranked(task).front();
    CHECK(way.strength.loadCase == "strong");
    CHECK(way.strength.limit == 3);
    CHECK(way.deflection.loadCase == "stiff");
    CHECK(way.deflection.limit == 0.001);
    CHECK(way.why.find("where 3 is asked under 'strong'") != std::string::npos);
    CHECK(way.why.find("× the limit under 'stiff'") != std::string::npos);
}

TEST_CASE("sentence and table round a margin alike", "[printed]") {
    const WayUp way =
        ranked(loaded(segmented(box(60, 40, 5)), -Vec3::UnitX(), Vec3::UnitX(), Vec3(0, 0, -5), 2)).front();
    const std::string margin = roundByBand(way.strength.figure, way.strength.limit).value;
    CHECK(way.why.find("strength margin " + margin + " where") != std::string::npos);
}

TEST_CASE("a cancelled ranking ends", "[printed]") {
    Task task;
    task.cancel();
    CHECK_THROWS_AS(rankedWaysUp(loaded(angle(), -Vec3::UnitX(), Vec3::UnitX(), Vec3(0, -3, 0), 2), Recipe(),
                                 shippedShop(), shippedShop().tariffs.front().key, task),
                    Cancelled);
}

TEST_CASE("a wedge can be laid on its sloping face", "[printed][ways_up]") {
    // A prism of a right-angled triangle, 40 x 30 mm: its long side leans by atan(30/40) to the others.
    Solid solid = segmented(column({{{0, 0}, {40, 0}, {0, 30}}}, 20));
    const RouteTask task = loaded(std::move(solid), -Vec3::UnitX(), -Vec3::UnitY(), {0, 5, 0}, 1);
    const std::vector<WayUp> ways = rankedWaysUp(task, Recipe{}, shippedShop(), "workshop", Task());
    const auto leaned =
        std::find_if(ways.begin(), ways.end(), [](const WayUp& w) { return w.leanX_deg != 0 || w.leanY_deg != 0; });
    REQUIRE(leaned != ways.end());
    CHECK(ways.size() == 7);
    // The height over the long side, 40 * 30 / 50, and the side itself on the bed.
    CHECK(leaned->height_mm == Approx(24).epsilon(0.01));
    CHECK(leaned->footprint_mm2 == Approx(50 * 20).epsilon(0.03));
    Recipe laid;
    take(laid, *leaned);
    CHECK((upwardOf(laid) + Vec3(0.6, 0.8, 0)).norm() < 1e-5);
    CHECK(leaned->why.size() > 10);
}
