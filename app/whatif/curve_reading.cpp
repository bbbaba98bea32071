#include "app/whatif/curve_reading.h"

#include <algorithm>
#include <cmath>

#include "app/jobs/answers.h"
#include "core/fault/input_fault.h"

namespace waybench {

std::optional<Figure> between(const PointsByValue& points, double at, Question q, RouteKind route) {
    const auto figure = [&](const SweepPoint& p) { return p.comparison.outcome(route).at(q); };
    const SweepPoint *below = nullptr, *above = nullptr;
    for (const auto& [x, p] : points) {
        if (!p->valid) continue;
        if (x <= at) below = p.get();
        if (x >= at && !above) above = p.get();
    }
    if (!below || !above) return std::nullopt;
    const Figure a = figure(*below), b = figure(*above);
    const double t = above->at > below->at ? (at - below->at) / (above->at - below->at) : 0;
    const auto mix = [t](double u, double v) { return u + (v - u) * t; };
    return Figure::bounded(mix(a.value, b.value), mix(a.low, b.low), mix(a.high, b.high), a.unit);
}

double rounded(double value, double range) {
    const double step = std::pow(10.0, std::floor(std::log10(std::max(range, 1e-9))) - 2);
    return std::round(std::round(value / step) * step * 1e9) / 1e9;
}

bool standsAt(const Part& part, const Variable& variable) {
    try {
        return sameInputs(with(part, variable, variable.current), part);
    } catch (const InputFault&) {
        return false;
    }
}

}  // namespace waybench
