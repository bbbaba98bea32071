#pragma once
#include "core/material/stock_material.h"

namespace waybench::machined {

/// Cutting arithmetic of milling and turning. Units: mm, N, W; speeds as the trade writes them (m/min, mm/min, 1/min).
/// Sources as in machined-route.md: S32 Dietrich/Tschaetsch, Praxis der Zerspanungstechnik, 11th ed. 2014; S34 and S41
/// cutting-power formulas of milling catalogues; S36 mean chip thickness; S38 chip thinning. All functions throw
/// std::logic_error on arguments that are not finite or not positive where they must be.

/// n = 1000 vc/(pi D), 1/min (S34).
double spindleSpeed(double cuttingSpeed_m_per_min, double diameter_mm);
/// vc = pi D n/1000, m/min.
double cuttingSpeed(double spindleSpeed_per_min, double diameter_mm);
/// vf = fz z n, mm/min (S34).
double tableFeed(double feedPerTooth_mm, int teeth, double spindleSpeed_per_min);
/// Q = ap ae vf, mm3/min (S34).
double removalRate(double depth_mm, double width_mm, double tableFeed_mm_per_min);

/// Engagement angle of side milling, acos(1 - 2 ae/D), rad; ae beyond D counts as D.
double engagementAngle(double width_mm, double diameter_mm);
/// Mean chip thickness of side milling: 360/(pi phi[deg]) (ae/D) fz sin(kappa) (S32, S36). Never above fz.
double meanChipSide(double feedPerTooth_mm, double width_mm, double diameter_mm, double sineOfLeadAngle = 1);
/// Mean chip thickness of centred face milling: 180 ae fz sin(kappa)/(pi D asin(ae/D)[deg]) (S36).
double meanChipCentred(double feedPerTooth_mm, double width_mm, double diameter_mm, double sineOfLeadAngle = 1);
/// fz sqrt(ae/D): only for ae/D up to about 0.25, where it is 5 % high (S36, S37).
double meanChipThin(double feedPerTooth_mm, double width_mm, double diameter_mm);
/// Largest chip thickness: fz sin(phi) below a quarter turn of engagement, else fz (from memory).
double maximumChip(double feedPerTooth_mm, double width_mm, double diameter_mm);
/// Factor on the feed per tooth that restores the chip at small engagement: (D/2)/sqrt(D ae - ae^2), 1 from D/2 (S38).
double chipThinningFactor(double widthOverDiameter);

/// Kienzle: kc = kc1.1 h^-mc, N/mm2.
double kienzlePressure(double kc11, double mc, double chip_mm);
/// Edge-force model: kc = Ktc + Kte/h, N/mm2 (form and coefficients S35).
double edgePressure(double ktc, double kte, double chip_mm);

/// Factors on kc for a tool that differs from the one the coefficients were taken with (S32).
struct PressureCorrection {
    double rake_deg = 0, baseRake_deg = 0;  ///< -1 % per degree above the base rake
    double compression = 1;                 ///< 1.2 in milling
    double wear = 1;                        ///< 1 sharp, 1.3 used
    double speed = 1;                       ///< 1 carbide, 1.2 HSS
};
double factorOf(const PressureCorrection& correction);

/// Pc = ap ae vf kc/(60e6 eta) in kW, here W (S34, S41).
double cuttingPower(double depth_mm, double width_mm, double tableFeed_mm_per_min, double pressure_N_per_mm2,
                    double efficiency = 1);
/// Torque of a power at a speed, N mm.
double torqueOf(double power_W, double spindleSpeed_per_min);
/// Power = rate x specific energy; mm3/s and J/mm3 give W.
double powerOfRate(double rate_mm3_per_s, double energy_J_per_mm3);
/// Quick rule Pc[kW] = Q[mm3/min]/x (S41: x = 24 000 steel, 30 000 cast iron, 120 000 aluminium), here W.
double quickPower(double rate_mm3_per_min, double divisor);

/// Distance a face mill travels before it is fully in, cutting to one side: D/2 from ae >= D/2, else sqrt(ae (D - ae)).
double approachOneSided(double width_mm, double diameter_mm);
/// The same for a mill centred on a face narrower than itself: (D - sqrt(D^2 - w^2))/2 (Groover, from memory).
double approachCentred(double width_mm, double diameter_mm);
/// The same for slab milling: sqrt(d (D - d)), d = depth of cut.
double approachSlab(double depth_mm, double diameter_mm);

/// Cutting pressure of a stock material at a chip thickness, N/mm2, with the spread between published coefficient sets.
/// With edge coefficients: central = edge model with a used tool (1.3), low = sharp edge model at its low coefficients,
/// high = the larger of Kienzle and central. Without: Kienzle, 1.0 to 1.3 for wear around 1.15. At least 1.4 below
/// and 1.6 above (measured over modelled force of published cuts, S106).
Figure cuttingPressure(const StockMaterial& material, double chip_mm);

}  // namespace waybench::machined
