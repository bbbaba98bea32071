#include <array>
#include <catch2/catch.hpp>
#include <cmath>

#include "core/energy/energy_balance.h"
#include "core/energy/lumped_heating.h"
#include "core/fault/input_fault.h"

using namespace waybench;

TEST_CASE("A lossless body heats adiabatically, and loss only makes it slower") {
    double before = 0;
    for (double loss : {0.0, 1e-9, 0.1, 1.0, 3.0, 4.9}) {
        const double time = timeToRise_s({400, loss}, 200, 40);
        CHECK(time >= before);
        before = time;
    }
    CHECK(timeToRise_s({400, 0}, 200, 40) == Approx(80));
    CHECK(timeToRise_s({400, 1e-9}, 200, 40) == Approx(80));
    CHECK(timeToRise_s({400, 1}, 200, 0) == 0);
}

TEST_CASE("The lumped heating time satisfies the heat balance, integrated by small steps") {
    const LumpedBody body{402.59, 0.994};
    const double end = timeToRise_s(body, 200, 40);
    double rise = 0;
    const int steps = 20000;
    for (int i = 0; i < steps; ++i) {
        const double dt = end / steps;
        const double half = rise + dt / 2 * (200 - body.loss_W_per_K * rise) / body.capacity_J_per_K;
        rise += dt * (200 - body.loss_W_per_K * half) / body.capacity_J_per_K;
    }
    CHECK(rise == Approx(40).epsilon(1e-6));
}

TEST_CASE("A heater too weak for the temperature is refused with a remedy") {
    try {
        timeToRise_s({400, 5}, 200, 40);
        FAIL("no fault");
    } catch (const InputFault& fault) {
        CHECK(fault.code() == "heater_too_weak");
        CHECK_FALSE(fault.remedy().empty());
    }
    CHECK_THROWS_AS(timeToRise_s({400, 5}, 0, 40), InputFault);
    CHECK_THROWS_AS(timeConstant_s({0, 1}), std::logic_error);
    CHECK(std::isinf(steadyRise_K({400, 0}, 10)));
    CHECK(steadyRise_K({400, 2}, 10) == Approx(5));
}

TEST_CASE("Energy is power by time over efficiency, and bounds only widen") {
    const EnergyPhase hold{"hold", Figure::bounded(88, 80, 100, Unit::watt), Figure::exact(3600, Unit::second),
                           Figure::bounded(0.88, 0.85, 0.90, Unit::none)};
    const Figure energy = energyOf(hold);
    CHECK(energy.value == Approx(100));
    CHECK(energy.unit == Unit::watt_hour);
    CHECK(energy.low < 80 / 0.88);
    CHECK(energy.high > 100 / 0.88);
    const std::array<EnergyPhase, 2> both{hold, hold};
    CHECK(totalEnergy(both).value == Approx(200));
    CHECK(totalEnergy(both).high == Approx(2 * energy.high));
    CHECK(totalEnergy({}).value == 0);
    CHECK(asMegajoule(energy).value == Approx(0.36));
}

TEST_CASE("A phase that may draw nothing at all has energy with a low bound of zero") {
    const EnergyPhase extraction{"extraction", Figure::bounded(100, 0, 300, Unit::watt),
                                 Figure::exact(3600, Unit::second), Figure::exact(1, Unit::none)};
    CHECK(energyOf(extraction).value == Approx(100));
    CHECK(energyOf(extraction).low == Approx(0).margin(1e-9));
    CHECK(energyOf(extraction).high == Approx(300));
}

TEST_CASE("Material and electricity are counted in the same carbon") {
    const Figure carbon = carbonOf(Figure::exact(500, Unit::gram), Figure::exact(11, Unit::none),
                                   Figure::exact(1000, Unit::watt_hour), Figure::exact(0.35, Unit::none));
    CHECK(carbon.value == Approx(5500 + 350));
    CHECK(carbon.unit == Unit::gram);
    CHECK(embodiedEnergy(Figure::exact(500, Unit::gram), Figure::exact(200, Unit::none)).value == Approx(100));
    CHECK_THROWS_AS(embodiedEnergy(Figure::exact(500, Unit::newton), Figure::exact(200, Unit::none)), std::logic_error);
}

TEST_CASE("Slow removal costs more energy per volume") {
    double before = 1e300;
    for (double Q : {0.01, 0.1, 1.0, 10.0}) {
        const double specific = specificEnergy_J_per_mm3(2.4, 0.15, Q);
        CHECK(specific < before);
        CHECK(specific > 2.4);
        before = specific;
    }
    CHECK_THROWS_AS(specificEnergy_J_per_mm3(2.4, 0.15, 0), std::logic_error);
}
