#include <unistd.h>
#include <array>

#include <catch2/catch.hpp>
#include <cmath>
#include <filesystem>
#include <fstream>
#include <limits>

#include "core/accuracy/accuracy_budget.h"
#include "core/accuracy/iso2768.h"
#include "core/accuracy/iso286.h"
#include "core/accuracy/roughness.h"
#include "core/fault/input_fault.h"

using namespace waybench;

namespace {

const std::filesystem::path kStandards = std::filesystem::path(WAYBENCH_SOURCE) / "resources/standards";

Figure mm(double value, double low, double high) {
    return Figure::bounded(value, low, high, Unit::millimetre);
}

}  // namespace

TEST_CASE("Tolerances never shrink with size or grade") {
    const Iso286 iso = Iso286::read(kStandards / "iso286.json");
    for (int grade = iso.finestGrade(); grade <= iso.coarsestGrade(); ++grade) {
        double before = 0;
        for (double size = 0.5; size <= 500; size += 0.5) {
            const double tolerance = iso.tolerance_mm(grade, size);
            CHECK(tolerance >= before);
            if (grade > iso.finestGrade()) CHECK(tolerance > iso.tolerance_mm(grade - 1, size));
            before = tolerance;
        }
    }
}

TEST_CASE("The grade of a band is the finest that holds it") {
    const Iso286 iso = Iso286::read(kStandards / "iso286.json");
    CHECK(iso.gradeOfBand(2 * 0.2, 50).value() == 14);  // +-0.2 mm at 50 mm: 0.4 mm lies just over IT13, 0.39
    CHECK(iso.gradeOfBand(2 * 0.195, 50).value() == 13);
    CHECK(iso.gradeOfBand(2 * 0.5, 50).value() == 15);
    CHECK(iso.gradeOfBand(0, 50).value() == 5);
    CHECK_FALSE(iso.gradeOfBand(100, 50).has_value());
    for (double size : {2.0, 10.0, 30.0, 120.0, 400.0})
        for (int grade = 5; grade <= 18; ++grade)
            CHECK(iso.gradeOfBand(iso.tolerance_mm(grade, size), size).value() == grade);
}

TEST_CASE("Sizes and grades the standard does not have are refused") {
    const Iso286 iso = Iso286::read(kStandards / "iso286.json");
    const double nan = std::nan("");
    for (double size : {0.0, -1.0, 500.001, nan, std::numeric_limits<double>::infinity()})
        CHECK_THROWS_AS(iso.tolerance_mm(7, size), InputFault);
    CHECK_THROWS_AS(iso.tolerance_mm(3, 25), InputFault);
    CHECK_THROWS_AS(iso.tolerance_mm(19, 25), InputFault);
}

TEST_CASE("General tolerances widen from f to v, and end where the standard ends") {
    const Iso2768 iso = Iso2768::read(kStandards / "iso2768.json");
    for (double size = 0.5; size <= 4000; size *= 1.07) {
        double before = 0;
        for (LinearClass c : {LinearClass::f, LinearClass::m, LinearClass::c, LinearClass::v}) {
            const auto deviation = iso.linearDeviation_mm(c, size);
            if (!deviation) continue;
            CHECK(*deviation >= before);
            before = *deviation;
        }
    }
    CHECK(iso.linearDeviation_mm(LinearClass::m, 0.5).value() == 0.1);
    CHECK_FALSE(iso.linearDeviation_mm(LinearClass::m, 0.49).has_value());
    CHECK_FALSE(iso.linearDeviation_mm(LinearClass::m, 4001).has_value());
    CHECK_FALSE(iso.linearDeviation_mm(LinearClass::f, 2500).has_value());
    CHECK_FALSE(iso.linearDeviation_mm(LinearClass::m, std::nan("")).has_value());
    CHECK_FALSE(iso.flatness_mm(FlatnessClass::H, 3001).has_value());
}

TEST_CASE("The class of a deviation is the finest that permits it") {
    const Iso2768 iso = Iso2768::read(kStandards / "iso2768.json");
    CHECK(iso.classOfDeviation(0.1, 25).value() == LinearClass::f);
    CHECK(iso.classOfDeviation(0.11, 25).value() == LinearClass::m);
    CHECK(iso.classOfDeviation(0.9, 25).value() == LinearClass::v);
    CHECK_FALSE(iso.classOfDeviation(1.1, 25).has_value());
}

TEST_CASE("A spoilt standards table is refused, never guessed") {
    const std::filesystem::path file =
        std::filesystem::path(WAYBENCH_BUILD) / ("spoilt_standard_" + std::to_string(::getpid()) + ".json");
    for (const char* text : {"", "[]", "{}", "{\"size_steps\": [0]}", "{\"size_steps\": [0, 3, 2], \"grades\": []}",
                             "{\"size_steps\": [0, 3], \"grades\": [{\"grade\": 5, \"tolerances\": [4, 5]}]}",
                             "{\"size_steps\": [0, 3], \"grades\": [{\"grade\": 5, \"tolerances\": [-4]}]}",
                             "{\"linear\": 1, \"flatness\": 2}"}) {
        INFO(text);
        std::ofstream(file) << text;
        CHECK_THROWS_AS(Iso286::read(file), InputFault);
        CHECK_THROWS_AS(Iso2768::read(file), InputFault);
    }
    std::filesystem::remove(file);
    CHECK_THROWS_AS(Iso286::read(file), InputFault);
}

TEST_CASE("A stepover found for a ridge gives back that ridge") {
    for (double height : {0.0001, 0.002, 0.01, 0.5, 3.0})
        CHECK(scallopHeight_mm(3, stepoverForScallop_mm(3, height)) == Approx(height));
    CHECK(scallopHeight_mm(3, 0.3) == Approx(0.3 * 0.3 / (8 * 3)).epsilon(1e-3));  // s^2/(8R) for small steps
    CHECK(sideFeedMark_mm(0.03, 3) == Approx(7.5e-5));
    CHECK(stairRz_mm(0.2, 90) == Approx(0).margin(1e-12));
    CHECK(stairRz_mm(0.2, 0) == Approx(0.2));
}

TEST_CASE("A budget adds in quadrature, and its note names the largest cause first") {
    const std::array<AccuracyTerm, 2> terms{{{"runout", mm(0.03, 0.01, 0.04)}, {"backlash", mm(0.04, 0.02, 0.05)}}};
    const Figure total = rootSumSquare(terms);
    CHECK(total.value == Approx(0.05));
    CHECK(total.low == Approx(std::hypot(0.01, 0.02)));
    CHECK(total.high == Approx(std::hypot(0.04, 0.05)));
    CHECK(total.note == "root sum square of backlash 0.04, runout 0.03");
    CHECK(rootSumSquare({}).value == 0);
    const std::array<AccuracyTerm, 1> wrong{{{"power", Figure::exact(1, Unit::watt)}}};
    CHECK_THROWS_AS(rootSumSquare(wrong), std::logic_error);
}

TEST_CASE("Cooling shrinks and squareness grows with length") {
    const Figure shrunk = thermalGrowth(Figure::bounded(24e-6, 23e-6, 25e-6, Unit::none), 100, -10);
    CHECK(shrunk.value == Approx(-0.024));
    CHECK(shrunk.low == Approx(-0.025));
    CHECK(shrunk.high == Approx(-0.023));
    CHECK(squarenessDeviation(Figure::exact(0.3, Unit::none), 100).value == Approx(0.03));
}
