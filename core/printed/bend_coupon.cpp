#include "core/printed/bend_coupon.h"

#include <cmath>
#include <stdexcept>

namespace waybench::printed {
namespace {

void check(const BendCoupon& coupon) {
    for (const double size : {coupon.span_mm, coupon.width_mm, coupon.depth_mm})
        if (!std::isfinite(size) || !(size > 0)) throw std::logic_error("a bend coupon has a size in every direction");
}

}  // namespace

double crossheadSpeed_mm_per_min(const BendCoupon& coupon, double strainPerMinute) {
    check(coupon);
    return strainPerMinute * coupon.span_mm * coupon.span_mm / (6 * coupon.depth_mm);
}

double shearShare(const BendCoupon& coupon, double poisson, double kappa) {
    check(coupon);
    const double slenderness = coupon.span_mm / coupon.depth_mm;
    return 12 * kappa * 2 * (1 + poisson) / 12 / (slenderness * slenderness);
}

}  // namespace waybench::printed
