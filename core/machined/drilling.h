#pragma once

namespace waybench::machined {

/// Torque and thrust of a twist drill. D mm, f mm per turn. Torque agrees between rules within a factor 2, thrust
/// within 3.4 (machined-route.md 2.6): thrust is a range, never a number.

/// Kienzle form, derived: h = (f/2) sin(sigma/2), M = kc f D^2/8000 N m, thrust of the lips 0.5 kc (f D/2)
/// sin(sigma/2).
struct DrillLoad {
    double chip_mm = 0, pressure_N_per_mm2 = 0, torque_Nm = 0, thrust_N = 0;
};
DrillLoad drillKienzle(double diameter_mm, double feed_mm, double kc11, double mc, double pointAngle_deg = 118);

/// Toolmaker's empirical form (S46): M = K D^2 (0.630 + 16.84 f)/100 N m, T = 570 K D f^0.85 N,
/// P = K D^2 n (0.647 + 17.29 f) 1e-6 kW. K: aluminium 1.01, low-carbon steel 2.22, free-cutting steel 1.42.
double drillTorqueEmpirical_Nm(double materialConstant, double diameter_mm, double feed_mm);
double drillThrustEmpirical_N(double materialConstant, double diameter_mm, double feed_mm);
double drillPowerEmpirical_W(double materialConstant, double diameter_mm, double feed_mm, double spindleSpeed_per_min);

/// Length of the point: D/2/tan(sigma/2); 0.30 D at 118 degrees.
double pointLength(double diameter_mm, double pointAngle_deg);

}  // namespace waybench::machined
