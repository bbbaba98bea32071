#pragma once
#include <array>
#include <cstdint>
#include <utility>
#include <vector>

#include "core/geometry/mesh.h"

namespace waybench {

/// An edge without direction: the lower vertex first.
using EdgeKey = std::pair<std::uint32_t, std::uint32_t>;
inline EdgeKey edgeBetween(std::uint32_t a, std::uint32_t b) {
    return a < b ? EdgeKey(a, b) : EdgeKey(b, a);
}

/// What adjacency uses for "no such edge".
inline constexpr std::uint32_t kNoEdge = UINT32_MAX;

/// For each facet edge, numbered 3 * triangle + k from corner k to corner k + 1, the edge of another facet that runs
/// the opposite way between the same vertices; kNoEdge where the surface is open. Where more than two facets meet, they
/// are paired in index order.
std::vector<std::uint32_t> edgeTwins(const std::vector<std::array<std::uint32_t, 3>>& triangles);

/// For each vertex the lowest-ordered vertex that stands at exactly the same place.
std::vector<std::uint32_t> firstAtSamePlace(const std::vector<Vec3>& vertices);

}  // namespace waybench
