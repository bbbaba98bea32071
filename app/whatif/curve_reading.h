#pragma once
#include <map>
#include <memory>
#include <optional>

#include "core/comparison/sweep.h"

namespace waybench {

using PointsByValue = std::map<double, std::shared_ptr<const SweepPoint>>;

/// What a curve reads between its computed points, straight from one to the next, bounds alike; empty outside them.
std::optional<Figure> between(const PointsByValue& points, double at, Question question, RouteKind route);
/// A value of the axis to about a thousandth of the range, so that a dragged cursor gives 9.4 and not 9.41273.
double rounded(double value, double range);
/// Whether both routes of the part really have the variable at its current value, and none a value of its own.
bool standsAt(const Part& part, const Variable& variable);

}  // namespace waybench
