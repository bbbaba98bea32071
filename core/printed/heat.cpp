#include "core/printed/heat.h"

#include <algorithm>

namespace waybench::printed {
namespace {

constexpr double kPerHour = 1.0 / 3600;
constexpr double kReachable = 0.95;  // share of its highest temperature a bed is asked for at most

}  // namespace

LumpedBody bedOf(const Printer& printer) {
    return {printer.bedHeatCapacity_J_per_K.value, printer.bedLoss_W_per_m2K.value * printer.bedArea_mm2.value * 1e-6};
}

PrintEnergy printEnergy(const Printer& printer, const PrintingMaterial& material, double hot_s, double deposited_g) {
    PrintEnergy energy;
    const LumpedBody bed = bedOf(printer);
    const double power_W = printer.bedPower.value;
    const double efficiency = printer.supplyEfficiency.value;
    const double wanted = std::min(material.bedTemperature.value, printer.maximumBed.value) - kRoom_celsius;
    energy.bedRise_K = std::clamp(wanted, 0.0, kReachable * steadyRise_K(bed, power_W));
    const double bed_s = timeToRise_s(bed, power_W, energy.bedRise_K), nozzle_s = printer.nozzleHeatUp.value;
    energy.heatUp_s = bed_s + nozzle_s;
    // the nozzle heats with about three times its holding power (common practice, no source); the bed holds meanwhile
    constexpr double kNozzleHeatingFactor = 3;
    energy.heatUp_Wh = (power_W * bed_s + holdPower_W(bed, energy.bedRise_K) * nozzle_s +
                        kNozzleHeatingFactor * printer.nozzleHoldPower.value * nozzle_s) /
                       efficiency * kPerHour;
    energy.bed_Wh = holdPower_W(bed, energy.bedRise_K) * hot_s / efficiency * kPerHour;
    energy.nozzle_Wh = printer.nozzleHoldPower.value * hot_s / efficiency * kPerHour;
    const double rise = material.nozzleTemperature.value - kRoom_celsius;
    energy.melt_Wh = deposited_g * (material.specificHeat_J_per_gK.value * rise + material.fusionHeat_J_per_g.value) /
                     efficiency * kPerHour;
    energy.electronics_Wh = printer.electronicsPower.value * (hot_s + energy.heatUp_s) / efficiency * kPerHour;
    return energy;
}

double regressionEnergy_MJ(double nozzle_celsius, double bed_celsius, double minutes) {
    return std::max(0.0, -0.056 + (7e-6 * nozzle_celsius + 89e-6 * bed_celsius) * minutes);
}

}  // namespace waybench::printed
