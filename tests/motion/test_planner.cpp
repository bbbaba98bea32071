#include "core/motion/planner.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <random>
#include <vector>

using namespace waybench;

namespace {

struct Path {
    std::vector<PathMove> moves;
    double deviation = 0;
};

Path randomPath(std::mt19937& random, int count) {
    std::uniform_real_distribution<double> unit(0, 1);
    Path path;
    path.deviation = unit(random) < 0.1 ? 0 : 0.002 + 0.03 * unit(random);
    Vec3 at = Vec3::Zero();
    double heading = 0;
    for (int i = 0; i < count; ++i) {
        heading += (unit(random) - 0.5) * (unit(random) < 0.5 ? 0.3 : 5.0);
        const double length = std::pow(10, -1 + 2.5 * unit(random));
        at += length * Vec3(std::cos(heading), std::sin(heading), 0.1 * (unit(random) - 0.5));
        path.moves.push_back({at, 5 + 200 * unit(random), 200 + 4000 * unit(random)});
    }
    return path;
}

/// The same limits integrated in small steps of path length, with no closed form: speed squared is swept backwards and
/// forwards over a fine grid, and time is the sum of step over mean speed.
double steppedTime(const Path& path, int stepsPerMove) {
    std::vector<double> length, speedCap, acceleration;
    std::vector<Vec3> direction;
    Vec3 from = Vec3::Zero();
    for (const PathMove& m : path.moves) {
        length.push_back((m.to - from).norm());
        direction.push_back((m.to - from).normalized());
        speedCap.push_back(m.speed_mm_s);
        acceleration.push_back(m.acceleration_mm_s2);
        from = m.to;
    }
    const std::size_t n = length.size(), nodes = n * stepsPerMove + 1;
    std::vector<double> square(nodes);
    for (std::size_t i = 0; i < nodes; ++i) {
        const std::size_t move = std::min(i / stepsPerMove, n - 1);
        square[i] = speedCap[move] * speedCap[move];
        if (i % stepsPerMove != 0 || i == 0 || i == nodes - 1) continue;
        const std::size_t before = move - 1;
        const double a = std::min(acceleration[before], acceleration[move]);
        const double turn = std::acos(std::clamp(direction[before].dot(direction[move]), -1.0, 1.0));
        const double half = 0.5 * (M_PI - turn);
        square[i] = std::min({square[i], speedCap[before] * speedCap[before],
                              a * path.deviation * std::sin(half) / (1 - std::sin(half)),
                              0.5 * a * std::min(length[before], length[move]) * std::tan(half)});
    }
    square.front() = square.back() = 0;
    // steps get finer towards the ends of each move, where the speed changes over the shortest way
    const auto step = [&](std::size_t i) {
        const double turn = M_PI / stepsPerMove, at = static_cast<double>(i % stepsPerMove);
        return 0.5 * length[i / stepsPerMove] * (std::cos(turn * at) - std::cos(turn * (at + 1)));
    };
    const auto accel = [&](std::size_t i) { return acceleration[i / stepsPerMove]; };
    for (std::size_t i = nodes - 1; i-- > 0;)
        square[i] = std::min(square[i], square[i + 1] + 2 * accel(i) * step(i));
    for (std::size_t i = 0; i + 1 < nodes; ++i)
        square[i + 1] = std::min(square[i + 1], square[i] + 2 * accel(i) * step(i));
    double time = 0;
    for (std::size_t i = 0; i + 1 < nodes; ++i) {
        const double sum = std::sqrt(square[i]) + std::sqrt(square[i + 1]);
        time += 2 * step(i) / sum;
    }
    return time;
}

}  // namespace

TEST_CASE("planned time equals an independent fine-step integration of the same limits", "[motion]") {
    std::mt19937 random(7);
    for (int trial = 0; trial < 40; ++trial) {
        const Path path = randomPath(random, 60);
        CHECK(plannedTime(Vec3::Zero(), path.moves, path.deviation) == Approx(steppedTime(path, 400)).epsilon(0.005));
    }
}

TEST_CASE("ten thousand short paths agree with the fine-step integration, and none beats a limit", "[motion]") {
    std::mt19937 random(19);
    double worst = 0, fastest = 1e300, slowest = 0;
    for (int trial = 0; trial < 10000; ++trial) {
        const Path path = randomPath(random, 2 + trial % 9);
        const auto seconds = plannedTimes(Vec3::Zero(), path.moves, path.deviation);
        double planned = 0, stopping = 0;
        Vec3 from = Vec3::Zero();
        for (std::size_t i = 0; i < path.moves.size(); ++i) {
            const PathMove& m = path.moves[i];
            const double length = (m.to - from).norm();
            planned += seconds[i];
            stopping += moveTime(length, m.speed_mm_s, m.acceleration_mm_s2, 0, 0);
            fastest = std::min(fastest, seconds[i] / (length / m.speed_mm_s));
            from = m.to;
        }
        worst = std::max(worst, std::abs(planned / steppedTime(path, 120) - 1));
        slowest = std::max(slowest, planned / stopping);
    }
    CHECK(worst < 0.005);
    CHECK(fastest >= 1 - 1e-9);
    CHECK(slowest <= 1 + 1e-9);
}

