#include "core/geometry/adjacency.h"

#include <algorithm>
#include <numeric>

namespace waybench {

namespace {

struct Edge {
    std::uint64_t key;  ///< lower corner, higher corner
    std::uint32_t id;
};

/// By corners, then by id: counted into one row per lower corner first, of which each has few edges.
void sortByEdge(std::vector<Edge>& edges) {
    std::size_t corners = 0;
    for (const Edge& e : edges)
        corners = std::max<std::size_t>(corners, (e.key >> 32) + 1);
    std::vector<std::uint32_t> begin(corners + 1, 0);
    for (const Edge& e : edges)
        ++begin[(e.key >> 32) + 1];
    std::partial_sum(begin.begin(), begin.end(), begin.begin());
    std::vector<Edge> sorted(edges.size());
    std::vector<std::uint32_t> next(begin.begin(), begin.end() - 1);
    for (const Edge& e : edges)
        sorted[next[e.key >> 32]++] = e;
    for (std::size_t c = 0; c < corners; ++c)
        std::sort(sorted.begin() + begin[c], sorted.begin() + begin[c + 1],
                  [](const Edge& a, const Edge& b) { return a.key != b.key ? a.key < b.key : a.id < b.id; });
    edges = std::move(sorted);
}

}  // namespace

std::vector<std::uint32_t> edgeTwins(const std::vector<std::array<std::uint32_t, 3>>& triangles) {
    std::vector<Edge> forward, backward;
    forward.reserve(triangles.size() * 2);
    backward.reserve(triangles.size() * 2);
    for (std::uint32_t t = 0; t < triangles.size(); ++t)
        for (std::uint32_t k = 0; k < 3; ++k) {
            const std::uint64_t a = triangles[t][k], b = triangles[t][(k + 1) % 3];
            if (a < b)
                forward.push_back({a << 32 | b, 3 * t + k});
            else
                backward.push_back({b << 32 | a, 3 * t + k});
        }
    sortByEdge(forward);
    sortByEdge(backward);
    std::vector<std::uint32_t> twin(triangles.size() * 3, kNoEdge);
    for (std::size_t i = 0, j = 0; i < forward.size() && j < backward.size();) {
        if (forward[i].key == backward[j].key) {
            twin[forward[i].id] = backward[j].id;
            twin[backward[j].id] = forward[i].id;
            ++i, ++j;
        } else if (forward[i].key < backward[j].key) {
            ++i;
        } else {
            ++j;
        }
    }
    return twin;
}

std::vector<std::uint32_t> firstAtSamePlace(const std::vector<Vec3>& vertices) {
    std::vector<std::uint32_t> order(vertices.size()), first(vertices.size());
    std::iota(order.begin(), order.end(), 0u);
    std::sort(order.begin(), order.end(), [&](std::uint32_t a, std::uint32_t b) {
        const Vec3 &p = vertices[a], &q = vertices[b];
        if (p.x() != q.x()) return p.x() < q.x();
        if (p.y() != q.y()) return p.y() < q.y();
        if (p.z() != q.z()) return p.z() < q.z();
        return a < b;
    });
    for (std::size_t i = 0; i < order.size(); ++i) {
        const bool same = i > 0 && vertices[order[i]] == vertices[order[i - 1]];
        first[order[i]] = same ? first[order[i - 1]] : order[i];
    }
    return first;
}

}  // namespace waybench
