#include "core/machined/cutting_mechanics.h"

#include <algorithm>
#include <cmath>
#include <stdexcept>

namespace waybench::machined {
namespace {

constexpr double kPi = 3.14159265358979323846;
// At least: what was measured lies 0.91 to 1.59 times what models fitted to their own tool said (S106,
// machined-route.md 10 and case 34).
constexpr double kLeastAbove = 1.6, kLeastBelow = 1.4;
constexpr double kUsedToolFactor = 1.3;

void requirePositive(double x, const char* what) {
    if (!std::isfinite(x) || x <= 0) throw std::logic_error(std::string("cutting mechanics: not positive: ") + what);
}

double ratioOf(double width_mm, double diameter_mm) {
    requirePositive(width_mm, "width of cut");
    requirePositive(diameter_mm, "diameter");
    return std::min(1.0, width_mm / diameter_mm);
}

}  // namespace

double spindleSpeed(double cuttingSpeed_m_per_min, double diameter_mm) {
    requirePositive(cuttingSpeed_m_per_min, "cutting speed");
    requirePositive(diameter_mm, "diameter");
    return 1000 * cuttingSpeed_m_per_min / (kPi * diameter_mm);
}

double cuttingSpeed(double spindleSpeed_per_min, double diameter_mm) {
    requirePositive(spindleSpeed_per_min, "spindle speed");
    requirePositive(diameter_mm, "diameter");
    return kPi * diameter_mm * spindleSpeed_per_min / 1000;
}

double tableFeed(double feedPerTooth_mm, int teeth, double spindleSpeed_per_min) {
    requirePositive(feedPerTooth_mm, "feed per tooth");
    requirePositive(teeth, "teeth");
    requirePositive(spindleSpeed_per_min, "spindle speed");
    return feedPerTooth_mm * teeth * spindleSpeed_per_min;
}

double removalRate(double depth_mm, double width_mm, double tableFeed_mm_per_min) {
    return depth_mm * width_mm * tableFeed_mm_per_min;
}

double engagementAngle(double width_mm, double diameter_mm) {
    return std::acos(1 - 2 * ratioOf(width_mm, diameter_mm));
}

double meanChipSide(double feedPerTooth_mm, double width_mm, double diameter_mm, double sineOfLeadAngle) {
    requirePositive(feedPerTooth_mm, "feed per tooth");
    const double phi_deg = engagementAngle(width_mm, diameter_mm) * 180 / kPi;
    return 360 / (kPi * phi_deg) * ratioOf(width_mm, diameter_mm) * feedPerTooth_mm * sineOfLeadAngle;
}

double meanChipCentred(double feedPerTooth_mm, double width_mm, double diameter_mm, double sineOfLeadAngle) {
    requirePositive(feedPerTooth_mm, "feed per tooth");
    const double ratio = ratioOf(width_mm, diameter_mm);
    return ratio * feedPerTooth_mm * sineOfLeadAngle / std::asin(ratio);
}

double meanChipThin(double feedPerTooth_mm, double width_mm, double diameter_mm) {
    requirePositive(feedPerTooth_mm, "feed per tooth");
    return feedPerTooth_mm * std::sqrt(ratioOf(width_mm, diameter_mm));
}

double maximumChip(double feedPerTooth_mm, double width_mm, double diameter_mm) {
    requirePositive(feedPerTooth_mm, "feed per tooth");
    const double phi = engagementAngle(width_mm, diameter_mm);
    return phi < kPi / 2 ? feedPerTooth_mm * std::sin(phi) : feedPerTooth_mm;
}

double chipThinningFactor(double widthOverDiameter) {
    requirePositive(widthOverDiameter, "width over diameter");
    if (widthOverDiameter >= 0.5) return 1;
    return 0.5 / std::sqrt(widthOverDiameter * (1 - widthOverDiameter));
}

double kienzlePressure(double kc11, double mc, double chip_mm) {
    requirePositive(chip_mm, "chip thickness");
    return kc11 * std::pow(chip_mm, -mc);
}

double edgePressure(double ktc, double kte, double chip_mm) {
    requirePositive(chip_mm, "chip thickness");
    return ktc + kte / chip_mm;
}

double factorOf(const PressureCorrection& correction) {
    return (1 - (correction.rake_deg - correction.baseRake_deg) / 100) * correction.compression * correction.wear *
           correction.speed;
}

double cuttingPower(double depth_mm, double width_mm, double tableFeed_mm_per_min, double pressure_N_per_mm2,
                    double efficiency) {
    requirePositive(efficiency, "efficiency");
    return depth_mm * width_mm * tableFeed_mm_per_min * pressure_N_per_mm2 / (60e3 * efficiency);
}

double torqueOf(double power_W, double spindleSpeed_per_min) {
    requirePositive(spindleSpeed_per_min, "spindle speed");
    return 1000 * power_W * 60 / (2 * kPi * spindleSpeed_per_min);
}

double powerOfRate(double rate_mm3_per_s, double energy_J_per_mm3) {
    return rate_mm3_per_s * energy_J_per_mm3;
}

double quickPower(double rate_mm3_per_min, double divisor) {
    requirePositive(divisor, "divisor");
    return 1000 * rate_mm3_per_min / divisor;
}

double approachOneSided(double width_mm, double diameter_mm) {
    const double ratio = ratioOf(width_mm, diameter_mm);
    return ratio >= 0.5 ? diameter_mm / 2 : diameter_mm * std::sqrt(ratio * (1 - ratio));
}

double approachCentred(double width_mm, double diameter_mm) {
    const double w = ratioOf(width_mm, diameter_mm) * diameter_mm;
    return 0.5 * (diameter_mm - std::sqrt(diameter_mm * diameter_mm - w * w));
}

double approachSlab(double depth_mm, double diameter_mm) {
    const double d = ratioOf(depth_mm, diameter_mm) * diameter_mm;
    return std::sqrt(d * (diameter_mm - d));
}

Figure cuttingPressure(const StockMaterial& material, double chip_mm) {
    const double kienzle = kienzlePressure(material.kc11.value, material.mc.value, chip_mm);
    const auto bounded = [](double central, double low, double high, const char* how) {
        return Figure::bounded(central, std::min(low, central / kLeastBelow), std::max(high, central * kLeastAbove),
                               Unit::megapascal, Origin::computed, how);
    };
    if (material.edgeKtc && material.edgeKte) {
        const double central =
            kUsedToolFactor * edgePressure(material.edgeKtc->value, material.edgeKte->value, chip_mm);
        return bounded(central, edgePressure(material.edgeKtc->low, material.edgeKte->low, chip_mm), kienzle,
                       "edge-force model, tool in use (x 1.3); high end Kienzle");
    }
    const double low = kienzlePressure(material.kc11.low, material.mc.value, chip_mm);
    const double high = kUsedToolFactor * kienzlePressure(material.kc11.high, material.mc.value, chip_mm);
    return bounded(1.15 * kienzle, low, high, "Kienzle, wear factor 1.0 to 1.3");
}

}  // namespace waybench::machined
