#include "core/energy/energy_balance.h"

#include <cmath>
#include <stdexcept>
#include <vector>

namespace waybench {

namespace {

void requireUnit(const Figure& figure, Unit unit, const char* what) {
    if (figure.unit != unit) throw std::logic_error(std::string(what) + " is not in " + std::string(symbolOf(unit)));
}

}  // namespace

Figure energyOf(const EnergyPhase& phase) {
    requireUnit(phase.power, Unit::watt, "power");
    requireUnit(phase.duration, Unit::second, "duration");
    if (!(phase.efficiency.low > 0)) throw std::logic_error("efficiency must be positive: " + phase.name);
    return quotient(product(phase.power, phase.duration, Unit::none), phase.efficiency, Unit::none)
        .in(Unit::watt_hour, 1 / kJoulePerWattHour)
        .named(phase.name);
}

Figure totalEnergy(std::span<const EnergyPhase> phases) {
    std::vector<Figure> terms{Figure::exact(0, Unit::watt_hour)};
    for (const EnergyPhase& phase : phases)
        terms.push_back(energyOf(phase));
    return sumShared(terms);
}

Figure embodiedEnergy(const Figure& mass, const Figure& embodied_MJ_per_kg) {
    requireUnit(mass, Unit::gram, "mass");
    return product(mass, embodied_MJ_per_kg, Unit::none).in(Unit::megajoule, 1e-3);
}

Figure carbonOf(const Figure& mass, const Figure& carbon_kg_per_kg, const Figure& energy,
                const Figure& grid_kg_per_kWh) {
    requireUnit(mass, Unit::gram, "mass");
    requireUnit(energy, Unit::watt_hour, "energy");
    return sumIndependent({product(mass, carbon_kg_per_kg, Unit::gram), product(energy, grid_kg_per_kWh, Unit::gram)});
}

Figure asMegajoule(const Figure& energy_Wh) {
    requireUnit(energy_Wh, Unit::watt_hour, "energy");
    return energy_Wh.in(Unit::megajoule, kJoulePerWattHour / kJoulePerMegajoule);
}

double specificEnergy_J_per_mm3(double constant_J_per_mm3, double basePower_kW, double removal_cm3_s) {
    if (!(removal_cm3_s > 0)) throw std::logic_error("specific energy: removal rate must be positive");
    return constant_J_per_mm3 + basePower_kW / removal_cm3_s;
}

double wattHourPerCm3(double J_per_mm3) {
    return J_per_mm3 * 1000 / kJoulePerWattHour;
}

double joulePerMm3FromHorsepower(double hp_min_per_in3) {
    constexpr double kWattPerHorsepower = 745.6998715822702;  // 550 ft lbf/s
    constexpr double kMm3PerIn3 = 25.4 * 25.4 * 25.4;
    return hp_min_per_in3 * kWattPerHorsepower * 60 / kMm3PerIn3;
}

}  // namespace waybench
