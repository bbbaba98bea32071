#include "core/geometry/import/healing.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <numeric>
#include <set>
#include <tuple>

#include "core/geometry/adjacency.h"
#include "core/quantity/quantity_text.h"

namespace waybench {

namespace {

using Triangle = std::array<std::uint32_t, 3>;

constexpr std::size_t kMostOpenEdges = 20000;  // beyond that nothing is small about the fault

EdgeKey edgeOf(const Triangle& t, std::size_t k) {
    return edgeBetween(t[k], t[(k + 1) % 3]);
}

std::string facets(std::size_t count) {
    return std::to_string(count) + (count == 1 ? " facet " : " facets ");
}

/// Facets on the same three corners: one stays of those that face alike, none of a pair back to back.
std::size_t dropRepeated(Mesh& mesh) {
    struct Standing {
        Triangle corners;  // ascending
        bool isEven;       // which side is out
        std::uint32_t facet;
    };
    std::vector<Standing> all;
    all.reserve(mesh.triangles.size());
    for (std::uint32_t i = 0; i < mesh.triangles.size(); ++i) {
        const Triangle& t = mesh.triangles[i];
        Triangle sorted = t;
        std::sort(sorted.begin(), sorted.end());
        all.push_back({sorted, int(t[0] < t[1]) + int(t[1] < t[2]) + int(t[2] < t[0]) == 2, i});
    }
    std::sort(all.begin(), all.end(), [](const Standing& a, const Standing& b) {
        return std::tie(a.corners, a.facet) < std::tie(b.corners, b.facet);
    });
    std::vector<char> goes(mesh.triangles.size(), 0);
    for (std::size_t begin = 0, end = 0; begin < all.size(); begin = end) {
        std::size_t even = 0;
        for (end = begin; end < all.size() && all[end].corners == all[begin].corners; ++end)
            even += all[end].isEven ? 1 : 0;
        const bool isBackToBack = even > 0 && even < end - begin;
        for (std::size_t i = isBackToBack ? begin : begin + 1; i < end; ++i)
            goes[all[i].facet] = 1;
    }
    std::vector<Triangle> kept;
    for (std::size_t i = 0; i < goes.size(); ++i)
        if (goes[i] == 0) kept.push_back(mesh.triangles[i]);
    const std::size_t dropped = mesh.triangles.size() - kept.size();
    mesh.triangles = std::move(kept);
    return dropped;
}

std::map<EdgeKey, std::vector<std::uint32_t>> facetsAtEdges(const Mesh& mesh) {
    std::map<EdgeKey, std::vector<std::uint32_t>> at;
    for (std::uint32_t i = 0; i < mesh.triangles.size(); ++i)
        for (std::size_t k = 0; k < 3; ++k)
            at[edgeOf(mesh.triangles[i], k)].push_back(i);
    return at;
}

bool runsUp(const Triangle& t, const EdgeKey& edge) {
    for (std::size_t k = 0; k < 3; ++k)
        if (t[k] == edge.first && t[(k + 1) % 3] == edge.second) return true;
    return false;
}

/// In each connected stretch of surface the minority is turned over, where exactly two facets meet at every edge.
std::size_t turnMinority(Mesh& mesh) {
    const auto at = facetsAtEdges(mesh);
    std::vector<signed char> sense(mesh.triangles.size(), 0);  // against the first facet of its stretch
    std::size_t turned = 0;
    for (std::uint32_t seed = 0; seed < mesh.triangles.size(); ++seed) {
        if (sense[seed] != 0) continue;
        std::vector<std::uint32_t> stretch{seed};
        sense[seed] = 1;
        std::size_t against = 0;
        for (std::size_t next = 0; next < stretch.size(); ++next) {
            const std::uint32_t here = stretch[next];
            for (std::size_t k = 0; k < 3; ++k) {
                const EdgeKey edge = edgeOf(mesh.triangles[here], k);
                const auto& both = at.at(edge);
                if (both.size() != 2) continue;
                const std::uint32_t other = both[0] == here ? both[1] : both[0];
                if (other == here || sense[other] != 0) continue;
                const bool agrees = runsUp(mesh.triangles[here], edge) != runsUp(mesh.triangles[other], edge);
                sense[other] = static_cast<signed char>(agrees ? sense[here] : -sense[here]);
                against += sense[other] < 0 ? 1 : 0;
                stretch.push_back(other);
            }
        }
        const signed char wrong = 2 * against > stretch.size() ? 1 : -1;
        for (const std::uint32_t i : stretch)
            if (sense[i] == wrong && against > 0) {
                std::swap(mesh.triangles[i][1], mesh.triangles[i][2]);
                ++turned;
            }
    }
    return turned;
}

std::vector<EdgeKey> openEdges(const Mesh& mesh) {
    std::vector<EdgeKey> open;
    for (const auto& [edge, at] : facetsAtEdges(mesh))
        if (at.size() == 1) open.push_back(edge);
    return open;
}

void dropCollapsed(Mesh& mesh) {
    std::erase_if(mesh.triangles, [](const Triangle& t) { return t[0] == t[1] || t[1] == t[2] || t[2] == t[0]; });
}

/// Vertices of open edges closer than the crack become one. @return width of the widest crack closed
double closeCracks(Mesh& mesh, double crack_mm) {
    const std::vector<EdgeKey> open = openEdges(mesh);
    if (open.empty() || open.size() > kMostOpenEdges) return 0;
    std::set<std::uint32_t> atRim;
    for (const EdgeKey& e : open)
        atRim.insert({e.first, e.second});
    std::vector<std::uint32_t> rim(atRim.begin(), atRim.end());
    std::sort(rim.begin(), rim.end(), [&](std::uint32_t a, std::uint32_t b) {
        const double xa = mesh.vertices[a].x(), xb = mesh.vertices[b].x();
        return xa != xb ? xa < xb : a < b;
    });
    std::vector<std::uint32_t> becomes(mesh.vertices.size());
    std::iota(becomes.begin(), becomes.end(), 0u);
    double widest = 0;
    for (std::size_t i = 0; i < rim.size(); ++i) {
        if (becomes[rim[i]] != rim[i]) continue;
        for (std::size_t j = i + 1; j < rim.size(); ++j) {
            const Vec3 apart = mesh.vertices[rim[j]] - mesh.vertices[rim[i]];
            if (apart.x() > crack_mm) break;
            if (becomes[rim[j]] != rim[j] || apart.norm() > crack_mm) continue;
            becomes[rim[j]] = rim[i];
            widest = std::max(widest, apart.norm());
        }
    }
    for (Triangle& t : mesh.triangles)
        for (std::uint32_t& v : t)
            v = becomes[v];
    dropCollapsed(mesh);
    return widest;
}

/// A facet whose open edge passes a rim vertex is cut there. One vertex at a time, until none is left.
std::size_t cutAtCorners(Mesh& mesh, double crack_mm) {
    std::size_t cuts = 0;
    for (int round = 0; round < 64; ++round) {
        const std::vector<EdgeKey> open = openEdges(mesh);
        if (open.empty() || open.size() > kMostOpenEdges / 10) return cuts;
        std::set<std::uint32_t> rim;
        for (const EdgeKey& e : open)
            rim.insert({e.first, e.second});
        std::map<EdgeKey, std::uint32_t> corner;
        for (const EdgeKey& e : open) {
            const Vec3 &a = mesh.vertices[e.first], &b = mesh.vertices[e.second];
            const Vec3 along = b - a;
            const double length = along.norm();
            double nearest = 2;
            for (const std::uint32_t v : rim) {
                if (v == e.first || v == e.second) continue;
                const double share = (mesh.vertices[v] - a).dot(along) / (length * length);
                const double off = (a + share * along - mesh.vertices[v]).norm();
                if (off > crack_mm || share * length <= crack_mm || (1 - share) * length <= crack_mm) continue;
                if (share < nearest) {
                    nearest = share;
                    corner[e] = v;
                }
            }
        }
        std::size_t made = 0;
        const std::size_t count = mesh.triangles.size();
        for (std::size_t i = 0; i < count; ++i)
            for (std::size_t k = 0; k < 3; ++k) {
                const Triangle t = mesh.triangles[i];
                const auto found = corner.find(edgeOf(t, k));
                if (found == corner.end() || t[(k + 2) % 3] == found->second) continue;
                mesh.triangles[i] = {t[k], found->second, t[(k + 2) % 3]};
                mesh.triangles.push_back({found->second, t[(k + 1) % 3], t[(k + 2) % 3]});
                ++made;
                break;
            }
        cuts += made;
        if (made == 0) return cuts;
    }
    return cuts;
}

}  // namespace

Healed healed(const Mesh& sick, double crack_mm) {
    Healed result{sick, {}};
    Mesh& mesh = result.mesh;
    if (const std::size_t dropped = dropRepeated(mesh); dropped > 0)
        result.notes.push_back(facets(dropped) + "stood twice and went");
    if (findLeak(mesh).openEdges == 0) return result;
    if (const double width = closeCracks(mesh, crack_mm); width > 0)
        result.notes.push_back("cracks up to " + plainNumber(std::ceil(1e4 * width) / 1e4) + " mm wide were closed");
    dropRepeated(mesh);
    if (const std::size_t cuts = cutAtCorners(mesh, crack_mm); cuts > 0)
        result.notes.push_back(facets(cuts) + "had a neighbour's corner on an edge and were cut there");
    if (const std::size_t turned = turnMinority(mesh); turned > 0)
        result.notes.push_back(facets(turned) + "faced the other way than their neighbours and were turned");
    return result;
}

}  // namespace waybench
