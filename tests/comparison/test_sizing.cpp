#include <catch2/catch.hpp>
#include <random>

#include "core/comparison/evaluator.h"
#include "tests/comparison/fake_outcome.h"

using namespace waybench;
using namespace waybench::testing;

TEST_CASE("the thickness that just meets the limit is that of the closed form") {
    // Euler-Bernoulli: deflection over 1/t^3, so 64/t^3 = 0.1 at t = 640^(1/3)
    for (const RouteKind route : {RouteKind::printed, RouteKind::machined}) {
        const auto sized =
            solveForLimitBy(cubicLaw(), fakePart(), thickness(), route, 1, 40, Fidelity::standard, Task());
        REQUIRE(sized);
        CHECK(std::fabs(sized->deflection.value - 0.1) <= 0.002 * 0.1);
        CHECK(sized->at == Approx(std::cbrt(640.0) / (route == RouteKind::printed ? 1 : 3)).epsilon(0.001));
    }
}

TEST_CASE("sizing evaluates only the route it is asked for, and a power law within a few steps") {
    int printedCalls = 0, machinedCalls = 0;
    solveForLimitBy(cubicLaw(64, &printedCalls, &machinedCalls), fakePart(), thickness(), RouteKind::printed, 1, 40,
                    Fidelity::standard, Task());
    CHECK(machinedCalls == 0);
    CHECK(printedCalls <= 4);
}

TEST_CASE("sizing meets any monotone law within 0.2 percent below the limit") {
    std::mt19937 random(17);
    std::uniform_real_distribution<double> a(0.05, 40), b(0.0, 0.09), n(0.5, 3.5);
    int met = 0;
    for (int i = 0; i < 100; ++i) {
        const double scale = a(random), rest = b(random), power = n(random);
        const Evaluator law = [&](const Part& part, RouteKind kind, Fidelity, const Task&) {
            RouteOutcome o = fakeOutcome(kind);
            const double t = part.shape.dimensions.at("thickness");
            o.figures[Question::deflection] =
                Figure::relative(rest + scale / std::pow(t, power), 0.1, 0.1, Unit::millimetre);
            return o;
        };
        const auto sized =
            solveForLimitBy(law, fakePart(), thickness(), RouteKind::printed, 1, 40, Fidelity::draft, Task());
        const double least = rest + scale / std::pow(40, power), most = rest + scale;
        if (least > 0.1) {
            CHECK_FALSE(sized);
        } else if (most > 0.1) {
            REQUIRE(sized);
            CHECK(sized->deflection.value <= 0.1);  // what is called good enough is
            CHECK(sized->deflection.value >= 0.1 * 0.998);
            ++met;
        }
    }
    CHECK(met > 20);
}

TEST_CASE("a limit met over the whole range is met at its start") {
    const auto sized =
        solveForLimitBy(cubicLaw(), fakePart(), thickness(), RouteKind::printed, 20, 40, Fidelity::draft, Task());
    REQUIRE(sized);
    CHECK(sized->at == 20);
    CHECK(sized->deflection.value < 0.1);
}

TEST_CASE("the largest load is sized like the smallest thickness") {
    Variable load{"load", "load", Unit::none, 0.01, 100, 1, false};
    // 64/512 at 40 N: 0.125 mm; the limit of 0.1 mm is met at 0.8 of the load
    const auto sized =
        solveForLimitBy(cubicLaw(), fakePart(), load, RouteKind::printed, 0.1, 10, Fidelity::draft, Task());
    REQUIRE(sized);
    CHECK(sized->at == Approx(0.8).epsilon(0.002));
}

TEST_CASE("whole numbers are sized to the smallest that holds") {
    Variable whole = thickness();
    whole.isWhole = true;
    const auto sized =
        solveForLimitBy(cubicLaw(), fakePart(), whole, RouteKind::printed, 1, 40, Fidelity::draft, Task());
    REQUIRE(sized);
    CHECK(sized->at == 9);  // 640^(1/3) = 8.62
}

TEST_CASE("where the deflection jumps over the limit the holding side is returned") {
    const Evaluator step = [](const Part& part, RouteKind kind, Fidelity, const Task&) {
        RouteOutcome o = fakeOutcome(kind);
        o.figures[Question::deflection] =
            Figure::exact(part.shape.dimensions.at("thickness") < 7.3 ? 0.2 : 0.05, Unit::millimetre);
        return o;
    };
    const auto sized =
        solveForLimitBy(step, fakePart(), thickness(), RouteKind::printed, 1, 40, Fidelity::draft, Task());
    REQUIRE(sized);
    CHECK(sized->at == Approx(7.3).epsilon(1e-6));
    CHECK(sized->deflection.value == 0.05);
}

TEST_CASE("ends that cannot be built are passed over; a part that never can is refused with its reason") {
    const Evaluator law = cubicLaw();
    const Evaluator narrow = [&](const Part& part, RouteKind kind, Fidelity f, const Task& t) {
        const double at = part.shape.dimensions.at("thickness");
        if (at < 3 || at > 35) throw InputFault("dimension_conflict", "", "thickness", "does not fit", "change it");
        return law(part, kind, f, t);
    };
    const auto sized =
        solveForLimitBy(narrow, fakePart(), thickness(), RouteKind::printed, 1, 40, Fidelity::draft, Task());
    REQUIRE(sized);
    CHECK(sized->at == Approx(std::cbrt(640.0)).epsilon(0.001));
    CHECK_THROWS_AS(
        solveForLimitBy(narrow, fakePart(), thickness(), RouteKind::printed, 36, 40, Fidelity::draft, Task()),
        InputFault);
}

TEST_CASE("sizing without a limit is refused, a cancelled one ends") {
    Part part = fakePart();
    part.loadCase.deflectionLimit_mm = 0;
    CHECK_THROWS_AS(solveForLimitBy(cubicLaw(), part, thickness(), RouteKind::printed, 1, 40, Fidelity::draft, Task()),
                    InputFault);
    Task task;
    task.cancel();
    CHECK_THROWS_AS(
        solveForLimitBy(cubicLaw(), fakePart(), thickness(), RouteKind::printed, 1, 40, Fidelity::draft, task),
        Cancelled);
}
