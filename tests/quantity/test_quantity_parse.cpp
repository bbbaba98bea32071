#include <catch2/catch.hpp>
#include <cmath>
#include <random>
#include <string>

#include "core/fault/input_fault.h"
#include "core/quantity/quantity_text.h"

using namespace waybench;

namespace {

struct Accepted {
    const char* text;
    Unit unit;
    double value;
};

// Definitions of inch, pound, standard acceleration, bar and psi: NIST SP 811 Appendix B.8, from memory.
const Accepted kAccepted[] = {
    {"2.5", Unit::millimetre, 2.5},
    {"2,5 mm", Unit::millimetre, 2.5},
    {"0,05 mm", Unit::millimetre, 0.05},
    {"0.1 in", Unit::millimetre, 2.54},
    {"1/8 in", Unit::millimetre, 3.175},
    {"1/8\"", Unit::millimetre, 3.175},
    {"1 1/2 in", Unit::millimetre, 38.1},
    {"3-1/2 in", Unit::millimetre, 3 - 12.7},
    {"2 ft 3 in", Unit::millimetre, 685.8},
    {"2ft3in", Unit::millimetre, 685.8},
    {"50 um", Unit::millimetre, 0.05},
    {"50 \u00b5m", Unit::millimetre, 0.05},
    {"1 m", Unit::millimetre, 1000},
    {"1.2 cm", Unit::millimetre, 12},
    {"120-2*6", Unit::millimetre, 108},
    {"120 - 2 * 6", Unit::millimetre, 108},
    {"120\u22122\u00d76", Unit::millimetre, 108},
    {"120 mm - 6", Unit::millimetre, 114},
    {"1 m - 2 cm", Unit::millimetre, 980},
    {"(2+1)*4 mm", Unit::millimetre, 12},
    {"4 mm*(2+1)", Unit::millimetre, 12},
    {"((2))", Unit::millimetre, 2},
    {"10 mm/4", Unit::millimetre, 2.5},
    {"50 % * 20 mm", Unit::millimetre, 10},
    {"1e3", Unit::millimetre, 1000},
    {"1E-3", Unit::millimetre, 0.001},
    {"1,5e+2", Unit::millimetre, 150},
    {"-0", Unit::millimetre, 0},
    {"-3", Unit::millimetre, -3},
    {"+3", Unit::millimetre, 3},
    {"2*-3", Unit::millimetre, -6},
    {".5", Unit::millimetre, 0.5},
    {",5", Unit::millimetre, 0.5},
    {"5.", Unit::millimetre, 5},
    {"1,234", Unit::millimetre, 1.234},
    {"1.234", Unit::millimetre, 1.234},
    {"1,5+2,5", Unit::millimetre, 4},
    {"  7  ", Unit::millimetre, 7},
    {"7\u00a0mm", Unit::millimetre, 7},
    {"5 mm2", Unit::square_millimetre, 5},
    {"5 mm\u00b2", Unit::square_millimetre, 5},
    {"1 cm^2", Unit::square_millimetre, 100},
    {"2 mm * 3 mm", Unit::square_millimetre, 6},
    {"1 cm3", Unit::cubic_millimetre, 1000},
    {"2 kN", Unit::newton, 2000},
    {"25 N", Unit::newton, 25},
    {"25N", Unit::newton, 25},
    {"500 mN", Unit::newton, 0.5},
    {"3 kgf", Unit::newton, 29.41995},
    {"1 lbf", Unit::newton, 4.4482216152605},
    {"5 kg * 9.80665 m/s2", Unit::newton, 49.03325},
    {"3 N m", Unit::newton_millimetre, 3000},
    {"3 Nm", Unit::newton_millimetre, 3000},
    {"3 N*m", Unit::newton_millimetre, 3000},
    {"5 N * 20 mm", Unit::newton_millimetre, 100},
    {"210 GPa", Unit::megapascal, 210000},
    {"5 N/mm2", Unit::megapascal, 5},
    {"10 kN / 200 mm2", Unit::megapascal, 50},
    {"1e6 Pa", Unit::megapascal, 1},
    {"10 bar", Unit::megapascal, 1},
    {"1000 psi", Unit::megapascal, 6.894757293168361},
    {"1 kN/m", Unit::newton_per_millimetre, 1},
    {"40 min", Unit::second, 2400},
    {"1 h 20 min", Unit::second, 4800},
    {"1h20min", Unit::second, 4800},
    {"1h2min", Unit::second, 3720},
    {"-1 h 20 min", Unit::second, -4800},
    {"2 * 1 h 20 min", Unit::second, 9600},
    {"1 h 20 min 30 s", Unit::second, 4830},
    {"2 h - 1 h 20 min", Unit::second, 2400},
    {"90 min", Unit::hour, 1.5},
    {"2 d", Unit::hour, 48},
    {"1.5 kg", Unit::gram, 1500},
    {"250 mg", Unit::gram, 0.25},
    {"1 lb", Unit::gram, 453.59237},
    {"0.5 kW", Unit::watt, 500},
    {"2 kWh", Unit::watt_hour, 2000},
    {"3.6 MJ", Unit::watt_hour, 1000},
    {"3600 J", Unit::watt_hour, 1},
    {"100 W * 2 h", Unit::watt_hour, 200},
    {"1 kWh", Unit::megajoule, 3.6},
    {"23 degC", Unit::celsius, 23},
    {"23 \u00b0C", Unit::celsius, 23},
    {"5 K", Unit::kelvin, 5},
    {"45 deg", Unit::degree, 45},
    {"45\u00b0", Unit::degree, 45},
    {"3,50 EUR", Unit::money, 3.5},
    {"30 ct", Unit::money, 0.3},
    {"30 %", Unit::none, 0.3},
    {"7 %", Unit::none, 0.07},
    {"0.3", Unit::none, 0.3},
    {"10 mm / 4 mm", Unit::none, 2.5},
    {"6 m/min", Unit::millimetre_per_second, 100},
    {"50 mm/s", Unit::millimetre_per_second, 50},
    {"3000 1/min", Unit::revolutions_per_minute, 3000},
    {"3000/min", Unit::revolutions_per_minute, 3000},
    {"3000 rpm", Unit::revolutions_per_minute, 3000},
    {"50 Hz", Unit::revolutions_per_minute, 3000},
};

struct Refused {
    const char* text;
    Unit unit;
    const char* code;
};

const Refused kRefused[] = {
    {"", Unit::millimetre, "quantity_empty"},
    {"   ", Unit::millimetre, "quantity_empty"},
    {"5 kg", Unit::newton, "quantity_wrong_dimension"},
    {"5 N", Unit::millimetre, "quantity_wrong_dimension"},
    {"5 mm + 3 N", Unit::millimetre, "quantity_wrong_dimension"},
    {"5 mm * 3 mm", Unit::millimetre, "quantity_wrong_dimension"},
    {"30 %", Unit::millimetre, "quantity_wrong_dimension"},
    {"10 mm / 2 mm", Unit::millimetre, "quantity_wrong_dimension"},
    {"5 Wh", Unit::newton_millimetre, "quantity_wrong_dimension"},
    {"5 mm", Unit::none, "quantity_wrong_dimension"},
    {"300 K", Unit::celsius, "quantity_wrong_dimension"},
    {"1.234,5", Unit::millimetre, "quantity_ambiguous"},
    {"1,234.5", Unit::millimetre, "quantity_ambiguous"},
    {"1.234.567", Unit::millimetre, "quantity_ambiguous"},
    {"1,234,567", Unit::millimetre, "quantity_ambiguous"},
    {"1..5", Unit::millimetre, "quantity_ambiguous"},
    {"1 234", Unit::millimetre, "quantity_unreadable"},
    {"5 mm 3 mm", Unit::millimetre, "quantity_unreadable"},
    {"5 mm 3", Unit::millimetre, "quantity_unreadable"},
    {"20 min 1 h", Unit::second, "quantity_unreadable"},
    {"5 furlong", Unit::millimetre, "quantity_unreadable"},
    {"5 MM", Unit::millimetre, "quantity_unreadable"},
    {"mm", Unit::millimetre, "quantity_unreadable"},
    {"abc", Unit::millimetre, "quantity_unreadable"},
    {"5+", Unit::millimetre, "quantity_unreadable"},
    {"(5", Unit::millimetre, "quantity_unreadable"},
    {"5)", Unit::millimetre, "quantity_unreadable"},
    {"--5", Unit::millimetre, "quantity_unreadable"},
    {"2(3)", Unit::millimetre, "quantity_unreadable"},
    {"2^3", Unit::millimetre, "quantity_unreadable"},
    {"5 mm^4", Unit::millimetre, "quantity_unreadable"},
    {"0x10", Unit::millimetre, "quantity_unreadable"},
    {"5;", Unit::millimetre, "quantity_unreadable"},
    {"1 3/2 in", Unit::millimetre, "quantity_unreadable"},
    {"nan", Unit::millimetre, "quantity_not_finite"},
    {"inf", Unit::millimetre, "quantity_not_finite"},
    {"1e400", Unit::millimetre, "quantity_not_finite"},
    {"1e300*1e300", Unit::millimetre, "quantity_not_finite"},
    {"1/0", Unit::millimetre, "quantity_not_finite"},
    {"1/(2-2) mm", Unit::millimetre, "quantity_not_finite"},
};

std::string codeOf(std::string_view text, Unit unit) {
    try {
        parseQuantity(text, unit);
    } catch (const InputFault& fault) {
        CHECK_FALSE(fault.problem().empty());
        CHECK_FALSE(fault.remedy().empty());
        return fault.code();
    }
    return "accepted";
}

}  // namespace

