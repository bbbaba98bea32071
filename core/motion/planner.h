#pragma once
#include <span>
#include <vector>

#include "core/geometry/vector.h"

namespace waybench {

/// Limits one axis system obeys on one kind of path. mm/s, mm/s2, mm.
struct MotionLimits {
    double speed_mm_s = 0;
    double acceleration_mm_s2 = 0;
    double cornerDeviation_mm = 0;  ///< junction deviation; 0 = full stop at every corner
};

/// Corner deviation that gives the speed v90 at a right angle: v90^2 (sqrt2 - 1)/a. (printed-route.md 3.2, S43)
double cornerDeviationFor(double v90_mm_s, double acceleration_mm_s2);
/// Highest speed through a corner between unit travel directions u1, u2:
/// v^2 = a d s/(1-s), s = sin(theta/2), cos theta = -u1.u2. Infinite when straight. (printed-route.md 3.2, S42)
double cornerSpeed(const Vec3& u1, const Vec3& u2, double acceleration_mm_s2, double deviation_mm);
/// Time of one straight move of length L from v0 to v1 with cruise v and acceleration a (printed-route.md 3.2).
/// Precondition |v1^2 - v0^2| <= 2 a L.
double moveTime(double length_mm, double speed_mm_s, double acceleration_mm_s2, double v0_mm_s, double v1_mm_s);

/// One straight piece of a path with its own limits.
struct PathMove {
    Vec3 to = Vec3::Zero();
    double speed_mm_s = 0;
    double acceleration_mm_s2 = 0;
};
/// Speeds at every node by a backward and a forward pass, then the closed form per move. Starts and ends at rest.
/// The path is a polyline from `start` through the moves' ends; zero-length moves cost nothing.
/// @return seconds per move
std::vector<double> plannedTimes(const Vec3& start, std::span<const PathMove> moves, double cornerDeviation_mm);
double plannedTime(const Vec3& start, std::span<const PathMove> moves, double cornerDeviation_mm);

}  // namespace waybench
