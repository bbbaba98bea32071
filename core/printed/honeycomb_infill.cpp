#include "core/printed/honeycomb_infill.h"

#include <cmath>

namespace waybench::printed {
namespace {

constexpr double kSine60 = 0.86602540378443864676;

}  // namespace

double honeycombEdge_mm(double share, double spacing_mm) {
    return spacing_mm * (4 / (3 * share) - 1) / kSine60;
}

std::vector<Curve> honeycombCurves(const CurveClipper& region, double share, double spacing_mm) {
    const double edge = honeycombEdge_mm(share, spacing_mm);
    const double half = 0.5 * kSine60 * edge, pitch = 2 * half + spacing_mm, advance = 3 * edge;
    const double firstRow = std::floor((region.low().y() - half) / pitch);
    const double lastRow = std::ceil((region.high().y() + half) / pitch);
    const double first = std::floor(region.low().x() / advance) - 1, last = std::ceil(region.high().x() / advance) + 1;
    std::vector<Curve> curves;
    Curve track;
    for (double row = firstRow; row <= lastRow; ++row) {
        const double middle = row * pitch, rise = std::fmod(std::abs(row), 2) < 0.5 ? half : -half;
        track.clear();
        for (double cell = first; cell <= last; ++cell) {
            const double x = cell * advance;
            track.emplace_back(x, middle - rise);
            track.emplace_back(x + edge, middle - rise);
            track.emplace_back(x + 1.5 * edge, middle + rise);
            track.emplace_back(x + 2.5 * edge, middle + rise);
        }
        region.clip(track, curves);
    }
    return curves;
}

}  // namespace waybench::printed
