#pragma once
#include "core/bench/printer.h"
#include "core/energy/lumped_heating.h"
#include "core/material/printing_material.h"

namespace waybench::printed {

/// Room the printer stands in, degC (assumed).
inline constexpr double kRoom_celsius = 22;

/// The printer's bed as one heated body (core/energy/lumped_heating.h).
LumpedBody bedOf(const Printer& printer);

/// Energy of one print by phase, watt-hours at the mains.
struct PrintEnergy {
    double heatUp_Wh = 0;       ///< bed and nozzle to temperature
    double bed_Wh = 0;          ///< holding the bed
    double nozzle_Wh = 0;       ///< holding the nozzle
    double melt_Wh = 0;         ///< melting the filament
    double electronics_Wh = 0;  ///< boards, fans, motors, heat-up included
    double heatUp_s = 0;        ///< bed, then nozzle
    double bedRise_K = 0;       ///< what the bed is held at: less than asked where its heater is too weak
    double total_Wh() const { return heatUp_Wh + bed_Wh + nozzle_Wh + melt_Wh + electronics_Wh; }
};
/// E = E_heat + t (P_bed + P_nozzle + P_melt + P_electronics)/eta (printed-route.md 4.2). @param hot_s time at
/// temperature: layers and homing; @param deposited_g polymer melted, from the room to the nozzle's temperature.
PrintEnergy printEnergy(const Printer& printer, const PrintingMaterial& material, double hot_s, double deposited_g);

/// A published regression over desktop printers, for comparison only: E[MJ] = -0.056 + 7e-6 T_nozzle t + 89e-6 T_bed t
/// with t in minutes (Hopkins et al. 2021, read second-hand; printed-route.md S49). Never below 0.
double regressionEnergy_MJ(double nozzle_celsius, double bed_celsius, double minutes);

}  // namespace waybench::printed
