#include <catch2/catch.hpp>

#include "core/comparison/judgement.h"
#include "tests/comparison/fake_outcome.h"

using namespace waybench;
using namespace waybench::testing;

namespace {

Requirement deflectionAt(const Figure& figure) {
    RouteOutcome o = fakeOutcome(RouteKind::printed);
    o.figures[Question::deflection] = figure;
    return requirementsOf(o, fakePart()).at(0);
}

}  // namespace

// Guarded acceptance, judgement.md 2.5 (JCGM 106): acceptance by the unfavourable bound, not by the value.
TEST_CASE("a deflection passes only when its upper bound passes") {
    CHECK(deflectionAt(Figure::bounded(0.08, 0.07, 0.1, Unit::millimetre)).standing == Standing::passes);
    CHECK(deflectionAt(Figure::bounded(0.08, 0.07, 0.1001, Unit::millimetre)).standing == Standing::uncertain);
    CHECK(deflectionAt(Figure::bounded(0.11, 0.07, 0.2, Unit::millimetre)).standing == Standing::fails);
}

TEST_CASE("the factor of a requirement is demand over capacity") {
    const Requirement r = deflectionAt(Figure::bounded(0.21, 0.18, 0.26, Unit::millimetre));
    CHECK(r.factor == Approx(2.1));
    CHECK(r.text.find("0.21 mm (0.18 to 0.26)") != std::string::npos);
    CHECK(r.text.find("by a factor of 2.1") != std::string::npos);
}

TEST_CASE("a deflection against the measured direction counts by its size") {
    CHECK(deflectionAt(Figure::bounded(-0.21, -0.26, -0.18, Unit::millimetre)).standing == Standing::fails);
    CHECK(deflectionAt(Figure::bounded(-0.01, -0.02, 0.05, Unit::millimetre)).standing == Standing::passes);
    CHECK(deflectionAt(Figure::bounded(-0.01, -0.12, 0.05, Unit::millimetre)).standing == Standing::uncertain);
}

TEST_CASE("a strength margin passes only when its lower bound passes") {
    RouteOutcome o = fakeOutcome(RouteKind::machined);
    const Part part = fakePart();  // factor 2
    const auto standing = [&](double value, double low) {
        o.figures[Question::strength_margin] = Figure::bounded(value, low, 9, Unit::none);
        return requirementsOf(o, part).at(1).standing;
    };
    CHECK(standing(3, 2) == Standing::passes);
    CHECK(standing(3, 1.9) == Standing::uncertain);
    CHECK(standing(1.9, 1.8) == Standing::fails);
}

TEST_CASE("heat beyond the material's limit fails and says so") {
    RouteOutcome o = fakeOutcome(RouteKind::printed);
    o.figures[Question::temperature_margin] = Figure::bounded(-5, -8, 2, Unit::kelvin);
    const Requirement r = requirementsOf(o, fakePart()).at(2);
    CHECK(r.standing == Standing::fails);
    CHECK(r.factor > 1);
    CHECK(r.text.find("above") != std::string::npos);
}

TEST_CASE("a blocking warning makes a requirement fail, by what it is about") {
    RouteOutcome o = fakeOutcome(RouteKind::machined);
    o.warnings.push_back({"part_too_large", Severity::blocking, "300 mm long, the table takes 200 mm; split it"});
    checkOutcome(o);
    auto all = requirementsOf(o, fakePart());
    CHECK(all.at(3).key == "fits_machine");
    CHECK(all.at(3).standing == Standing::fails);
    CHECK(all.at(4).standing == Standing::passes);

    o.warnings.back() = {"undercut", Severity::blocking, "the channel inside cannot be reached; split the part"};
    checkOutcome(o);
    all = requirementsOf(o, fakePart());
    CHECK(all.at(3).standing == Standing::passes);
    CHECK(all.at(4).standing == Standing::fails);
    CHECK(all.at(4).text.find("channel inside") != std::string::npos);
}

TEST_CASE("a route that is too hot fails the temperature, not its making") {
    RouteOutcome o = fakeOutcome(RouteKind::printed);
    o.warnings.push_back({"temperature_above_service", Severity::blocking, "80 degC in PLA; take another material"});
    checkOutcome(o);
    const auto all = requirementsOf(o, fakePart());
    CHECK(all.at(2).standing == Standing::fails);
    CHECK(all.at(4).standing == Standing::passes);
}