TEST_CASE("no plan is quicker than length over speed, nor slower than a stop at every corner", "[motion]") {
    std::mt19937 random(8);
    for (int trial = 0; trial < 200; ++trial) {
        const Path path = randomPath(random, 30);
        double naive = 0;
        Vec3 from = Vec3::Zero();
        const auto seconds = plannedTimes(Vec3::Zero(), path.moves, path.deviation);
        for (std::size_t i = 0; i < path.moves.size(); ++i) {
            const double length = (path.moves[i].to - from).norm();
            CHECK(seconds[i] >= length / path.moves[i].speed_mm_s * (1 - 1e-9));
            naive += length / path.moves[i].speed_mm_s;
            from = path.moves[i].to;
        }
        const double planned = plannedTime(Vec3::Zero(), path.moves, path.deviation);
        double stopping = 0;
        from = Vec3::Zero();
        for (const PathMove& m : path.moves) {
            stopping += moveTime((m.to - from).norm(), m.speed_mm_s, m.acceleration_mm_s2, 0, 0);
            from = m.to;
        }
        CHECK(planned >= naive);
        CHECK(planned <= stopping * (1 + 1e-9));
    }
}

TEST_CASE("more deviation, acceleration or speed never takes longer", "[motion]") {
    std::mt19937 random(9);
    for (int trial = 0; trial < 100; ++trial) {
        Path path = randomPath(random, 30);
        const double before = plannedTime(Vec3::Zero(), path.moves, path.deviation);
        CHECK(plannedTime(Vec3::Zero(), path.moves, path.deviation * 2 + 0.001) <= before * (1 + 1e-9));
        for (PathMove& m : path.moves)
            m.acceleration_mm_s2 *= 1.5;
        const double livelier = plannedTime(Vec3::Zero(), path.moves, path.deviation);
        CHECK(livelier <= before * (1 + 1e-9));
        for (PathMove& m : path.moves)
            m.speed_mm_s *= 1.5;
        CHECK(plannedTime(Vec3::Zero(), path.moves, path.deviation) <= livelier * (1 + 1e-9));
    }
}

TEST_CASE("splitting a straight move changes nothing, and moves of no length cost nothing", "[motion]") {
    const std::vector<PathMove> whole = {{{30, 0, 0}, 60, 900}, {{30, 20, 0}, 60, 900}};
    const std::vector<PathMove> split = {{{10, 0, 0}, 60, 900}, {{10, 0, 0}, 60, 900}, {{22, 0, 0}, 60, 900},
                                         {{30, 0, 0}, 60, 900}, {{30, 0, 0}, 60, 900}, {{30, 20, 0}, 60, 900}};
    const double deviation = cornerDeviationFor(6, 900);
    CHECK(plannedTime(Vec3::Zero(), split, deviation) ==
          Approx(plannedTime(Vec3::Zero(), whole, deviation)).epsilon(1e-9));
    CHECK(plannedTimes(Vec3::Zero(), split, deviation)[1] == 0);
    CHECK(plannedTime(Vec3::Zero(), {}, deviation) == 0);
}

TEST_CASE("a finely faceted circle is planned as the circle it stands for", "[motion]") {
    // centripetal limit v = sqrt(a r) at most, whatever the number of facets
    const double radius = 5, acceleration = 1000;
    for (const int facets : {60, 240, 960}) {
        std::vector<PathMove> path;
        for (int i = 1; i <= facets; ++i) {
            const double angle = 2 * M_PI * i / facets;
            path.push_back({{radius * std::cos(angle), radius * std::sin(angle), 0}, 500, acceleration});
        }
        CHECK(plannedTime({radius, 0, 0}, path, 0.05) > 2 * M_PI * radius / std::sqrt(acceleration * radius) * 0.999);
    }
}

TEST_CASE("a path without speed or place is a defect, never a silent number", "[motion]") {
    const std::vector<PathMove> still = {{{1, 0, 0}, 0, 100}};
    CHECK_THROWS_AS(plannedTime(Vec3::Zero(), still, 0.01), std::logic_error);
    const std::vector<PathMove> nowhere = {{{NAN, 0, 0}, 10, 100}};
    CHECK_THROWS_AS(plannedTime(Vec3::Zero(), nowhere, 0.01), std::logic_error);
    CHECK_THROWS_AS(moveTime(1, 10, NAN, 0, 0), std::logic_error);
}
