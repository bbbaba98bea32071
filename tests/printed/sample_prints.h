#pragma once
#include <cmath>
#include <functional>

#include "core/bench/shop.h"
#include "core/geometry/mesh.h"
#include "core/geometry/polygon.h"
#include "core/printed/recipe.h"

namespace waybench::printed {

/// Shipped catalogue, read once.
inline const Shop& shippedShop() {
    static const Shop shop = readShop(resourceFolder());
    return shop;
}

inline Ring rectangle(double x0, double y0, double x1, double y1) {
    return {{x0, y0}, {x1, y0}, {x1, y1}, {x0, y1}};
}

inline Ring circle(double x, double y, double radius, int corners, bool isHole) {
    Ring ring;
    for (int i = 0; i < corners; ++i) {
        const double a = (isHole ? -2 : 2) * M_PI * i / corners;
        ring.emplace_back(x + radius * std::cos(a), y + radius * std::sin(a));
    }
    return ring;
}

/// Column of ruled sides over a region, scaled linearly from bottom to top: a prism for scale 1, a frustum otherwise.
inline Mesh column(const Region& region, double height, double topScale = 1) {
    Mesh mesh;
    for (const Region& island : islandsOf(region)) {
        const auto faces = triangulate(island);
        const std::uint32_t base = static_cast<std::uint32_t>(mesh.vertices.size());
        std::vector<Vec2> points;
        for (const Ring& ring : island)
            points.insert(points.end(), ring.begin(), ring.end());
        const std::uint32_t n = static_cast<std::uint32_t>(points.size());
        for (const Vec2& p : points)
            mesh.vertices.emplace_back(p.x(), p.y(), 0);
        for (const Vec2& p : points)
            mesh.vertices.emplace_back(topScale * p.x(), topScale * p.y(), height);
        for (const auto& f : faces) {
            mesh.triangles.push_back({base + f[0], base + f[2], base + f[1]});
            mesh.triangles.push_back({base + n + f[0], base + n + f[1], base + n + f[2]});
        }
        std::uint32_t at = base;
        for (const Ring& ring : island) {
            const std::uint32_t size = static_cast<std::uint32_t>(ring.size());
            for (std::uint32_t i = 0; i < size; ++i) {
                const std::uint32_t a = at + i, b = at + (i + 1) % size;
                mesh.triangles.push_back({a, b, b + n});
                mesh.triangles.push_back({a, b + n, a + n});
            }
            at += size;
        }
    }
    return mesh;
}

inline Mesh box(double x, double y, double z) {
    return column({rectangle(0, 0, x, y)}, z);
}

/// Ball of facets, resting at z = 0.
inline Mesh ball(double radius, int rings, int sectors) {
    Mesh mesh;
    mesh.vertices.emplace_back(0, 0, 0);
    for (int i = 1; i < rings; ++i)
        for (int j = 0; j < sectors; ++j) {
            const double p = M_PI * i / rings, q = 2 * M_PI * j / sectors;
            mesh.vertices.emplace_back(radius * std::sin(p) * std::cos(q), radius * std::sin(p) * std::sin(q),
                                       radius * (1 - std::cos(p)));
        }
    mesh.vertices.emplace_back(0, 0, 2 * radius);
    const auto at = [&](int i, int j) { return static_cast<std::uint32_t>(1 + (i - 1) * sectors + j % sectors); };
    const std::uint32_t top = static_cast<std::uint32_t>(mesh.vertices.size() - 1);
    for (int j = 0; j < sectors; ++j) {
        mesh.triangles.push_back({0, at(1, j + 1), at(1, j)});
        mesh.triangles.push_back({top, at(rings - 1, j), at(rings - 1, j + 1)});
        for (int i = 1; i + 1 < rings; ++i) {
            mesh.triangles.push_back({at(i, j), at(i, j + 1), at(i + 1, j + 1)});
            mesh.triangles.push_back({at(i, j), at(i + 1, j + 1), at(i + 1, j)});
        }
    }
    return mesh;
}

/// Bead width whose void-free spacing is exactly this, at a layer height.
inline double widthForSpacing(double spacing, double layerHeight) {
    return spacing + layerHeight * (1 - M_PI / 4);
}

}  // namespace waybench::printed
