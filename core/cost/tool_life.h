#pragma once

namespace waybench {

/// Taylor's tool-life equation V T^n = C. V in m/min, T in min; n and C of tool and work (representative teaching
/// values from memory: HSS on mild steel 0.125, 80; uncoated carbide 0.25, 300; coated carbide 0.35, 500). Small
/// cutters break before they wear: for those the life in the tool table counts, not this law.
double taylorLife_min(double speed_m_per_min, double exponent, double constant_m_per_min);
/// Speed that gives a life: C / T^n.
double taylorSpeed_m_per_min(double life_min, double exponent, double constant_m_per_min);

}  // namespace waybench
