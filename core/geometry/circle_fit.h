#pragma once
#include <optional>
#include <vector>

#include "core/geometry/vector.h"

namespace waybench {

struct Circle {
    Vec2 centre = Vec2::Zero();
    double radius = 0;
};

/// Circle with the least sum of squared (distance^2 - radius^2); nothing for points on a line.
/// Source: I. Kasa, A circle fitting procedure and its error analysis, IEEE Trans. Instrum. Meas. 25 (1976).
std::optional<Circle> fittedCircle(const std::vector<Vec2>& points);

}  // namespace waybench
