#pragma once
#include <string>
#include <vector>

#include "core/loadcase/load_case.h"
#include "core/structure/problem.h"

namespace waybench::statics {

/// The load case's holds as supports in solver axes. The solid of the body and the load case must outlive them.
///
/// fixed: rigid in all directions. sliding: rigid along the normal of the true surface, free across it. bolted: the
/// bore's wall as sliding (a fitted screw; the shank itself is rigid), and the ring under the head, and at the other
/// end of the bore, on a bedding.
/// A facet that several holds take in the same way is held once: by the fixed ones, else by the first.
/// @param boltsAreRigid rings are clamped instead: the stiff bound of what a seat can be
std::vector<Support> supportsOf(const Body& body, const BoundLoadCase& loads, const Mat3& rotation,
                                bool boltsAreRigid = false);

/// What to doubt about the seats of bolts: a head that reaches past the flat face it presses on.
std::vector<std::string> seatCautions(const Solid& solid, const BoundLoadCase& loads);

bool hasBolts(const BoundLoadCase& loads);

/// Stiffness per area of the seat of a bolt, N/mm3: that of the clamped plate, half the grip to either side, spread
/// evenly over the ring. Seat and plate are thus taken to give alike (common practice, no source).
/// Source of the plate's stiffness: cone of 30 degrees, k = 0.5774 pi E d / ln[(1.155 t + D - d)(D + d) /
/// ((1.155 t + D + d)(D - d))], Budynas and Nisbett, Shigley's Mechanical Engineering Design, chapter 8.
double boltBedding_N_per_mm3(double modulus_MPa, double grip_mm, double boreDiameter_mm, double headDiameter_mm);

/// Tangential over normal stiffness of a contact that sticks: 2 (1 - nu)/(2 - nu), 0.89 to 0.71 for nu = 0.2 to 0.45.
/// Source: R. D. Mindlin, Compliance of elastic bodies in contact, J. Appl. Mech. 16 (1949), from memory.
inline constexpr double kTangentialOverNormal = 0.8;

}  // namespace waybench::statics
