#pragma once

namespace waybench {

/// Elastic constants of one layer of parallel beads; 1 along, 2 across the beads in the plane. MPa.
struct Lamina {
    double E1_MPa = 0, E2_MPa = 0, nu12 = 0, G12_MPa = 0;
};

/// Lamina of parallel beads with void area share p between them, 0 <= p < 1, from a solid E, nu.
/// Source: Li, Sun, Bellini, Bellehumeur 2002 (from memory).
Lamina laminaWithVoids(double E_MPa, double nu, double voidShare);

/// Young's modulus of a lamina pulled at an angle to its beads (classical laminate theory).
double offAxisModulus_MPa(const Lamina& lamina, double angle_deg);

/// In-plane Young's modulus along x of a balanced laminate of +angle and -angle layers (A matrix of Q-bar; coupling of
/// bending and stretching left out).
double balancedLaminateModulus_MPa(const Lamina& lamina, double angle_deg);

}  // namespace waybench
