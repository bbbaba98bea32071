#include "core/geometry/section.h"

#include <algorithm>
#include <numeric>

#include "core/geometry/adjacency.h"

namespace waybench {

namespace {

constexpr double kJustAbove_mm = 1e-7;
constexpr double kClosableGap_mm = 1e-4;

/// Facets by corner place rather than index (equal places count as one), and the facet edge opposite each edge.
struct Adjacency {
    std::vector<std::array<std::uint32_t, 3>> triangles;
    std::vector<std::uint32_t> twin;  ///< of edge 3 * triangle + k, from corner k to k + 1
};

Adjacency adjacencyOf(const Mesh& mesh, const Task& task = Task()) {
    Adjacency result;
    const std::vector<std::uint32_t> first = firstAtSamePlace(mesh.vertices);
    result.triangles.reserve(mesh.triangles.size());
    for (const auto& t : mesh.triangles) {
        const std::array<std::uint32_t, 3> n{first[t[0]], first[t[1]], first[t[2]]};
        if (n[0] != n[1] && n[1] != n[2] && n[2] != n[0]) result.triangles.push_back(n);
    }
    task.check();
    result.twin = edgeTwins(result.triangles);
    return result;
}

/// Joins open chains end to start where they nearly meet; drops what stays open.
void closeChains(std::vector<Ring>& chains, std::vector<Ring>& rings) {
    std::vector<bool> used(chains.size(), false);
    for (std::size_t i = 0; i < chains.size(); ++i) {
        if (used[i]) continue;
        used[i] = true;
        Ring ring = chains[i];
        while ((ring.back() - ring.front()).norm() > kClosableGap_mm) {
            std::size_t next = chains.size();
            double nearest = kClosableGap_mm;
            for (std::size_t j = 0; j < chains.size(); ++j) {
                const double gap = used[j] ? 1e300 : (chains[j].front() - ring.back()).norm();
                if (gap <= nearest) nearest = gap, next = j;
            }
            if (next == chains.size()) break;
            used[next] = true;
            ring.insert(ring.end(), chains[next].begin(), chains[next].end());
        }
        if ((ring.back() - ring.front()).norm() <= kClosableGap_mm && ring.size() > 3) {
            ring.pop_back();
            rings.push_back(std::move(ring));
        }
    }
}

}  // namespace

std::vector<Region> sectionsAt(const Mesh& mesh, std::span<const double> heights_mm) {
    return MeshSections(mesh).at(heights_mm);
}

MeshSections::MeshSections(const Mesh& mesh, const Task& task) : mesh_(mesh) {
    Adjacency adjacency = adjacencyOf(mesh, task);
    triangles_ = std::move(adjacency.triangles);
    twin_ = std::move(adjacency.twin);
}

std::vector<Region> MeshSections::at(std::span<const double> heights_mm, const Task& task) const {
    std::vector<double> heights(heights_mm.begin(), heights_mm.end());
    for (double& h : heights)
        h += kJustAbove_mm;
    const auto& triangles = triangles_;
    const auto z = [&](std::uint32_t v) { return mesh_.vertices[v].z(); };

    // Facets per height, in one array: a facet is cut where lowest <= height < highest.
    std::vector<std::array<std::uint32_t, 2>> cut(triangles.size());
    std::vector<std::size_t> begin(heights.size() + 1, 0);
    for (std::size_t t = 0; t < triangles.size(); ++t) {
        const auto [low, high] = std::minmax({z(triangles[t][0]), z(triangles[t][1]), z(triangles[t][2])});
        const auto from = std::lower_bound(heights.begin(), heights.end(), low);
        const auto to = std::lower_bound(from, heights.end(), high);
        cut[t] = {static_cast<std::uint32_t>(from - heights.begin()), static_cast<std::uint32_t>(to - heights.begin())};
        for (std::uint32_t h = cut[t][0]; h < cut[t][1]; ++h)
            ++begin[h + 1];
    }
    std::partial_sum(begin.begin(), begin.end(), begin.begin());
    std::vector<std::uint32_t> cutFacets(begin.back());
    std::vector<std::size_t> fill(begin.begin(), begin.end() - 1);
    for (std::uint32_t t = 0; t < triangles.size(); ++t)
        for (std::uint32_t h = cut[t][0]; h < cut[t][1]; ++h)
            cutFacets[fill[h]++] = t;

    std::vector<Region> sections(heights.size());
    std::vector<std::uint32_t> visited(triangles.size(), kNoEdge);
    for (std::uint32_t h = 0; h < heights.size(); ++h) {
        task.check();
        const double height = heights[h];
        // The edge by which the cut leaves a facet climbs through the height, the one by which it enters falls:
        // walked so, material lies left.
        const auto edgeOf = [&](std::uint32_t t, bool climbing) {
            for (std::uint32_t k = 0; k < 3; ++k) {
                const bool aboveA = z(triangles[t][k]) > height, aboveB = z(triangles[t][(k + 1) % 3]) > height;
                if (aboveA != aboveB && aboveB == climbing) return k;
            }
            return kNoEdge;  // not reached: the facet is cut
        };
        const auto pointOn = [&](std::uint32_t t, std::uint32_t k) {
            std::uint32_t a = triangles[t][k], b = triangles[t][(k + 1) % 3];
            if (a > b) std::swap(a, b);  // the same point from both sides
            const Vec3 &p = mesh_.vertices[a], &q = mesh_.vertices[b];
            const double s = (height - p.z()) / (q.z() - p.z());
            return Vec2(p.x() + s * (q.x() - p.x()), p.y() + s * (q.y() - p.y()));
        };
        std::vector<Ring> rings, chains;
        const auto walk = [&](std::uint32_t start, Ring& ring) {
            std::uint32_t t = start;
            while (true) {
                visited[t] = h;
                const std::uint32_t k = edgeOf(t, true);
                ring.push_back(pointOn(t, k));
                const std::uint32_t over = twin_[3 * t + k];
                if (over == kNoEdge) return false;
                t = over / 3;
                if (visited[t] == h) return t == start;
            }
        };
        bool anyOpen = false;
        for (std::size_t i = begin[h]; i < begin[h + 1]; ++i) {  // open chains first, from their loose ends
            const std::uint32_t t = cutFacets[i], k = edgeOf(t, false);
            if (twin_[3 * t + k] != kNoEdge) continue;
            anyOpen = true;
            Ring chain{pointOn(t, k)};
            walk(t, chain);
            chains.push_back(std::move(chain));
        }
        for (std::size_t i = begin[h]; i < begin[h + 1]; ++i) {
            if (visited[cutFacets[i]] == h) continue;
            Ring ring;
            if (walk(cutFacets[i], ring) && ring.size() >= 3) rings.push_back(std::move(ring));
        }
        if (anyOpen) closeChains(chains, rings);
        sections[h] = unionOf(std::vector<Region>{rings});
    }
    return sections;
}

Region shadowOf(const Mesh& mesh) {
    // The facets that look upwards, projected, wind once around every place they cover; edges between two of them
    // cancel. What is left winds around the shadow as often as it is covered: its non-zero union is the shadow.
    const Adjacency adjacency = adjacencyOf(mesh);
    const auto& triangles = adjacency.triangles;
    std::vector<bool> up(triangles.size());
    for (std::size_t t = 0; t < triangles.size(); ++t) {
        const Vec3 &a = mesh.vertices[triangles[t][0]], &b = mesh.vertices[triangles[t][1]],
                   &c = mesh.vertices[triangles[t][2]];
        up[t] = (b.x() - a.x()) * (c.y() - a.y()) - (b.y() - a.y()) * (c.x() - a.x()) > 0;
    }
    struct Edge {
        std::uint32_t from, to;
    };
    std::vector<Edge> rim;
    for (std::uint32_t t = 0; t < triangles.size(); ++t) {
        if (!up[t]) continue;
        for (std::uint32_t k = 0; k < 3; ++k) {
            const std::uint32_t twin = adjacency.twin[3 * t + k];
            if (twin == kNoEdge || !up[twin / 3]) rim.push_back({triangles[t][k], triangles[t][(k + 1) % 3]});
        }
    }
    std::sort(rim.begin(), rim.end(),
              [](const Edge& a, const Edge& b) { return a.from != b.from ? a.from < b.from : a.to < b.to; });
    std::vector<bool> used(rim.size(), false);
    std::vector<std::uint32_t> nextFrom(mesh.vertices.size(), kNoEdge);
    for (std::size_t i = rim.size(); i-- > 0;)
        nextFrom[rim[i].from] = static_cast<std::uint32_t>(i);
    Region rings;
    for (std::size_t i = 0; i < rim.size(); ++i) {
        if (used[i]) continue;
        Ring ring;
        std::size_t e = i;
        while (true) {
            used[e] = true;
            ring.emplace_back(mesh.vertices[rim[e].from].head<2>());
            const std::uint32_t v = rim[e].to;
            std::uint32_t& next = nextFrom[v];
            while (next != kNoEdge && next < rim.size() && rim[next].from == v && used[next])
                ++next;
            if (next == kNoEdge || next >= rim.size() || rim[next].from != v) break;
            e = next;
        }
        if (ring.size() >= 3) rings.push_back(std::move(ring));
    }
    return unionOf(std::vector<Region>{rings});
}

}  // namespace waybench
