#pragma once

namespace waybench {

/// A heated body at one temperature throughout, losing heat in proportion to its rise above the surroundings.
/// C dT/dt = P - hA (T - T_amb), the lumped-capacity model of heat transfer (textbook; Biot number small).
struct LumpedBody {
    double capacity_J_per_K = 0;  ///< > 0
    double loss_W_per_K = 0;      ///< hA, >= 0
};

/// Plate of one material: C = rho V c, hA = h times one face (h counts both faces together).
LumpedBody heatedPlate(double area_mm2, double thickness_mm, double density_kg_per_m3, double specificHeat_J_per_kgK,
                       double loss_W_per_m2K);

double timeConstant_s(const LumpedBody& body);  ///< C/(hA); infinite without loss
/// Rise the heater can hold for ever: P/(hA); infinite without loss.
double steadyRise_K(const LumpedBody& body, double power_W);
/// Time from the surroundings' temperature to a rise at constant power: -tau ln(1 - rise hA/P).
/// @throws InputFault "heater_too_weak" when the steady rise does not exceed the wanted one
double timeToRise_s(const LumpedBody& body, double power_W, double rise_K);
/// Power that holds a rise: hA rise.
double holdPower_W(const LumpedBody& body, double rise_K);

/// Power that melts a flow: Q rho (c dT + dh).
double meltPower_W(double flow_mm3_s, double density_g_per_cm3, double specificHeat_J_per_gK, double rise_K,
                   double fusionHeat_J_per_g = 0);

}  // namespace waybench
