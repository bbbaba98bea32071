#pragma once

namespace waybench::printed {

/// Axial force that strips a screw out of a thread printed or formed in plastic: F = 0.5 tau pi d L
/// (printed-route.md 6, a rule read second-hand, S29; good to a factor of two). Engage at least two diameters.
/// @param shearStrength_MPa of the plastic; @param diameter_mm outer diameter of the thread; @param engaged_mm length
double threadStripForce_N(double shearStrength_MPa, double diameter_mm, double engaged_mm);

/// What of a short-term joint force may act for long (printed-route.md 6, S29 and common practice).
inline constexpr double kSustainedShare = 0.25;

/// Mean pressure under the ring of a screw head or washer, MPa. Precondition: outer > inner >= 0.
double bearingPressure_MPa(double clamp_N, double innerDiameter_mm, double outerDiameter_mm);

}  // namespace waybench::printed
