#include <catch2/catch.hpp>

#include "tests/comparison/fake_outcome.h"

using namespace waybench;
using namespace waybench::testing;

namespace {

/// Printed time grows with thickness, machined time is constant: they cross where 450 t = 3600.
Evaluator times() {
    return [](const Part& part, RouteKind kind, Fidelity, const Task&) {
        RouteOutcome o = fakeOutcome(kind);
        const double t = part.shape.dimensions.at("thickness");
        o.figures[Question::elapsed_time] =
            Figure::relative(kind == RouteKind::printed ? 450 * t : 3600, 0.1, 0.1, Unit::second);
        return o;
    };
}

const Crossing* find(const std::vector<Crossing>& all, const std::string& words) {
    for (const Crossing& c : all)
        if (c.text.find(words) != std::string::npos) return &c;
    return nullptr;
}

}  // namespace

TEST_CASE("routes cross where their curves are equal, and the band says how surely") {
    const Sweep s = sweepBy(times(), fakePart(), thickness(), 4, 16, 7, Fidelity::draft, Task());
    const auto all = crossings(s, Question::elapsed_time);
    const Crossing* c = find(all, "machined quicker above 8 mm");
    REQUIRE(c);
    CHECK(c->at == Approx(8).epsilon(1e-9));
    // bands +-10 % on both: 450 t 1.1 = 3600 0.9 and 450 t 0.9 = 3600 1.1
    CHECK(c->low == Approx(8 * 0.9 / 1.1).epsilon(1e-9));
    CHECK(c->high == Approx(8 * 1.1 / 0.9).epsilon(1e-9));
}

TEST_CASE("a cubic stiffness law meets its limit exactly where the closed form does") {
    // 64/t^3 = 0.1 at t = 640^(1/3); the machined part, 27 times stiffer, at a third of it
    const Sweep s = sweepBy(cubicLaw(), fakePart(), thickness(), 2, 16, 5, Fidelity::draft, Task());
    const auto all = crossings(s, Question::deflection);
    const Crossing* printed = find(all, "printed surely holds from 8.9 mm, by its value from 8.62 mm");
    const Crossing* machined = find(all, "machined surely holds from 2.97 mm, by its value from 2.88 mm");
    REQUIRE(printed);
    REQUIRE(machined);
    CHECK(printed->at == Approx(std::cbrt(640.0)).epsilon(1e-9));
    CHECK(machined->at == Approx(std::cbrt(640.0) / 3).epsilon(1e-9));
    CHECK(printed->low == Approx(std::cbrt(576.0)).epsilon(1e-9));
    CHECK(printed->high == Approx(std::cbrt(704.0)).epsilon(1e-9));
    CHECK_FALSE(find(all, "stiffer above"));
}

TEST_CASE("bands of a crossing stay inside the range and around the crossing") {
    for (const double width : {0.01, 0.2, 0.6, 0.9}) {
        const Evaluator wide = [&](const Part& part, RouteKind kind, Fidelity f, const Task& t) {
            RouteOutcome o = times()(part, kind, f, t);
            o.figures[Question::elapsed_time] =
                Figure::relative(o.at(Question::elapsed_time).value, width, width, Unit::second);
            return o;
        };
        const Sweep s = sweepBy(wide, fakePart(), thickness(), 4, 16, 6, Fidelity::draft, Task());
        for (const Crossing& c : crossings(s, Question::elapsed_time)) {
            CHECK(c.low >= 4);
            CHECK(c.low <= c.at);
            CHECK(c.at <= c.high);
            CHECK(c.high <= 16);
        }
    }
}

TEST_CASE("a band that still touches at the range's end says that nothing is sure there") {
    // up to 8.7 mm the upper bound, 704/t^3, has not come under the limit
    const Sweep s = sweepBy(cubicLaw(), fakePart(), thickness(), 4, 8.7, 7, Fidelity::draft, Task());
    const auto all = crossings(s, Question::deflection);
    const Crossing* printed = find(all, "printed holds by its value from 8.62 mm, surely nowhere in this range");
    REQUIRE(printed);
    CHECK(printed->isHighOpen);
    CHECK_FALSE(printed->isLowOpen);
    CHECK(printed->route == RouteKind::printed);
}

TEST_CASE("no crossing is read across a place that could not be built") {
    const Evaluator law = times();
    const Evaluator holed = [&](const Part& part, RouteKind kind, Fidelity f, const Task& t) {
        if (part.shape.dimensions.at("thickness") == 8) throw InputFault("dimension_conflict", "", "", "no", "none");
        return law(part, kind, f, t);
    };
    const Sweep s = sweepBy(holed, fakePart(), thickness(), 4, 16, 4, Fidelity::draft, Task());
    REQUIRE(s.points.size() == 4);
    CHECK_FALSE(s.points[1].valid);
    CHECK(crossings(s, Question::elapsed_time).empty());
}
