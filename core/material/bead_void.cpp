#include "core/material/bead_void.h"

#include <cmath>
#include <numbers>
#include <stdexcept>

namespace waybench {

namespace {

struct Angle {
    double c = 1, s = 0;
};

Angle angleOf(double angle_deg) {
    const double a = angle_deg * std::numbers::pi / 180;
    return {std::cos(a), std::sin(a)};
}

}  // namespace

Lamina laminaWithVoids(double E_MPa, double nu, double voidShare) {
    if (!(E_MPa > 0) || !(voidShare >= 0 && voidShare < 1)) throw std::logic_error("lamina: modulus or void share");
    const double along = 1 - voidShare, across = 1 - std::sqrt(voidShare);
    const double G = E_MPa / (2 * (1 + nu));
    return {along * E_MPa, across * E_MPa, along * nu, G * along * across / (along + across)};
}

double offAxisModulus_MPa(const Lamina& lamina, double angle_deg) {
    const auto [c, s] = angleOf(angle_deg);
    const double c2 = c * c, s2 = s * s;
    return 1 / (c2 * c2 / lamina.E1_MPa + s2 * s2 / lamina.E2_MPa +
                c2 * s2 * (1 / lamina.G12_MPa - 2 * lamina.nu12 / lamina.E1_MPa));
}

double balancedLaminateModulus_MPa(const Lamina& lamina, double angle_deg) {
    const auto [c, s] = angleOf(angle_deg);
    const double c2 = c * c, s2 = s * s;
    const double nu21 = lamina.nu12 * lamina.E2_MPa / lamina.E1_MPa;
    const double q = 1 - lamina.nu12 * nu21;
    const double Q11 = lamina.E1_MPa / q, Q22 = lamina.E2_MPa / q, Q12 = lamina.nu12 * lamina.E2_MPa / q;
    const double Q66 = lamina.G12_MPa;
    const double A11 = Q11 * c2 * c2 + 2 * (Q12 + 2 * Q66) * c2 * s2 + Q22 * s2 * s2;
    const double A22 = Q11 * s2 * s2 + 2 * (Q12 + 2 * Q66) * c2 * s2 + Q22 * c2 * c2;
    const double A12 = (Q11 + Q22 - 4 * Q66) * c2 * s2 + Q12 * (c2 * c2 + s2 * s2);
    return A11 - A12 * A12 / A22;
}

}  // namespace waybench
