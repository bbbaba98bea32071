#include "core/geometry/facet_cut.h"

#include <cmath>
#include <map>
#include <numbers>

#include "core/geometry/adjacency.h"
#include "core/geometry/facet.h"

namespace waybench {

void cutFacets(Solid& solid, const CutPlane& plane,
               const std::function<bool(std::uint32_t facet, const Box3& line)>& isWanted) {
    auto& vertices = solid.mesh.vertices;
    const auto sideOf = [&](std::uint32_t v) {
        const double d = plane.distance(vertices[v]);
        return d > kCutSlack_mm ? 1 : d < -kCutSlack_mm ? -1 : 0;
    };
    const auto crossing = [&](std::uint32_t a, std::uint32_t b) {
        if (a > b) std::swap(a, b);  // the same point from both facets at the edge
        const Vec3 &p = vertices[a], &q = vertices[b];
        Vec3 m = p - plane.distance(p) / plane.normal.dot(q - p) * (q - p);
        for (int axis = 0; axis < 3; ++axis)
            if (plane.normal[axis] == 1) m[axis] = plane.at;
        return m;
    };
    std::map<EdgeKey, std::uint32_t> made;
    for (std::uint32_t f = 0; f < solid.mesh.triangles.size(); ++f) {
        const auto t = solid.mesh.triangles[f];
        Box3 line;
        bool crosses = false;
        for (std::size_t k = 0; k < 3; ++k) {
            const std::uint32_t a = t[k], b = t[(k + 1) % 3];
            if (sideOf(a) == 0) line.include(vertices[a]);
            if (sideOf(a) * sideOf(b) >= 0) continue;
            line.include(crossing(a, b));
            crosses = true;
        }
        if (!crosses || !isWanted(f, line)) continue;
        for (std::size_t k = 0; k < 3; ++k) {
            const std::uint32_t a = t[k], b = t[(k + 1) % 3];
            if (sideOf(a) * sideOf(b) >= 0) continue;
            const auto [place, isNew] = made.try_emplace(edgeBetween(a, b), std::uint32_t(vertices.size()));
            if (isNew) vertices.push_back(crossing(a, b));
        }
    }
    if (made.empty()) return;
    decltype(solid.mesh.triangles) triangles;
    std::vector<std::uint32_t> faces;
    for (std::size_t i = 0; i < solid.mesh.triangles.size(); ++i) {
        const auto t = solid.mesh.triangles[i];
        const auto put = [&](std::uint32_t a, std::uint32_t b, std::uint32_t c) {
            triangles.push_back({a, b, c});
            faces.push_back(solid.faceOfTriangle[i]);
        };
        std::array<std::int64_t, 3> cut{-1, -1, -1};  // on the edge from corner k to the next
        int cuts = 0;
        for (std::size_t k = 0; k < 3; ++k)
            if (const auto found = made.find(edgeBetween(t[k], t[(k + 1) % 3])); found != made.end()) {
                cut[k] = found->second;
                ++cuts;
            }
        if (cuts == 0) {
            put(t[0], t[1], t[2]);
            continue;
        }
        // a plane cuts one edge or two; turned so that with two they meet at corner a, with one it is the edge a b
        std::size_t k = 0;
        while (!(cut[k] >= 0 && (cuts == 1 || cut[(k + 2) % 3] >= 0)))
            ++k;
        const std::uint32_t a = t[k], b = t[(k + 1) % 3], c = t[(k + 2) % 3], m = std::uint32_t(cut[k]);
        if (cuts == 1) {
            put(a, m, c);
            put(m, b, c);
        } else {
            const auto n = std::uint32_t(cut[(k + 2) % 3]);
            put(a, m, n);
            put(m, b, c);
            put(m, c, n);
        }
    }
    solid.mesh.triangles = std::move(triangles);
    solid.faceOfTriangle = std::move(faces);
}

CutPlane Prism::side(int k) const {
    const double half = std::numbers::pi / kSides;
    const double apothem = radius_mm * std::sqrt(half / std::tan(half));  // kSides apothem^2 tan(half) = pi radius^2
    const Vec3 across = axis.unitOrthogonal(), along = axis.cross(across);
    const Vec3 normal = std::cos((2 * k + 1) * half) * across + std::sin((2 * k + 1) * half) * along;
    return {normal, normal.dot(point) + apothem};
}

bool Prism::contains(const Vec3& p) const {
    for (int k = 0; k < kSides; ++k)
        if (side(k).distance(p) > 0) return false;
    return true;
}

void cutAlongPrism(Solid& solid, const Prism& prism, const std::function<bool(std::uint32_t facet)>& isWanted) {
    for (int k = 0; k < Prism::kSides; ++k)
        cutFacets(solid, prism.side(k), [&](std::uint32_t f, const Box3&) {
            if (!isWanted(f)) return false;
            // what earlier sides cut off stays whole
            const Vec3 centre = facetOf(solid.mesh, f).centre();
            for (int before = 0; before < k; ++before)
                if (prism.side(before).distance(centre) > 0) return false;
            return true;
        });
}

}  // namespace waybench