TEST_CASE("a field reads numbers, sums and units as a person types them", "[quantity]") {
    for (const Accepted& entry : kAccepted) {
        INFO("'" << entry.text << "' in " << symbolOf(entry.unit));
        double value = -999;
        CHECK_NOTHROW(value = parseQuantity(entry.text, entry.unit));
        CHECK(value == Approx(entry.value).epsilon(1e-14).margin(1e-300));
        CHECK_FALSE(std::signbit(value) != (entry.value < 0));
    }
}

TEST_CASE("a field refuses what it would have to guess, and says why", "[quantity]") {
    for (const Refused& entry : kRefused) {
        INFO("'" << entry.text << "' in " << symbolOf(entry.unit));
        CHECK(codeOf(entry.text, entry.unit) == entry.code);
    }
}

TEST_CASE("a value in the field's own unit is read without rounding", "[quantity]") {
    std::mt19937 random(7);
    std::uniform_real_distribution<double> numbers(-1000, 1000);
    for (const Unit unit : {Unit::millimetre, Unit::watt_hour, Unit::hour, Unit::megajoule, Unit::gram,
                            Unit::revolutions_per_minute, Unit::watt}) {
        for (int i = 0; i < 200; ++i) {
            const double value = numbers(random);
            CHECK(parseQuantity(plainNumber(value) + " " + std::string(symbolOf(unit)), unit) == value);
            CHECK(parseQuantity(plainNumber(value), unit) == value);
        }
    }
}

