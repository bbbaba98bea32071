#include <array>
#include <catch2/catch.hpp>

#include "core/cost/cost_terms.h"
#include "core/cost/tool_life.h"

using namespace waybench;

namespace {

Figure money(double value) {
    return Figure::exact(value, Unit::money);
}

}  // namespace

TEST_CASE("Each term of a bill is quantity by rate") {
    CHECK(machineCost(Figure::exact(5400, Unit::second), money(3)).value == Approx(4.5));
    CHECK(labourCost(Figure::exact(1800, Unit::second), money(45)).value == Approx(22.5));
    CHECK(materialCost(Figure::exact(250, Unit::gram), money(24)).value == Approx(6));
    CHECK(materialCost(Figure::exact(250, Unit::gram), money(24), 0.25).value == Approx(4.5));
    CHECK(energyCost(Figure::exact(500, Unit::watt_hour), money(0.3)).value == Approx(0.15));
    CHECK(toolWearCost(Figure::exact(1800, Unit::second), Figure::exact(5, Unit::hour), money(10)).value == Approx(1));
}

TEST_CASE("A bound on the rate is a bound on the cost") {
    const Figure cost =
        labourCost(Figure::exact(3600, Unit::second), Figure::bounded(45, 30, 70, Unit::money, Origin::typed));
    CHECK(cost.low == Approx(30));
    CHECK(cost.high == Approx(70));
    CHECK(cost.unit == Unit::money);
}

TEST_CASE("Scrap raises the cost of the good parts") {
    CHECK(withScrap(money(90), Figure::exact(0.1, Unit::none)).value == Approx(100));
    CHECK(withScrap(money(90), Figure::exact(0, Unit::none)).value == Approx(90));
    const Figure cost = withScrap(money(90), Figure::bounded(0.1, 0.05, 0.2, Unit::none));
    CHECK(cost.low == Approx(90 / 0.95));
    CHECK(cost.high == Approx(90 / 0.8));
    CHECK_THROWS_AS(withScrap(money(90), Figure::bounded(0.5, 0.1, 1.0, Unit::none)), std::logic_error);
}

TEST_CASE("A bill is the sum of its terms, with bounds inside those of the terms taken together") {
    const std::array<CostTerm, 3> terms{{{"material", Figure::bounded(6, 4, 9, Unit::money)},
                                         {"machine", money(4.5)},
                                         {"labour", Figure::bounded(20, 14, 32, Unit::money)}}};
    const Figure bill = totalCost(terms);
    CHECK(bill.value == Approx(30.5));
    CHECK(bill.low >= 4 + 4.5 + 14);
    CHECK(bill.high <= 9 + 4.5 + 32);
    CHECK(bill.note == "sum of material, machine, labour");
    CHECK(totalCost({}).value == 0);
    const std::array<CostTerm, 1> wrong{{{"power", Figure::exact(1, Unit::watt)}}};
    CHECK_THROWS_AS(totalCost(wrong), std::logic_error);
}

TEST_CASE("A watched machine binds its keeper for the whole run") {
    const Figure attended = attendedTime(Figure::exact(600, Unit::second), Figure::exact(3000, Unit::second),
                                         Figure::bounded(1, 0.5, 1, Unit::none));
    CHECK(attended.value == Approx(3600));
    CHECK(attended.low == Approx(2100));
}

TEST_CASE("Faster cutting shortens the life of the tool, and the speed for a life gives that life") {
    double before = 1e300;
    for (double speed : {50.0, 100.0, 200.0, 400.0}) {
        const double life = taylorLife_min(speed, 0.25, 300);
        CHECK(life < before);
        CHECK(taylorSpeed_m_per_min(life, 0.25, 300) == Approx(speed));
        before = life;
    }
    CHECK(taylorLife_min(300, 0.25, 300) == Approx(1));
    CHECK_THROWS_AS(taylorLife_min(0, 0.25, 300), std::logic_error);
}
