#pragma once
#include "core/bench/mill.h"

namespace waybench::machined {

/// Effective diameter of a fluted end mill over its own: "approximately 80 %" (S64: Determination of the equivalent
/// diameter of an end mill based on its compliance; CIRP Annals 1990, Kops and Vo, authors and year from memory).
constexpr double kFlutedDiameterShare = 0.8;

/// k = 3 E I/L^3 with I = pi (share D)^4/64, N/mm. E in GPa.
double cantileverStiffness(double diameter_mm, double stickOut_mm, double modulus_GPa,
                           double diameterShare = kFlutedDiameterShare);
/// F/k, mm.
double tipDeflection(double force_N, double diameter_mm, double stickOut_mm, double modulus_GPa,
                     double diameterShare = kFlutedDiameterShare);
/// Bending stress at the collet, 32 F L/(pi De^3), MPa. Carbide: allow 500 to 800 (common practice, no source).
double bendingStress(double force_N, double diameter_mm, double stickOut_mm,
                     double diameterShare = kFlutedDiameterShare);
/// Springs in series, N/mm; those given as zero count as rigid.
double seriesStiffness(double a, double b, double c = 0, double d = 0);
/// Tool, holder and machine in series at the tip, N/mm: the wall error is the radial finishing force over it.
double stiffnessAtTip(const Tool& tool, const Mill& mill);

}  // namespace waybench::machined
