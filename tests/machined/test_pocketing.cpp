#include <catch2/catch.hpp>
#include <random>

#include "core/machined/pocketing.h"
#include "sample_parts.h"

using namespace waybench;
using namespace waybench::machined;

namespace {

Region square(double low, double high) {
    return {{{low, low}, {high, low}, {high, high}, {low, high}}};
}

Region around(const Region& pocket) {
    return differenceOf(square(-200, 200), pocket);
}

}  // namespace

TEST_CASE("A round tool leaves four corners of (1 - pi/4) r2 in a square pocket", "[machined][pocket]") {
    const Region pocket = square(0, 30);
    for (const double d : {2.0, 4.0, 6.0}) {
        const double expected = 4 * (1 - M_PI / 4) * d * d / 4;
        CHECK(areaOf(leftByTool(pocket, around(pocket), d)) == Approx(expected).epsilon(0.12));
        CHECK(islandsOf(leftByTool(pocket, around(pocket), d)).size() == 4);
    }
}

TEST_CASE("A corner rounder than the tool leaves nothing", "[machined][pocket]") {
    const Region pocket = offsetBy(offsetBy(square(0, 30), -4), 4, Corner::round);
    CHECK(leftByTool(pocket, around(pocket), 6).empty());
    CHECK_FALSE(leftByTool(pocket, around(pocket), 10).empty());
}

TEST_CASE("A larger tool never leaves less", "[machined][pocket]") {
    std::mt19937 random(11);
    std::uniform_real_distribution<double> unit(0, 1);
    for (int i = 0; i < 15; ++i) {
        Region pocket;
        for (int k = 0; k < 3; ++k) {
            const double x = 30 * unit(random), y = 30 * unit(random), w = 3 + 15 * unit(random),
                         h = 3 + 15 * unit(random);
            pocket = unionOf(pocket, {{{x, y}, {x + w, y}, {x + w, y + h}, {x, y + h}}});
        }
        double before = -1;
        for (const double d : {1.0, 2.0, 3.175, 4.0, 6.0}) {
            const double left = areaOf(leftByTool(pocket, around(pocket), d));
            CHECK(left >= before - 0.05);
            before = left;
        }
    }
}

TEST_CASE("Rings at half a tool diameter leave nothing standing between them", "[machined][pocket]") {
    const Region pocket = unionOf(square(0, 25), {{{20, 5}, {60, 5}, {60, 18}, {20, 18}}});
    const double radius = 3;
    const Region centres = toolCentres(pocket, around(pocket), radius);
    Region swept;
    for (const Pass& pass : ringsInside(centres, radius)) {
        std::vector<Vec2> points = pass.points;
        if (pass.isClosed) points.push_back(points.front());
        for (std::size_t i = 1; i < points.size(); ++i) {
            const Vec2 along = (points[i] - points[i - 1]).normalized() * 1e-3, across(-along.y(), along.x());
            const Region line{{points[i - 1] - across, points[i] - across, points[i] + across, points[i - 1] + across}};
            swept = unionOf(swept, offsetBy(line, radius, Corner::round));
        }
    }
    const Region missed = differenceOf(offsetBy(centres, radius - 0.01, Corner::round), swept);
    CHECK(areaOf(missed) < 0.5);
}

TEST_CASE("A ledge narrower than the tool is cut from outside the part", "[machined][pocket]") {
    // 1 mm ledge beside a wall, open to the other side
    const Region ledge{{{0, 0}, {40, 0}, {40, 1}, {0, 1}}}, wall{{{0, 1}, {40, 1}, {40, 20}, {0, 20}}};
    CHECK(areaOf(toolCentres(ledge, wall, 3)) > 30);
    CHECK(leftByTool(ledge, wall, 6).empty());
}

TEST_CASE("A square inside corner is reported with the radius that stays", "[machined][pocket]") {
    const Solid plate = plateWith(80, 50, 10, {}, {{rectangleOutline(20, 10, 60, 40, "pocket"), 5, false}});
    Plan plan;
    plan.smallestTool_mm = 4;
    const RouteOutcome outcome = machine(taskFor(plate), plan);
    const RouteWarning* corner = warningOf(outcome, "corner_radius");
    REQUIRE(corner);
    CHECK(corner->severity == Severity::caution);
    CHECK(corner->text.find("radius of 2 mm") != std::string::npos);
    CHECK(outcome.feasible);
}

TEST_CASE("A slot no cutter enters blocks, and so does one deeper than any cutter is long", "[machined][pocket]") {
    const Solid narrow = plateWith(80, 50, 10, {}, {{rectangleOutline(20, 20, 60, 20.7, "slot"), 5, false}});
    const RouteOutcome thin = machine(taskFor(narrow));
    CHECK(warningOf(thin, "too_narrow"));
    CHECK_FALSE(thin.feasible);

    Plan pom;
    pom.material = "pom";
    const Solid deep = plateWith(70, 70, 58, {}, {{rectangleOutline(30, 30, 37, 37, "shaft"), 50, false}});
    const RouteOutcome shaft = machine(taskFor(deep), pom);
    const RouteWarning* warning = warningOf(shaft, "tool_too_short");
    REQUIRE(warning);
    CHECK_FALSE(shaft.feasible);
}
