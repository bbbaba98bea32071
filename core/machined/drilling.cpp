#include "core/machined/drilling.h"

#include <cmath>
#include <stdexcept>

#include "core/machined/cutting_mechanics.h"

namespace waybench::machined {
namespace {

double sineOfHalf(double pointAngle_deg) {
    if (!(pointAngle_deg > 0 && pointAngle_deg <= 180)) throw std::logic_error("drilling: point angle out of (0, 180]");
    return std::sin(pointAngle_deg * 3.14159265358979323846 / 360);
}

}  // namespace

DrillLoad drillKienzle(double diameter_mm, double feed_mm, double kc11, double mc, double pointAngle_deg) {
    DrillLoad load;
    const double sine = sineOfHalf(pointAngle_deg);
    load.chip_mm = 0.5 * feed_mm * sine;
    load.pressure_N_per_mm2 = kienzlePressure(kc11, mc, load.chip_mm);
    load.torque_Nm = load.pressure_N_per_mm2 * feed_mm * diameter_mm * diameter_mm / 8000;
    load.thrust_N = 0.5 * load.pressure_N_per_mm2 * feed_mm * diameter_mm / 2 * sine;
    return load;
}

double drillTorqueEmpirical_Nm(double materialConstant, double diameter_mm, double feed_mm) {
    return materialConstant * diameter_mm * diameter_mm * (0.630 + 16.84 * feed_mm) / 100;
}

double drillThrustEmpirical_N(double materialConstant, double diameter_mm, double feed_mm) {
    return 570 * materialConstant * diameter_mm * std::pow(feed_mm, 0.85);
}

double drillPowerEmpirical_W(double materialConstant, double diameter_mm, double feed_mm, double spindleSpeed_per_min) {
    return materialConstant * diameter_mm * diameter_mm * spindleSpeed_per_min * (0.647 + 17.29 * feed_mm) * 1e-3;
}

double pointLength(double diameter_mm, double pointAngle_deg) {
    const double sine = sineOfHalf(pointAngle_deg);
    return 0.5 * diameter_mm * std::sqrt(1 - sine * sine) / sine;
}

}  // namespace waybench::machined
