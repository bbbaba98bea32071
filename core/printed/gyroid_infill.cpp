#include "core/printed/gyroid_infill.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace waybench::printed {
namespace {

constexpr double kTwoPi = 6.28318530717958647692;
constexpr double kCutLength = 2.4584;              // of the cut per area, times the cell
constexpr double kLine_mm = 0.15;                  // finer than a bead can show
constexpr int kFewestSteps = 12, kMostSteps = 24;  // lines per cell

/// One period of one wave: how far it lies across at every step along, radians.
using Wave = std::vector<double>;

struct Waves {
    bool runAlongX = true;
    std::array<Wave, 2> wave{};
};

Waves wavesAt(double z, int steps) {
    const double c = std::cos(z), s = std::sin(z);
    Waves waves;
    waves.runAlongX = std::abs(c) >= std::abs(s);
    for (int i = 0; i < steps; ++i) {
        const double t = kTwoPi * i / steps;
        const double A = waves.runAlongX ? std::sin(t) : s;
        const double B = waves.runAlongX ? c : std::cos(t);
        const double C = waves.runAlongX ? -s * std::cos(t) : -c * std::sin(t);
        double middle = std::atan2(B, A);
        if (!waves.runAlongX && s < 0 && middle < 0) middle += kTwoPi;  // without a jump along the wave
        const double apart = std::acos(std::clamp(C / std::hypot(A, B), -1.0, 1.0));
        waves.wave[0].push_back(middle - apart);
        waves.wave[1].push_back(middle + apart);
    }
    return waves;
}

}  // namespace

double gyroidCell_mm(double share, double spacing_mm) {
    return kCutLength * spacing_mm / share;
}

std::vector<Curve> gyroidCurves(const CurveClipper& region, double share, double spacing_mm, double z_mm) {
    const double cell = gyroidCell_mm(share, spacing_mm), unit = cell / kTwoPi;
    const int steps = std::clamp(static_cast<int>(std::ceil(cell / kLine_mm)), kFewestSteps, kMostSteps);
    const Waves waves = wavesAt(kTwoPi * std::fmod(z_mm / cell, 1.0), steps);
    const int along = waves.runAlongX ? 0 : 1, across = 1 - along;
    const double first = std::floor(region.low()[along] / cell), last = std::ceil(region.high()[along] / cell);
    // a wave reaches less than one cell and a half to either side of its own cell
    const double firstRow = std::floor(region.low()[across] / cell) - 2,
                 lastRow = std::ceil(region.high()[across] / cell) + 1;
    std::vector<Curve> curves;
    Curve track;
    for (double row = firstRow; row <= lastRow; ++row)
        for (const Wave& wave : waves.wave) {
            const auto [least, most] = std::minmax_element(wave.begin(), wave.end());
            if (row * cell + *most * unit < region.low()[across] || row * cell + *least * unit > region.high()[across])
                continue;
            track.clear();
            for (double k = first; k <= last; ++k)
                for (int i = 0; i < steps; ++i) {
                    Vec2 p;
                    p[along] = (k + static_cast<double>(i) / steps) * cell;
                    p[across] = row * cell + wave[static_cast<std::size_t>(i)] * unit;
                    track.push_back(p);
                }
            region.clip(track, curves);
        }
    return curves;
}

}  // namespace waybench::printed
