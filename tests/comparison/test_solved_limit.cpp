#include "core/comparison/solved_limit.h"

#include <catch2/catch.hpp>
#include <random>

#include "core/comparison/wording.h"
#include "tests/comparison/fake_outcome.h"

using namespace waybench;
using namespace waybench::testing;

namespace {

SolvedLimit solved(RouteKind route, const Variable& variable, double from, double to, const Part& part = fakePart()) {
    return solveInOrBesideBy(cubicLaw(), part, variable, route, from, to, Fidelity::standard, Task());
}

/// rest + scale / t^power, the exponent negative where more of the variable bends more.
Evaluator powerLaw(double rest, double scale, double power) {
    return [=](const Part& part, RouteKind kind, Fidelity, const Task&) {
        RouteOutcome o = fakeOutcome(kind);
        const double t = part.shape.dimensions.at("thickness");
        o.figures[Question::deflection] =
            Figure::relative(rest + scale / std::pow(t, power), 0.1, 0.1, Unit::millimetre);
        return o;
    };
}

}  // namespace

TEST_CASE("a length that fails over the whole range is solved beyond it, and said so") {
    // 64/t^3 = 0.1 at t = 640^(1/3) = 8.618
    const SolvedLimit s = solved(RouteKind::printed, thickness(), 4, 8);
    REQUIRE(s.sized);
    CHECK(s.isBeside());
    CHECK_FALSE(s.holdsInRange);
    CHECK(s.sized->at == Approx(std::cbrt(640.0)).epsilon(0.001));
    CHECK(wordsOf(s, thickness()) == "printed holds by its value from 8.63 mm, beyond this range");
}

TEST_CASE("a length that holds over the whole range is solved to where it begins to") {
    const SolvedLimit s = solved(RouteKind::machined, thickness(), 4, 12);
    REQUIRE(s.sized);
    CHECK(s.isBeside());
    CHECK(s.sized->at == Approx(std::cbrt(640.0) / 3).epsilon(0.001));
    CHECK(wordsOf(s, thickness()) == "machined holds by its value throughout this range, from 2.88 mm");
    CHECK(wordsOf(solved(RouteKind::machined, thickness(4), 4, 12), thickness(4)) ==
          "machined holds by its value throughout, from 4 mm to 24 mm");
}

TEST_CASE("nowhere is said with the range that was searched") {
    const SolvedLimit s = solved(RouteKind::printed, thickness(1, 8), 2, 7);
    CHECK_FALSE(s.sized);
    CHECK_FALSE(s.fault);
    CHECK(wordsOf(s, thickness(1, 8)) == "printed holds by its value nowhere from 1 mm to 8 mm");
}

TEST_CASE("what is no length is not looked for beside the range") {
    // 64/512 mm at the load of the load case: the limit of 0.1 mm is met at 0.8 of it
    const Variable load{"load", "load", Unit::none, 0.01, 100, 1, false};
    CHECK_FALSE(solved(RouteKind::printed, load, 1, 2).sized);
    CHECK(wordsOf(solved(RouteKind::printed, load, 0.1, 10), load) ==
          "printed holds by its value up to 0.799 times the load");
}

TEST_CASE("a fault of solving is told as one, in words and in the document") {
    Part part = fakePart();
    part.loadCase.deflectionLimit_mm = 0;
    const SolvedLimit s = solved(RouteKind::printed, thickness(), 4, 12, part);
    REQUIRE(s.fault);
    CHECK(s.fault->code() == "limit_missing");
    CHECK(wordsOf(s, thickness()).find("there is no deflection limit to size for") != std::string::npos);
    const Sweep sweep = sweepBy(cubicLaw(), fakePart(), thickness(), 4, 12, 3, Fidelity::draft, Task());
    const std::string json = sweepJson(sweep, s, solved(RouteKind::machined, thickness(), 4, 12));
    CHECK(json.find("\"fault\": \"limit_missing\"") != std::string::npos);
    CHECK(json.find("machined holds by its value throughout this range, from 2.88 mm") != std::string::npos);
}

TEST_CASE("a dimension of the other route leaves this one untouched and unasked") {
    int printedCalls = 0, machinedCalls = 0;
    Variable v = thickness();
    v.name = "printed.thickness";
    const SolvedLimit s = solveInOrBesideBy(cubicLaw(64, &printedCalls, &machinedCalls), fakePart(), v,
                                            RouteKind::machined, 4, 12, Fidelity::draft, Task());
    CHECK(s.isUntouched);
    CHECK_FALSE(s.sized);
    CHECK(printedCalls + machinedCalls == 0);
}

