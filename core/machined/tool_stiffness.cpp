#include "core/machined/tool_stiffness.h"

#include <cmath>
#include <stdexcept>

namespace waybench::machined {
namespace {

constexpr double kPi = 3.14159265358979323846;

void requirePositive(double x) {
    if (!std::isfinite(x) || x <= 0) throw std::logic_error("tool stiffness: dimension or modulus not positive");
}

}  // namespace

double cantileverStiffness(double diameter_mm, double stickOut_mm, double modulus_GPa, double diameterShare) {
    requirePositive(diameter_mm);
    requirePositive(stickOut_mm);
    requirePositive(modulus_GPa);
    requirePositive(diameterShare);
    const double inertia = kPi * std::pow(diameterShare * diameter_mm, 4) / 64;
    return 3 * modulus_GPa * 1000 * inertia / std::pow(stickOut_mm, 3);
}

double tipDeflection(double force_N, double diameter_mm, double stickOut_mm, double modulus_GPa, double diameterShare) {
    return force_N / cantileverStiffness(diameter_mm, stickOut_mm, modulus_GPa, diameterShare);
}

double bendingStress(double force_N, double diameter_mm, double stickOut_mm, double diameterShare) {
    requirePositive(diameter_mm);
    requirePositive(stickOut_mm);
    return 32 * force_N * stickOut_mm / (kPi * std::pow(diameterShare * diameter_mm, 3));
}

double seriesStiffness(double a, double b, double c, double d) {
    double compliance = 0;
    for (const double k : {a, b, c, d})
        if (k > 0) compliance += 1 / k;
    if (compliance <= 0) throw std::logic_error("seriesStiffness: no spring given");
    return 1 / compliance;
}

double stiffnessAtTip(const Tool& tool, const Mill& mill) {
    return seriesStiffness(cantileverStiffness(tool.diameter_mm, tool.stickOut_mm, tool.cutterModulus_GPa.value),
                           1000 * mill.stiffness_N_per_um.value, 1000 * mill.holderStiffness_N_per_um.value);
}

}  // namespace waybench::machined
