#include "core/machined/holding_statics.h"

#include <Eigen/LU>
#include <algorithm>
#include <cmath>
#include <stdexcept>

namespace waybench::machined {
namespace {

constexpr int kDirections = 24;  // of the sideways force
constexpr double kPi = 3.14159265358979323846;

/// Corners of the convex hull, counterclockwise (monotone chain).
std::vector<Vec2> hullOf(std::vector<Vec2> points) {
    const auto before = [](const Vec2& a, const Vec2& b) { return a.x() != b.x() ? a.x() < b.x() : a.y() < b.y(); };
    std::sort(points.begin(), points.end(), before);
    points.erase(std::unique(points.begin(), points.end()), points.end());
    if (points.size() < 3) return points;
    const auto turn = [](const Vec2& o, const Vec2& a, const Vec2& b) {
        return (a - o).x() * (b - o).y() - (a - o).y() * (b - o).x();
    };
    std::vector<Vec2> hull;
    for (int side = 0; side < 2; ++side) {
        const std::size_t first = hull.size();
        for (const Vec2& p : points) {
            while (hull.size() >= first + 2 && turn(hull[hull.size() - 2], hull.back(), p) <= 0)
                hull.pop_back();
            hull.push_back(p);
        }
        hull.pop_back();
        std::reverse(points.begin(), points.end());
    }
    return hull;
}

/// Times the upright part of the load that starts lifting, or tipping about an edge of the hull.
double liftSafety(const std::vector<HoldPoint>& holds, const std::vector<Vec2>& support, const CutLoad& load) {
    if (load.lift_N == 0 && load.sideways_N * load.height_mm <= 0) return kFirmly;
    double pressed = 0;
    for (const HoldPoint& h : holds)
        pressed += h.pressed_N;
    double safety = load.lift_N > 0 ? pressed / load.lift_N : kFirmly;
    const std::vector<Vec2> hull = hullOf(support);
    if (hull.size() < 3) return hull.empty() ? 0 : safety;
    for (std::size_t i = 0; i < hull.size(); ++i) {
        const Vec2& a = hull[i];
        const Vec2 along = (hull[(i + 1) % hull.size()] - a).normalized();
        const auto inside = [&](const Vec2& p) { return along.x() * (p - a).y() - along.y() * (p - a).x(); };
        const double moment = load.lift_N * inside(load.at) + load.sideways_N * std::max(0.0, load.height_mm);
        if (moment <= 0) continue;
        double resists = 0;
        for (const HoldPoint& h : holds)
            resists += h.pressed_N * std::max(0.0, inside(h.at));
        safety = std::min(safety, resists / moment);
    }
    return std::min(safety, kFirmly);
}

/// A motion of the plane: shift of the origin, and turning.
using Motion = Eigen::Vector3d;

Vec2 motionAt(const Motion& m, const Vec2& p) {
    return {m[0] - m[2] * p.y(), m[1] + m[2] * p.x()};
}

double resistedBy(const std::vector<HoldPoint>& holds, const Motion& m) {
    double sum = 0;
    for (const HoldPoint& h : holds)
        sum += h.grip_N * motionAt(m, h.at).norm();
    return sum;
}

/// Least resistance over all motions in which the load does unit work: reweighted least squares, then every hold tried
/// as the pivot, where the sum has its kinks.
double leastResistance(const std::vector<HoldPoint>& holds, const Motion& load, double size_mm) {
    const auto atUnitWork = [&](const Motion& m) {
        const double work = std::abs(load.dot(m));
        return work > 1e-300 ? resistedBy(holds, m) / work : kFirmly;
    };
    double least = kFirmly;
    for (const HoldPoint& h : holds)
        least = std::min(least, atUnitWork({h.at.y(), -h.at.x(), 1}));
    Motion m = load;
    m[2] /= size_mm * size_mm;  // lengths to a common scale for the first guess
    for (int i = 0; i < 60; ++i) {
        const double speed = std::max(1e-300, resistedBy(holds, m));
        Eigen::Matrix3d k = Eigen::Matrix3d::Zero();
        for (const HoldPoint& h : holds) {
            if (!(h.grip_N > 0)) continue;
            Eigen::Matrix<double, 2, 3> a;
            a << 1, 0, -h.at.y(), 0, 1, h.at.x();
            const double own = h.grip_N * motionAt(m, h.at).norm();
            k += h.grip_N * h.grip_N / std::max(own, 1e-9 * speed) * a.transpose() * a;
        }
        const double scale = std::max(k(0, 0), 1e-300);
        k(0, 0) += 1e-12 * scale;
        k(1, 1) += 1e-12 * scale;
        k(2, 2) += 1e-12 * scale * size_mm * size_mm;
        const Motion next = k.inverse() * load;
        const double work = load.dot(next);
        if (!(work > 0) || !std::isfinite(work)) break;
        m = next / work;
        const double before = least;
        least = std::min(least, atUnitWork(m));
        if (i > 8 && least > before * (1 - 1e-7)) break;
    }
    return least;
}

}  // namespace

double HoldSafety::least() const {
    return std::min({lift, slide, turn});
}

HoldSafety holdSafety(const std::vector<HoldPoint>& holds, const std::vector<Vec2>& support, const CutLoad& load) {
    double pressed = 0, grip = 0, size = 1;
    for (const HoldPoint& h : holds) {
        if (!(h.pressed_N >= 0) || !(h.grip_N >= 0)) throw std::logic_error("a hold with a negative force");
        pressed += h.pressed_N;
        grip += h.grip_N;
        for (const HoldPoint& other : holds)
            size = std::max(size, (other.at - h.at).norm());
    }
    if (!std::isfinite(load.sideways_N + load.lift_N + load.torque_Nmm) || load.sideways_N < 0)
        throw std::logic_error("a cutting load that is not finite, or negative sideways");
    if (support.empty()) throw std::logic_error("work that nothing carries");
    HoldSafety safety;
    safety.lift = liftSafety(holds, support, load);
    // k times the load leaves 1 - k lift/pressed of the grip: k = r (1 - k lift/pressed) with r for the whole grip.
    const double relief = load.lift_N > 0 ? (pressed > 0 ? load.lift_N / pressed : kFirmly) : 0;
    const auto relieved = [&](double r) { return std::min(kFirmly, r / (1 + r * relief)); };
    safety.slide = load.sideways_N > 0 ? relieved(grip / load.sideways_N) : kFirmly;
    safety.turn = safety.slide;
    if (grip <= 0 && (load.sideways_N > 0 || load.torque_Nmm != 0)) {
        safety.turn = 0;
        return safety;
    }
    const int directions = load.sideways_N > 0 ? kDirections : 1;
    for (int i = 0; i < directions; ++i)
        for (const double sense : {1.0, -1.0}) {
            const double angle = 2 * kPi * i / directions;
            const Vec2 f = load.sideways_N * Vec2(std::cos(angle), std::sin(angle));
            const Motion power(f.x(), f.y(), load.at.x() * f.y() - load.at.y() * f.x() + sense * load.torque_Nmm);
            if (power.isZero()) continue;
            safety.turn = std::min(safety.turn, relieved(leastResistance(holds, power, size)));
        }
    return safety;
}

double tabShear_N(int tabs, double width_mm, double height_mm, double shear_MPa) {
    return tabs * width_mm * height_mm * shear_MPa;
}

}  // namespace waybench::machined
