#include <catch2/catch.hpp>
#include <chrono>
#include <thread>

#include "core/comparison/evaluator.h"
#include "tests/comparison/fake_outcome.h"

using namespace waybench;
using namespace waybench::testing;

TEST_CASE("a comparison holds both routes' own answers, ledger and verdict") {
    const Comparison c = compareBy(cubicLaw(), fakePart(), Fidelity::draft, Task());
    CHECK(c.printed.kind == RouteKind::printed);
    CHECK(c.machined.kind == RouteKind::machined);
    CHECK(c.fidelity == Fidelity::draft);
    CHECK(c.part == fakePart());
    CHECK(c.ledger.size() == questions().size());
    CHECK_FALSE(c.verdict.sentence.empty());
}

TEST_CASE("two comparisons of one part give the same bytes") {
    const std::string first = comparisonJson(compareBy(cubicLaw(), fakePart(), Fidelity::standard, Task()));
    for (int i = 0; i < 20; ++i)
        CHECK(comparisonJson(compareBy(cubicLaw(), fakePart(), Fidelity::standard, Task())) == first);
}

TEST_CASE("when both routes are at fault the printed one speaks, whichever came first") {
    for (const RouteKind slow : {RouteKind::printed, RouteKind::machined}) {
        const Evaluator faulty = [&](const Part&, RouteKind kind, Fidelity, const Task&) -> RouteOutcome {
            if (kind == slow) std::this_thread::sleep_for(std::chrono::milliseconds(20));
            throw InputFault(std::string(nameOf(kind)) + "_fault", "", "", "wrong", "mend it");
        };
        try {
            compareBy(faulty, fakePart(), Fidelity::draft, Task());
            FAIL("no fault");
        } catch (const InputFault& fault) {
            CHECK(fault.code() == "printed_fault");
        }
    }
}

TEST_CASE("a cancelled comparison ends as cancelled") {
    Task task;
    task.cancel();
    CHECK_THROWS_AS(compareBy(cubicLaw(), fakePart(), Fidelity::draft, task), Cancelled);
}

TEST_CASE("judging again with other weights changes the verdict without computing the routes") {
    int printedCalls = 0, machinedCalls = 0;
    Part part = fakePart();
    part.shape.dimensions["thickness"] = 20;  // both hold
    Comparison c = compareBy(cubicLaw(64, &printedCalls, &machinedCalls), part, Fidelity::draft, Task());
    c.printed.figures[Question::cost] = Figure::relative(2, 0.1, 0.1, Unit::money);
    c.part.weights = {{"deflection", 0}};
    judge(c);
    CHECK(c.verdict.choice == Choice::printed);
    c.part.weights = {{"deflection", 1}, {"cost", 0}};
    judge(c);
    CHECK(c.verdict.choice == Choice::machined);
    CHECK(printedCalls == 1);
    CHECK(machinedCalls == 1);
}
