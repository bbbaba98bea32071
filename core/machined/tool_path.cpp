#include "core/machined/tool_path.h"

#include <algorithm>
#include <cmath>

#include "core/motion/planner.h"

namespace waybench::machined {
namespace {

constexpr double kPi = 3.14159265358979323846;
constexpr double kCollapse_mm = 0.002;

/// The line a ring of nearly no width collapses to: half its length without its two ends, between its farthest points.
Pass collapsedLine(const Ring& ring) {
    std::size_t a = 0, b = 0;
    double farthest = -1;
    for (std::size_t i = 0; i < ring.size(); ++i)
        for (std::size_t j = i + 1; j < ring.size(); ++j) {
            const double d = (ring[i] - ring[j]).squaredNorm();
            if (d > farthest) {
                farthest = d;
                a = i;
                b = j;
            }
        }
    Vec2 from = ring[a], to = ring[b];
    // the sliver is 2 kCollapse wide and reaches kCollapse past the line at either end
    const Vec2 along = (to - from).normalized();
    Vec2 across(-along.y(), along.x());
    for (Vec2* end : {&from, &to}) {
        Vec2 mean = Vec2::Zero();
        int n = 0;
        for (const Vec2& p : ring)
            if ((p - *end).norm() < 3 * kCollapse_mm) {
                mean += p;
                ++n;
            }
        *end = mean / n;
    }
    from += along * kCollapse_mm;
    to -= along * kCollapse_mm;
    return {{from, to}, false};
}

void addRings(const Region& island, double stepover_mm, std::vector<Pass>& passes) {
    for (const Ring& ring : island)
        passes.push_back({ring, true});
    const Region inner = offsetBy(island, -stepover_mm);
    for (const Region& next : islandsOf(inner))
        addRings(next, stepover_mm, passes);
    if (!inner.empty()) return;
    for (const Ring& ring : offsetBy(island, -(stepover_mm - kCollapse_mm)))
        if (signedArea(ring) > 0 && signedArea(ring) < 1.5 * kCollapse_mm * perimeterOf(ring))
            passes.push_back(collapsedLine(ring));
}

Pass startingNearest(const Pass& pass, const Vec2& place) {
    Pass turned = pass;
    if (pass.isClosed) {
        const auto nearest = std::min_element(
            turned.points.begin(), turned.points.end(),
            [&](const Vec2& a, const Vec2& b) { return (a - place).squaredNorm() < (b - place).squaredNorm(); });
        std::rotate(turned.points.begin(), nearest, turned.points.end());
        turned.points.push_back(turned.points.front());
    } else if ((pass.points.back() - place).squaredNorm() < (pass.points.front() - place).squaredNorm()) {
        std::reverse(turned.points.begin(), turned.points.end());
    }
    return turned;
}

}  // namespace

double lengthOf(const Pass& pass) {
    double length = 0;
    for (std::size_t i = 1; i < pass.points.size(); ++i)
        length += (pass.points[i] - pass.points[i - 1]).norm();
    if (pass.isClosed && pass.points.size() > 1) length += (pass.points.back() - pass.points.front()).norm();
    return length;
}

double lengthOf(const std::vector<Pass>& passes) {
    double length = 0;
    for (const Pass& pass : passes)
        length += lengthOf(pass);
    return length;
}

std::vector<Pass> ringsInside(const Region& centres, double stepover_mm) {
    std::vector<Pass> passes;
    for (const Region& island : islandsOf(centres))
        addRings(island, stepover_mm, passes);
    return passes;
}

std::vector<Pass> contoursOf(const Region& centres) {
    std::vector<Pass> passes;
    for (const Ring& ring : centres)
        passes.push_back({ring, true});
    return passes;
}

std::vector<Pass> rasterOver(const Region& region, double stepover_mm) {
    std::vector<Pass> passes;
    for (const Segment2& line : hatch(region, 0, stepover_mm, 0))
        passes.push_back({{line.from, line.to}, false});
    return passes;
}

Pass circlePass(const Vec2& centre, double radius_mm) {
    Pass pass;
    pass.isClosed = true;
    constexpr int kSides = 48;
    for (int i = 0; i < kSides; ++i)
        pass.points.emplace_back(centre +
                                 radius_mm * Vec2(std::cos(2 * kPi * i / kSides), std::sin(2 * kPi * i / kSides)));
    return pass;
}

std::vector<std::vector<Vec2>> runsOf(const std::vector<Pass>& passes, double link_mm) {
    std::vector<std::vector<Vec2>> runs;
    if (passes.empty()) return runs;
    Vec2 at = passes.front().points.front();
    for (const Pass& given : passes) {
        Pass pass = startingNearest(given, at);
        if (runs.empty() || (pass.points.front() - at).norm() > link_mm) runs.emplace_back();
        runs.back().insert(runs.back().end(), pass.points.begin(), pass.points.end());
        at = pass.points.back();
    }
    return runs;
}

PathTime timeOf(const std::vector<Pass>& passes, const CutMotion& motion, const Mill& mill) {
    PathTime time;
    if (passes.empty()) return time;
    std::vector<PathMove> moves;
    std::vector<char> cuts;
    const double a = mill.acceleration_mm_s2.value, az = mill.accelerationVertical_mm_s2.value;
    const auto add = [&](const Vec2& p, double z, double speed, double acceleration, bool cutting) {
        moves.push_back({{p.x(), p.y(), z}, speed, acceleration});
        cuts.push_back(cutting);
    };
    const std::vector<std::vector<Vec2>> runs = runsOf(passes, motion.link_mm);
    const Vec2& first = runs.front().front();
    const Vec3 start(first.x(), first.y(), motion.lift_mm);
    for (const std::vector<Vec2>& run : runs) {
        add(run.front(), motion.lift_mm, mill.rapid.value, a, false);
        add(run.front(), 0, mill.rapidVertical.value, az, false);
        for (std::size_t i = 1; i < run.size(); ++i)
            add(run[i], 0, motion.feed_mm_s, a, true);
        add(run.back(), motion.lift_mm, mill.rapidVertical.value, az, false);
    }
    const std::size_t entries = runs.size();
    const std::vector<double> seconds = plannedTimes(start, moves, mill.cornerDeviation.value);
    for (std::size_t i = 0; i < seconds.size(); ++i) {
        time.seconds += seconds[i];
        if (cuts[i]) time.cutting_seconds += seconds[i];
    }
    if (motion.step_mm > 0) {
        const double ramp_mm = motion.step_mm / std::tan(motion.rampAngle_deg * kPi / 180);
        const double ramp = static_cast<double>(entries) * moveTime(ramp_mm, 0.5 * motion.feed_mm_s, a, 0, 0);
        time.seconds += ramp;
        time.cutting_seconds += ramp;
    }
    time.cut_mm = lengthOf(passes);
    return time;
}

}  // namespace waybench::machined
