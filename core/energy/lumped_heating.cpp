#include "core/energy/lumped_heating.h"

#include <cmath>
#include <limits>
#include <stdexcept>

#include "core/fault/input_fault.h"
#include "core/quantity/quantity_text.h"

namespace waybench {

namespace {

void check(const LumpedBody& body) {
    if (!(body.capacity_J_per_K > 0) || !(body.loss_W_per_K >= 0))
        throw std::logic_error("lumped body: capacity > 0, loss >= 0");
}

}  // namespace

LumpedBody heatedPlate(double area_mm2, double thickness_mm, double density_kg_per_m3, double specificHeat_J_per_kgK,
                       double loss_W_per_m2K) {
    const double area_m2 = area_mm2 * 1e-6;
    const LumpedBody body{area_m2 * thickness_mm * 1e-3 * density_kg_per_m3 * specificHeat_J_per_kgK,
                          area_m2 * loss_W_per_m2K};
    check(body);
    return body;
}

double timeConstant_s(const LumpedBody& body) {
    check(body);
    if (body.loss_W_per_K == 0) return std::numeric_limits<double>::infinity();
    return body.capacity_J_per_K / body.loss_W_per_K;
}

double steadyRise_K(const LumpedBody& body, double power_W) {
    check(body);
    if (body.loss_W_per_K == 0) return std::numeric_limits<double>::infinity();
    return power_W / body.loss_W_per_K;
}

double timeToRise_s(const LumpedBody& body, double power_W, double rise_K) {
    check(body);
    if (rise_K <= 0) return 0;
    const double share = body.loss_W_per_K * rise_K / power_W;
    if (!(power_W > 0) || !(share < 1))
        throw InputFault("heater_too_weak", "", "heater",
                         "a heater of " + plainNumber(power_W) + " W never reaches " + plainNumber(rise_K) +
                             " K above the surroundings",
                         "lower the temperature, or enclose or insulate the machine");
    if (share < 1e-12) return body.capacity_J_per_K * rise_K / power_W;
    return -body.capacity_J_per_K / body.loss_W_per_K * std::log1p(-share);
}

double holdPower_W(const LumpedBody& body, double rise_K) {
    check(body);
    return body.loss_W_per_K * rise_K;
}

double meltPower_W(double flow_mm3_s, double density_g_per_cm3, double specificHeat_J_per_gK, double rise_K,
                   double fusionHeat_J_per_g) {
    return flow_mm3_s * density_g_per_cm3 * 1e-3 * (specificHeat_J_per_gK * rise_K + fusionHeat_J_per_g);
}

}  // namespace waybench
