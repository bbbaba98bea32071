#include <catch2/catch.hpp>
#include <cmath>
#include <limits>
#include <stdexcept>

#include "core/fault/input_fault.h"
#include "core/quantity/figure.h"

using namespace waybench;

TEST_CASE("a figure never carries NaN or a value outside its bounds", "[quantity]") {
    const double nan = std::numeric_limits<double>::quiet_NaN();
    const double infinity = std::numeric_limits<double>::infinity();
    CHECK_THROWS_AS(Figure::exact(nan, Unit::newton), std::logic_error);
    CHECK_THROWS_AS(Figure::exact(infinity, Unit::newton), std::logic_error);
    CHECK_THROWS_AS(Figure::bounded(1, nan, 2, Unit::newton), std::logic_error);
    CHECK_THROWS_AS(Figure::bounded(1, 2, 3, Unit::newton), std::logic_error);
    CHECK_THROWS_AS(Figure::bounded(4, 2, 3, Unit::newton), std::logic_error);
    CHECK_THROWS_AS(Figure::relative(-1, 0.1, 0.1, Unit::newton), std::logic_error);
    CHECK_THROWS_AS(Figure::relative(1, -0.1, 0.1, Unit::newton), std::logic_error);
    CHECK_THROWS_AS(Figure::exact(1, Unit::newton).times(nan), std::logic_error);
}

TEST_CASE("scaling by a negative factor swaps the bounds", "[quantity]") {
    const Figure f = Figure::bounded(2, 1, 4, Unit::newton).times(-3);
    CHECK(f.value == -6);
    CHECK(f.low == -12);
    CHECK(f.high == -3);
    CHECK(f.unit == Unit::newton);
    const Figure minutes = Figure::bounded(60, 30, 120, Unit::second).in(Unit::hour, 1.0 / 3600);
    CHECK(minutes.unit == Unit::hour);
    CHECK(minutes.high == Approx(1.0 / 30));
}

TEST_CASE("shared causes add bounds, independent ones add in quadrature", "[quantity]") {
    const Figure a = Figure::bounded(10, 7, 13, Unit::second), b = Figure::bounded(20, 16, 24, Unit::second);
    const Figure shared = sumShared({a, b}), independent = sumIndependent({a, b});
    CHECK(shared.value == 30);
    CHECK(shared.low == 23);
    CHECK(shared.high == 37);
    CHECK(independent.low == Approx(25));  // 3-4-5 triangle
    CHECK(independent.high == Approx(35));
    CHECK_THROWS_AS(sumShared({a, Figure::exact(1, Unit::gram)}), std::logic_error);
    CHECK(sumShared({}).value == 0);
}

TEST_CASE("combined standard uncertainty of end gauge terms follows JCGM 100 5.1.2", "[quantity]") {
    // JCGM 100:2008, H.1.3.4 (from memory): u_c = 32 nm from 25, 9.7, 2.9 and 16.6 nm.
    const auto term = [](double u) { return Figure::bounded(0, -u, u, Unit::millimetre); };
    const Figure sum = sumIndependent({term(25), term(9.7), term(2.9), term(16.6)});
    CHECK(sum.high == Approx(32).margin(0.5));
}

TEST_CASE("products and quotients combine relative bounds and stay positive", "[quantity]") {
    const Figure a = Figure::bounded(10, 5, 20, Unit::newton), b = Figure::bounded(3, 3, 3, Unit::millimetre);
    const Figure p = product(a, b, Unit::newton_millimetre);
    CHECK(p.value == 30);
    CHECK(p.low == Approx(15));
    CHECK(p.high == Approx(60));
    const Figure q = quotient(a, a, Unit::none);
    CHECK(q.value == Approx(1));
    CHECK(q.low == Approx(std::exp(-std::sqrt(2) * std::log(2))));
    CHECK(q.high == Approx(std::exp(std::sqrt(2) * std::log(2))));
    CHECK_THROWS_AS(quotient(a, Figure::bounded(1, 0, 2, Unit::none), Unit::none), std::logic_error);
    CHECK_THROWS_AS(product(a, Figure::exact(-1, Unit::none), Unit::none), std::logic_error);
    const Figure none = product(Figure::bounded(0, 0, 1, Unit::none), a, Unit::newton);
    CHECK(none.value == 0);
    CHECK(none.high == 20);
}

TEST_CASE("a difference of independent figures keeps each side's deviation", "[quantity]") {
    const Figure d = difference(Figure::bounded(10, 9, 12, Unit::gram), Figure::bounded(4, 4, 4, Unit::gram));
    CHECK(d.value == 6);
    CHECK(d.low == Approx(5));
    CHECK(d.high == Approx(8));
}

TEST_CASE("widening adds a relative uncertainty in quadrature", "[quantity]") {
    const Figure f = Figure::relative(100, 0.03, 0.04, Unit::second).widened(0.04, 0.03);
    CHECK(f.low == Approx(95));
    CHECK(f.high == Approx(105));
    CHECK(f.relativeBelow() == Approx(0.05));
    CHECK(f.relativeAbove() == Approx(0.05));
}

TEST_CASE("unit symbols read back to their unit", "[quantity]") {
    for (int i = 0; i <= static_cast<int>(Unit::hertz); ++i) {
        const Unit unit = static_cast<Unit>(i);
        CHECK(unitFromSymbol(symbolOf(unit)) == unit);
    }
    CHECK_THROWS_AS(unitFromSymbol("furlong"), InputFault);
}