TEST_CASE("a cancelled solving ends") {
    Task task;
    task.cancel();
    CHECK_THROWS_AS(
        solveInOrBesideBy(cubicLaw(), fakePart(), thickness(), RouteKind::printed, 4, 12, Fidelity::draft, task),
        Cancelled);
}

TEST_CASE("whoever builds the value that is read holds the limit") {
    std::mt19937 random(29);
    std::uniform_real_distribution<double> size(0.05, 40), rest(0.0, 0.09), power(0.5, 3.5);
    int above = 0, below = 0;
    for (int i = 0; i < 200; ++i) {
        const double sign = i % 2 == 0 ? 1 : -1, r = rest(random), p = power(random);
        const double scale = sign > 0 ? size(random) : size(random) * 1e-3;
        const Evaluator law = powerLaw(r, scale, sign * p);
        const SolvedLimit s =
            solveInOrBesideBy(law, fakePart(), thickness(), RouteKind::printed, 1, 40, Fidelity::draft, Task());
        if (!s.sized || s.sized->holdsThroughout) continue;
        CHECK(s.sized->holdsAbove == (sign > 0));
        const std::string said = holdingPlaceOn(thickness(), s.sized->at, s.sized->holdsAbove);
        CHECK(wordsOf(s, thickness()).find(said) != std::string::npos);
        const double built = std::stod(said);
        INFO(said);
        CHECK(r + scale / std::pow(built, sign * p) <= 0.1);
        CHECK(std::fabs(built / s.sized->at - 1) <= 0.01);
        ++(sign > 0 ? above : below);
    }
    CHECK(above > 20);
    CHECK(below > 20);
}

TEST_CASE("a place is rounded to the holding side and never out of the variable's range") {
    CHECK(holdingPlaceOn(thickness(), 4.374, true) == "4.38 mm");
    CHECK(holdingPlaceOn(thickness(), 4.374, false) == "4.37 mm");
    CHECK(holdingPlaceOn(thickness(), 18.04, true) == "18.1 mm");
    CHECK(holdingPlaceOn(thickness(), 8.62 + 1e-13, true) == "8.62 mm");
    CHECK(holdingPlaceOn(thickness(), 9.996, true) == "10 mm");
    CHECK(holdingPlaceOn(thickness(1, 9.998), 9.996, true) == "9.996 mm");
    const Variable cold{"temperature", "temperature", Unit::celsius, -40, 250, 20, false};
    CHECK(holdingPlaceOn(cold, -12.34, true) == "-12.3 degC");
    CHECK(holdingPlaceOn(cold, -12.34, false) == "-12.4 degC");
    CHECK(holdingPlaceOn(cold, 0, true) == "0 degC");
}

TEST_CASE("a crossing with a solved-for value shows that value and no second one") {
    // Far from a power law, so that the line between three points misses the crossing at 7.05.
    const Evaluator law = powerLaw(0.09, 24.6, 4);
    const Sweep s = sweepBy(law, fakePart(), thickness(), 2, 16, 3, Fidelity::draft, Task());
    std::vector<Crossing> found = crossings(s, Question::deflection);
    const SolvedLimit solved =
        solveInOrBesideBy(law, fakePart(), thickness(), RouteKind::printed, 2, 16, Fidelity::draft, Task());
    REQUIRE(solved.sized);
    REQUIRE(found.size() == 2);  // both routes follow the law here
    REQUIRE(found[0].route == RouteKind::printed);
    const double read = found[0].at, others = found[1].at;
    REQUIRE(std::fabs(read - solved.sized->at) > 0.2);
    takeSolved(found, solved, thickness());
    CHECK(found[0].at == solved.sized->at);
    CHECK(found[0].low <= found[0].at);
    CHECK(found[0].at <= found[0].high);
    CHECK(found[0].text.find("by its value from " + holdingPlaceOn(thickness(), solved.sized->at, true)) !=
          std::string::npos);
    CHECK(found[1].at == others);
    CHECK(sweepJson(s, solved, {}).find(found[0].text) != std::string::npos);
}
