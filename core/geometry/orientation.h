#pragma once
#include "core/geometry/vector.h"

namespace waybench {

/// Sign of the turn a -> b -> c: +1 left, -1 right, 0 exactly straight. Exact for every finite input that does not
/// overflow: floating-point filter first, then an exact sum of products.
/// Source: J. R. Shewchuk, Adaptive Precision Floating-Point Arithmetic and Fast Robust Geometric Predicates,
/// Discrete & Computational Geometry 18 (1997), section 4.1 (orient2d) and 2.4 (expansion sum).
int turnOf(const Vec2& a, const Vec2& b, const Vec2& c);

}  // namespace waybench
