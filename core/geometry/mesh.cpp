#include "core/geometry/mesh.h"

#include <algorithm>
#include <cmath>
#include <unordered_map>

namespace waybench {

namespace {

/// Undirected edge; forward tells whether the facet runs from the lower to the higher vertex index.
struct FacetEdge {
    std::uint32_t low, high;
    bool forward;
    bool operator<(const FacetEdge& o) const { return low != o.low ? low < o.low : high < o.high; }
};

struct Cell {
    std::int64_t x, y, z;
    bool operator==(const Cell&) const = default;
};
struct CellHash {
    std::size_t operator()(const Cell& c) const {
        std::uint64_t h = static_cast<std::uint64_t>(c.x) * 0x9E3779B97F4A7C15ULL;
        h = (h ^ (h >> 29)) + static_cast<std::uint64_t>(c.y) * 0xBF58476D1CE4E5B9ULL;
        h = (h ^ (h >> 31)) + static_cast<std::uint64_t>(c.z) * 0x94D049BB133111EBULL;
        return h ^ (h >> 30);
    }
};

}  // namespace

Box3 boundsOf(const Mesh& mesh) {
    Box3 box;
    for (const Vec3& v : mesh.vertices)
        box.include(v);
    return box;
}

double volumeOf(const Mesh& mesh) {
    if (mesh.vertices.empty()) return 0;
    const Vec3 origin = boundsOf(mesh).centre();  // keeps the terms small, so that they cancel exactly enough
    double six = 0;
    for (const auto& t : mesh.triangles) {
        const Vec3 a = mesh.vertices[t[0]] - origin, b = mesh.vertices[t[1]] - origin, c = mesh.vertices[t[2]] - origin;
        six += a.dot(b.cross(c));
    }
    return six / 6;
}

double areaOf(const Mesh& mesh) {
    double twice = 0;
    for (const auto& t : mesh.triangles) {
        const Vec3& a = mesh.vertices[t[0]];
        twice += (mesh.vertices[t[1]] - a).cross(mesh.vertices[t[2]] - a).norm();
    }
    return twice / 2;
}

Vec3 centroidOf(const Mesh& mesh) {
    if (mesh.vertices.empty()) return Vec3::Zero();
    const Vec3 origin = boundsOf(mesh).centre();
    double six = 0;
    Vec3 moment = Vec3::Zero();
    for (const auto& t : mesh.triangles) {
        const Vec3 a = mesh.vertices[t[0]] - origin, b = mesh.vertices[t[1]] - origin, c = mesh.vertices[t[2]] - origin;
        const double v = a.dot(b.cross(c));
        six += v;
        moment += v * (a + b + c) / 4;
    }
    return std::abs(six) > 0 ? Vec3(origin + moment / six) : origin;
}

Vec3 normalOf(const Mesh& mesh, std::size_t triangle) {
    const auto& t = mesh.triangles[triangle];
    const Vec3 ab = mesh.vertices[t[1]] - mesh.vertices[t[0]];
    const Vec3 ac = mesh.vertices[t[2]] - mesh.vertices[t[0]];
    const Vec3 n = ab.cross(ac);
    const double length = n.norm();
    if (!(length > 1e-14 * std::max(ab.squaredNorm(), ac.squaredNorm()))) return Vec3::Zero();
    return n / length;
}

Mesh transformed(const Mesh& mesh, const Mat3& rotation, const Vec3& shift) {
    Mesh result = mesh;
    for (Vec3& v : result.vertices)
        v = rotation * v + shift;
    return result;
}

Leak findLeak(const Mesh& mesh) {
    std::vector<FacetEdge> edges;
    edges.reserve(mesh.triangles.size() * 3);
    for (const auto& t : mesh.triangles) {
        if (t[0] == t[1] || t[1] == t[2] || t[2] == t[0]) continue;
        for (int k = 0; k < 3; ++k) {
            const std::uint32_t a = t[k], b = t[(k + 1) % 3];
            edges.push_back({std::min(a, b), std::max(a, b), a < b});
        }
    }
    std::sort(edges.begin(), edges.end());
    Leak leak;
    for (std::size_t i = 0; i < edges.size();) {
        std::size_t end = i, forward = 0;
        while (end < edges.size() && edges[end].low == edges[i].low && edges[end].high == edges[i].high)
            forward += edges[end++].forward ? 1 : 0;
        if (end - i != 2 || forward != 1) {
            if (leak.openEdges == 0) leak.place = 0.5 * (mesh.vertices[edges[i].low] + mesh.vertices[edges[i].high]);
            ++leak.openEdges;
        }
        i = end;
    }
    return leak;
}

Mesh welded(const Mesh& mesh, double tolerance_mm) {
    const double tolerance = std::max(tolerance_mm, 0.0);
    const double cell = tolerance > 0 ? tolerance : 1e-9;
    std::unordered_map<Cell, std::vector<std::uint32_t>, CellHash> kept;
    kept.reserve(mesh.vertices.size());
    Mesh result;
    std::vector<std::uint32_t> renamed(mesh.vertices.size());
    for (std::size_t i = 0; i < mesh.vertices.size(); ++i) {
        const Vec3& v = mesh.vertices[i];
        const Cell home{std::llround(v.x() / cell), std::llround(v.y() / cell), std::llround(v.z() / cell)};
        std::uint32_t found = UINT32_MAX;
        double nearest = tolerance;
        for (std::int64_t x = -1; x <= 1; ++x)
            for (std::int64_t y = -1; y <= 1; ++y)
                for (std::int64_t z = -1; z <= 1; ++z) {
                    const auto there = kept.find({home.x + x, home.y + y, home.z + z});
                    if (there == kept.end()) continue;
                    for (std::uint32_t candidate : there->second) {
                        const double distance = (result.vertices[candidate] - v).norm();
                        if (distance < nearest || (distance <= nearest && found == UINT32_MAX)) {
                            nearest = distance;
                            found = candidate;
                        }
                    }
                }
        if (found == UINT32_MAX) {
            found = static_cast<std::uint32_t>(result.vertices.size());
            result.vertices.push_back(v);
            kept[home].push_back(found);
        }
        renamed[i] = found;
    }
    for (const auto& t : mesh.triangles) {
        const std::array<std::uint32_t, 3> n{renamed[t[0]], renamed[t[1]], renamed[t[2]]};
        if (n[0] != n[1] && n[1] != n[2] && n[2] != n[0]) result.triangles.push_back(n);
    }
    return result;
}

}  // namespace waybench
