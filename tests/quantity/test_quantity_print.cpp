#include <catch2/catch.hpp>
#include <charconv>
#include <clocale>
#include <cmath>
#include <random>

#include "core/quantity/quantity_text.h"

using namespace waybench;

namespace {

std::string digits(double value, double below, double above) {
    const RoundedFigure r = roundByBand(Figure::bounded(value, value - below, value + above, Unit::millimetre));
    return r.value + " (" + r.low + " to " + r.high + ")";
}

}  // namespace

TEST_CASE("the band decides the digits", "[quantity]") {
    CHECK(digits(12.3456, 0.4, 0.4) == "12.3 (11.9 to 12.7)");
    CHECK(digits(12.3456, 0.18, 0.18) == "12.35 (12.17 to 12.53)");
    CHECK(digits(12.3456, 0.24, 0.1) == "12.35 (12.11 to 12.45)");
    CHECK(digits(12.3456, 0.1, 0.25) == "12.3 (12.2 to 12.6)");
    CHECK(digits(0.21, 0.03, 0.05) == "0.21 (0.18 to 0.26)");
    CHECK(digits(12345, 400, 400) == "12300 (11900 to 12700)");
    CHECK(digits(0, 0.4, 0.4) == "0.0 (-0.4 to 0.4)");
    CHECK(digits(-0.01, 0.4, 0.4) == "0.0 (-0.4 to 0.4)");
    CHECK(digits(9.99, 0.0996, 0.0996) == "9.99 (9.89 to 10.09)");  // 0.0996 rounds to 0.10: two digits
}

TEST_CASE("a band far wider than the value does not hide a value that is surely not zero", "[quantity]") {
    CHECK(digits(0.2, 0.1, 99.8) == "0.2 (0.1 to 100.0)");
}

TEST_CASE("exact figures get at most six significant digits", "[quantity]") {
    CHECK(roundByBand(Figure::exact(12.3456789, Unit::millimetre)).value == "12.3457");
    CHECK(roundByBand(Figure::exact(3, Unit::millimetre)).value == "3");
    CHECK(roundByBand(Figure::exact(0, Unit::millimetre)).value == "0");
    CHECK(roundByBand(Figure::exact(0.05, Unit::millimetre)).value == "0.05");
    CHECK(roundByBand(Figure::exact(1234567, Unit::millimetre)).value == "1234570");
    CHECK(roundByBand(Figure::exact(-0.000125, Unit::millimetre)).value == "-0.000125");
}

TEST_CASE("figures are described with unit, band and time in readable units", "[quantity]") {
    CHECK(describe(Figure::bounded(0.21, 0.18, 0.26, Unit::millimetre)) == "0.21 mm (0.18 to 0.26)");
    CHECK(describeValue(Figure::bounded(0.21, 0.18, 0.26, Unit::millimetre)) == "0.21 mm");
    CHECK(describe(Figure::exact(2400, Unit::second)) == "40 min");
    CHECK(describe(Figure::bounded(9000, 7920, 10800, Unit::second)) == "2.5 h (2.2 to 3.0)");
    CHECK(describe(Figure::exact(25, Unit::second)) == "25 s");
    CHECK(describe(Figure::exact(2.5, Unit::none)) == "2.5");
    CHECK(describe(Figure::exact(45, Unit::degree)) == "45\u00b0");
    CHECK(describe(Figure::exact(23, Unit::celsius)) == "23 \u00b0C");
    CHECK(describe(Figure::exact(12000, Unit::gram)) == "12 kg");
}

TEST_CASE("what describe prints, a field reads back within the band", "[quantity]") {
    std::mt19937 random(3);
    std::uniform_real_distribution<double> exponents(-3, 5), bands(0.001, 0.5);
    for (int i = 0; i < 2000; ++i) {
        const double value = std::pow(10.0, exponents(random));
        for (const Unit unit : {Unit::millimetre, Unit::second, Unit::gram, Unit::watt_hour, Unit::newton}) {
            const Figure f = Figure::relative(value, bands(random), bands(random), unit);
            const double half = 0.51 * std::max(f.high - f.value, f.value - f.low);
            CHECK(std::abs(parseQuantity(describeValue(f), unit) - value) <= half);
        }
    }
}

TEST_CASE("plain numbers read back exactly and do not know the locale", "[quantity]") {
    std::mt19937 random(5);
    std::uniform_real_distribution<double> exponents(-300, 300);
    std::setlocale(LC_ALL, "de_DE.UTF-8");
    CHECK(plainNumber(0.5) == "0.5");
    CHECK(plainNumber(-0.0) == "0");
    CHECK(describeValue(Figure::bounded(1.5, 1.4, 1.6, Unit::millimetre)) == "1.50 mm");
    CHECK(parseQuantity("1,5", Unit::millimetre) == 1.5);
    CHECK(parseQuantity("1.5", Unit::millimetre) == 1.5);
    for (int i = 0; i < 1000; ++i) {
        const double value = std::pow(10.0, exponents(random));
        const std::string text = plainNumber(value);
        double back = 0;
        std::from_chars(text.data(), text.data() + text.size(), back);
        CHECK(back == value);
    }
    std::setlocale(LC_ALL, "C");
}

TEST_CASE("a figure judged against a limit shows on which side of it the value and its bounds stand") {
    const auto text = [](double value, double low, double high, double limit) {
        const RoundedFigure r = roundByBand(Figure::bounded(value, low, high, Unit::millimetre), limit);
        return r.value + " " + r.low + " " + r.high;
    };
    CHECK(text(3, 1.96, 6, 2) == "3.00 1.96 6.00");
    CHECK(text(0.2499, 0.2, 0.3, 0.25) == "0.2499 0.2000 0.3000");
    CHECK(text(0.21, 0.18, 0.26, 0.25) == "0.21 0.18 0.26");
    CHECK(text(0.25, 0.2, 0.3, 0.25) == "0.25 0.20 0.30");  // on the limit itself
    CHECK(describe(Figure::bounded(0.247, 0.2, 0.3, Unit::millimetre), 0.25) == "0.247 mm (0.200 to 0.300)");
}
