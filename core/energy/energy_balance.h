#pragma once
#include <span>
#include <string>

#include "core/quantity/figure.h"

namespace waybench {

inline constexpr double kJoulePerWattHour = 3600;
inline constexpr double kJoulePerMegajoule = 1e6;

/// Electrical energy drawn by one consumer while the part is made.
struct EnergyPhase {
    std::string name;   ///< "bed hold"
    Figure power;       ///< W, at the consumer
    Figure duration;    ///< s
    Figure efficiency;  ///< -, of the supply; 0 < low
};

/// Power x time / efficiency, Wh; the three independent.
Figure energyOf(const EnergyPhase& phase);
/// Sum over phases. They run off one clock and one machine, so their bounds add (shared causes).
Figure totalEnergy(std::span<const EnergyPhase> phases);

/// Energy in the material: mass x embodied energy. @param mass g; @param embodied MJ/kg. @return MJ
Figure embodiedEnergy(const Figure& mass, const Figure& embodied_MJ_per_kg);
/// Carbon of material and electricity, g of CO2 equivalent (Unit::gram); the two independent.
/// @param mass g; @param carbon kg/kg; @param energy Wh; @param grid kg/kWh
Figure carbonOf(const Figure& mass, const Figure& carbon_kg_per_kg, const Figure& energy,
                const Figure& grid_kg_per_kWh);
/// Electricity at the socket as MJ (1 Wh = 3600 J).
Figure asMegajoule(const Figure& energy_Wh);

/// Specific energy of removal, J/mm3 = kJ/cm3: C0 + C1/Q, Q in cm3/s (form: Kara and Li 2011, from memory).
double specificEnergy_J_per_mm3(double constant_J_per_mm3, double basePower_kW, double removal_cm3_s);
double wattHourPerCm3(double J_per_mm3);                  ///< 1 J/mm3 = 0.2778 Wh/cm3
double joulePerMm3FromHorsepower(double hp_min_per_in3);  ///< 1 hp min/in3 = 2.731 J/mm3

}  // namespace waybench
