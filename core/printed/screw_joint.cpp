#include "core/printed/screw_joint.h"

#include <stdexcept>

namespace waybench::printed {
namespace {

constexpr double kPi = 3.14159265358979323846;

}  // namespace

double threadStripForce_N(double shearStrength_MPa, double diameter_mm, double engaged_mm) {
    if (!(shearStrength_MPa > 0 && diameter_mm > 0 && engaged_mm >= 0))
        throw std::logic_error("a thread has a strength, a diameter and a length");
    return 0.5 * shearStrength_MPa * kPi * diameter_mm * engaged_mm;
}

double bearingPressure_MPa(double clamp_N, double innerDiameter_mm, double outerDiameter_mm) {
    if (!(outerDiameter_mm > innerDiameter_mm && innerDiameter_mm >= 0))
        throw std::logic_error("the ring under a head is wider outside than inside");
    return clamp_N / (kPi / 4 * (outerDiameter_mm * outerDiameter_mm - innerDiameter_mm * innerDiameter_mm));
}

}  // namespace waybench::printed
