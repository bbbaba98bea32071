#include "core/motion/planner.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <stdexcept>

namespace waybench {
namespace {

constexpr double kUnlimited = std::numeric_limits<double>::infinity();

bool isPositive(double x) {
    return std::isfinite(x) && x > 0;
}

/// sin(theta/2) of the interior angle between two unit travel directions.
double sineOfHalfAngle(const Vec3& u1, const Vec3& u2) {
    return std::sqrt(std::max(0.0, 0.5 * (1.0 + std::min(1.0, u1.dot(u2)))));
}

/// A turn of a finely faceted arc must not be quicker than the arc itself: v^2 <= a L tan(theta/2)/2
/// (printed-route.md 3.2, from memory).
double arcSpeed(double sine, double acceleration, double shorterLength) {
    const double cosine = std::sqrt(std::max(0.0, 1.0 - sine * sine));
    if (cosine < 1e-9) return kUnlimited;
    return std::sqrt(0.5 * acceleration * shorterLength * sine / cosine);
}

struct Leg {
    std::size_t move = 0;
    Vec3 direction = Vec3::Zero();
    double length = 0, speed = 0, acceleration = 0;
};

std::vector<Leg> legsOf(const Vec3& start, std::span<const PathMove> moves) {
    std::vector<Leg> legs;
    legs.reserve(moves.size());
    Vec3 from = start;
    for (std::size_t i = 0; i < moves.size(); ++i) {
        const PathMove& m = moves[i];
        if (!isPositive(m.speed_mm_s) || !isPositive(m.acceleration_mm_s2) || !m.to.allFinite())
            throw std::logic_error("plannedTimes: move without finite place, speed or acceleration");
        const Vec3 d = m.to - from;
        const double length = d.norm();
        if (length > 1e-9) {
            legs.push_back({i, d / length, length, m.speed_mm_s, m.acceleration_mm_s2});
            from = m.to;
        }
    }
    return legs;
}

std::vector<double> nodeSpeeds(const std::vector<Leg>& legs, double deviation) {
    std::vector<double> v(legs.size() + 1, 0.0);
    for (std::size_t i = 1; i < legs.size(); ++i) {
        const Leg &a = legs[i - 1], &b = legs[i];
        const double acceleration = std::min(a.acceleration, b.acceleration);
        const double sine = sineOfHalfAngle(a.direction, b.direction);
        const double corner = deviation > 0      ? cornerSpeed(a.direction, b.direction, acceleration, deviation)
                              : sine > 1 - 1e-12 ? kUnlimited
                                                 : 0.0;
        v[i] = std::min({a.speed, b.speed, corner, arcSpeed(sine, acceleration, std::min(a.length, b.length))});
    }
    for (std::size_t i = legs.size(); i-- > 0;)
        v[i] = std::min(v[i], std::sqrt(v[i + 1] * v[i + 1] + 2 * legs[i].acceleration * legs[i].length));
    for (std::size_t i = 0; i < legs.size(); ++i)
        v[i + 1] = std::min(v[i + 1], std::sqrt(v[i] * v[i] + 2 * legs[i].acceleration * legs[i].length));
    return v;
}

}  // namespace

double cornerDeviationFor(double v90_mm_s, double acceleration_mm_s2) {
    if (!isPositive(acceleration_mm_s2) || !std::isfinite(v90_mm_s) || v90_mm_s < 0)
        throw std::logic_error("cornerDeviationFor: acceleration must be positive and speed not negative");
    return v90_mm_s * v90_mm_s * (std::sqrt(2.0) - 1.0) / acceleration_mm_s2;
}

double cornerSpeed(const Vec3& u1, const Vec3& u2, double acceleration_mm_s2, double deviation_mm) {
    const double s = sineOfHalfAngle(u1, u2);
    if (1.0 - s < 1e-12) return kUnlimited;
    return std::sqrt(acceleration_mm_s2 * deviation_mm * s / (1.0 - s));
}

double moveTime(double length_mm, double speed_mm_s, double acceleration_mm_s2, double v0_mm_s, double v1_mm_s) {
    if (!isPositive(speed_mm_s) || !isPositive(acceleration_mm_s2) || !std::isfinite(length_mm) || length_mm < 0 ||
        !(v0_mm_s >= 0) || !(v1_mm_s >= 0))
        throw std::logic_error("moveTime: length, speeds and acceleration must be finite and not negative");
    if (length_mm <= 0) return 0;
    const double v = std::max({speed_mm_s, v0_mm_s, v1_mm_s});
    const double a = acceleration_mm_s2, squares = v0_mm_s * v0_mm_s + v1_mm_s * v1_mm_s;
    const double peak = std::sqrt(a * length_mm + 0.5 * squares);
    if (peak <= v) return std::max(0.0, (2 * peak - v0_mm_s - v1_mm_s) / a);
    return (2 * v - v0_mm_s - v1_mm_s) / a + (length_mm - (2 * v * v - squares) / (2 * a)) / v;
}

std::vector<double> plannedTimes(const Vec3& start, std::span<const PathMove> moves, double cornerDeviation_mm) {
    if (!std::isfinite(cornerDeviation_mm) || cornerDeviation_mm < 0)
        throw std::logic_error("plannedTimes: corner deviation must be finite and not negative");
    const std::vector<Leg> legs = legsOf(start, moves);
    const std::vector<double> v = nodeSpeeds(legs, cornerDeviation_mm);
    std::vector<double> seconds(moves.size(), 0.0);
    for (std::size_t i = 0; i < legs.size(); ++i)
        seconds[legs[i].move] = moveTime(legs[i].length, legs[i].speed, legs[i].acceleration, v[i], v[i + 1]);
    return seconds;
}

double plannedTime(const Vec3& start, std::span<const PathMove> moves, double cornerDeviation_mm) {
    double total = 0;
    for (const double t : plannedTimes(start, moves, cornerDeviation_mm))
        total += t;
    return total;
}

}  // namespace waybench
