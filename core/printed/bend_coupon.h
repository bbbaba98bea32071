#pragma once

namespace waybench::printed {

/// Bar on two supports under a force in the middle: the coupon a user bends to calibrate a print's stiffness. N, mm.
struct BendCoupon {
    double span_mm = 64, width_mm = 10, depth_mm = 4;
};

/// Speed of the crosshead for a rate of strain in the outer fibre: R = Z L^2/(6 d), mm/min (ASTM D790, equation for the
/// rate of crosshead motion). @param strainPerMinute 0.01 in procedure A
double crossheadSpeed_mm_per_min(const BendCoupon& coupon, double strainPerMinute = 0.01);

/// Deflection by shear over deflection by bending, rectangular section: 12 kappa E I/(G A L^2) with kappa 1.2 and
/// G = E/(2 (1 + nu)) (Timoshenko's beam).
double shearShare(const BendCoupon& coupon, double poisson, double kappa = 1.2);

}  // namespace waybench::printed