TEST_CASE("a mass in a force field is told apart in words", "[quantity]") {
    try {
        parseQuantity("5 kg", Unit::newton);
        FAIL("accepted");
    } catch (const InputFault& fault) {
        CHECK(fault.problem().find("a mass") != std::string::npos);
        CHECK(fault.problem().find("a force") != std::string::npos);
        CHECK(fault.remedy().find(" N") != std::string::npos);
    }
}

TEST_CASE("deep nesting and endless texts are refused, not followed", "[quantity]") {
    CHECK(codeOf(std::string(400, '('), Unit::millimetre) == "quantity_unreadable");
    CHECK(codeOf(std::string(100000, '('), Unit::millimetre) == "quantity_unreadable");
    CHECK(codeOf("2*" + std::string(400, '-') + "1", Unit::millimetre) == "quantity_unreadable");
}

TEST_CASE("no text makes a field answer anything but a finite number or a fault", "[quantity]") {
    std::mt19937 random(11);
    const std::string alphabet = "0123456789.,+-*/()^ emNkhinsgJW%\"\xc2\xb0\xb5";
    std::uniform_int_distribution<std::size_t> letters(0, alphabet.size() - 1), lengths(0, 14);
    int accepted = 0;
    for (int i = 0; i < 20000; ++i) {
        std::string text;
        for (std::size_t n = lengths(random); n > 0; --n)
            text += alphabet[letters(random)];
        try {
            const double value = parseQuantity(text, Unit::millimetre);
            ++accepted;
            if (!std::isfinite(value)) FAIL("not finite: " << text);
        } catch (const InputFault&) {
        }
    }
    CHECK(accepted > 100);
}
