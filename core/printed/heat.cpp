#include "core/printed/heat.h"

#include <algorithm>
#include <cmath>
#include <stdexcept>

namespace waybench::printed {
namespace {

constexpr double kPerHour = 1.0 / 3600;
constexpr double kReachable = 0.95;  // share of its highest temperature a bed is asked for at most

}  // namespace

double LumpedBed::heatUp_s(double rise_K) const {
    if (!(capacity_J_per_K > 0) || !(loss_W_per_K > 0) || !(rise_K >= 0) || !(rise_K < 0.98 * highestRise_K()))
        throw std::logic_error("a bed cannot be heated beyond what its power holds");
    return -capacity_J_per_K / loss_W_per_K * std::log(1 - rise_K / highestRise_K());
}

LumpedBed bedOf(const Printer& printer) {
    return {printer.bedHeatCapacity_J_per_K.value, printer.bedLoss_W_per_m2K.value * printer.bedArea_mm2.value * 1e-6,
            printer.bedPower.value};
}

PrintEnergy printEnergy(const Printer& printer, const PrintingMaterial& material, double hot_s, double deposited_g) {
    PrintEnergy energy;
    const LumpedBed bed = bedOf(printer);
    const double efficiency = printer.supplyEfficiency.value;
    const double wanted = std::min(material.bedTemperature.value, printer.maximumBed.value) - kRoom_celsius;
    energy.bedRise_K = std::clamp(wanted, 0.0, kReachable * bed.highestRise_K());
    const double bed_s = bed.heatUp_s(energy.bedRise_K), nozzle_s = printer.nozzleHeatUp.value;
    energy.heatUp_s = bed_s + nozzle_s;
    // the nozzle heats with about three times its holding power (common practice, no source); the bed holds meanwhile
    constexpr double kNozzleHeatingFactor = 3;
    energy.heatUp_Wh = (bed.power_W * bed_s + bed.hold_W(energy.bedRise_K) * nozzle_s +
                        kNozzleHeatingFactor * printer.nozzleHoldPower.value * nozzle_s) /
                       efficiency * kPerHour;
    energy.bed_Wh = bed.hold_W(energy.bedRise_K) * hot_s / efficiency * kPerHour;
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
