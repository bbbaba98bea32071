#pragma once
#include "core/comparison/comparison.h"

namespace waybench {

/// Largest displacement magnitude of both routes, mm: the end of the shared colour scale. Never zero.
double commonFieldMaximum(const Comparison& comparison);
/// The end of a colour scale as a person reads it, in window and on the page alike.
std::string fieldEndText(double maximum, Unit unit);
/// The factor window and page draw the bending of both routes by: the largest displacement becomes at most 8 % of the
/// part's diagonal, rounded down to 1, 2 or 5 times a power of ten (below 1 for a part that bends beyond its size).
double commonBendingFactor(const Comparison& comparison);

}  // namespace waybench
