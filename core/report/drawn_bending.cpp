#include "core/report/drawn_bending.h"

#include <algorithm>
#include <cmath>

#include "core/quantity/quantity_text.h"

namespace waybench {
namespace {

double largestDisplacement_mm(const RouteOutcome& outcome) {
    double largest = 0;
    if (outcome.structure)
        for (const Vec3& u : outcome.structure->displacement_mm)
            largest = std::max(largest, u.norm());
    return largest;
}

}  // namespace

double commonFieldMaximum(const Comparison& comparison) {
    return std::max({largestDisplacement_mm(comparison.printed), largestDisplacement_mm(comparison.machined), 1e-9});
}

std::string fieldEndText(double maximum, Unit unit) {
    constexpr double kReadOff = 0.02;  // a colour scale is read no closer
    return describeValue(Figure::relative(maximum, kReadOff, kReadOff, unit));
}

double commonBendingFactor(const Comparison& comparison) {
    if (!comparison.printed.solid) return 1;
    const double diagonal_mm = boundsOf(comparison.printed.solid->mesh).size().norm();
    const double wanted = 0.08 * diagonal_mm / commonFieldMaximum(comparison);
    const double decade = std::pow(10.0, std::floor(std::log10(wanted)));
    for (const double step : {5.0, 2.0})
        if (step * decade <= wanted) return step * decade;
    return decade;
}

}  // namespace waybench
