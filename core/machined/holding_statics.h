#pragma once
#include <vector>

#include "core/geometry/vector.h"

namespace waybench::machined {

/// A place where the work is held down on what carries it, or one of a few that stand for an area.
struct HoldPoint {
    Vec2 at = Vec2::Zero();
    double pressed_N = 0;  ///< down on the work, against lifting
    double grip_N = 0;     ///< what it resists sideways, in any direction
};

/// What a cutter does to the work that lies flat, the tool axis upright.
struct CutLoad {
    Vec2 at = Vec2::Zero();
    double height_mm = 0;   ///< of the cut above what carries the work
    double sideways_N = 0;  ///< in whatever direction is worst
    double lift_N = 0;      ///< along the tool, up
    double torque_Nmm = 0;  ///< about the tool axis, either sense
};

/// How many times the load each way of giving way could carry; kFirmly where it cannot give way so.
struct HoldSafety {
    double lift = 0;   ///< lifted off, or tipped about an edge of what carries it
    double slide = 0;  ///< shifted without turning
    double turn = 0;   ///< turned about the weakest pivot; at most the slide
    double least() const;
};
inline constexpr double kFirmly = 1e9;

/// Rigid work held by friction, plastic limit (upper bound theorem, exact for friction whose size does not depend on
/// the motion): the load that starts a motion is the least, over all pivots c, of sum grip_i |x_i - c| over the power
/// of the load about c; a far pivot is a shift. What lifts takes its share of the grip, growing with the load; a force
/// sideways tips by its height. Statics of rigid bodies;
/// the limit theorem is Hill's (Mathematical Theory of Plasticity, 1950, from memory).
/// @param support what carries the work: tipping is about the edges of its hull; at least one point
/// Preconditions: grips and presses not negative, load finite. @throws std::logic_error else
HoldSafety holdSafety(const std::vector<HoldPoint>& holds, const std::vector<Vec2>& support, const CutLoad& load);

/// What tabs carry in shear, N: number x width x height x shear strength (machined-route.md 6).
double tabShear_N(int tabs, double width_mm, double height_mm, double shear_MPa);

}  // namespace waybench::machined
