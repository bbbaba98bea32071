#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <map>
#include <random>

#include "core/geometry/polygon.h"

using namespace waybench;

namespace {

std::vector<Vec2> pointsOf(const Region& island) {
    std::vector<Vec2> points;
    for (const Ring& ring : island)
        points.insert(points.end(), ring.begin(), ring.end());
    return points;
}

double areaOfTriangles(const Region& island, const std::vector<std::array<std::uint32_t, 3>>& triangles) {
    const std::vector<Vec2> points = pointsOf(island);
    double area = 0;
    for (const auto& t : triangles) {
        const Vec2 ab = points.at(t[1]) - points.at(t[0]), ac = points.at(t[2]) - points.at(t[0]);
        const double twice = ab.x() * ac.y() - ab.y() * ac.x();
        REQUIRE(twice >= 0);
        area += twice / 2;
    }
    return area;
}

/// Every ring edge belongs to one triangle, every other edge to two in opposite sense.
bool coversRingsExactly(const Region& island, const std::vector<std::array<std::uint32_t, 3>>& triangles) {
    std::map<std::pair<std::uint32_t, std::uint32_t>, int> edges;
    for (const auto& t : triangles)
        for (int k = 0; k < 3; ++k)
            if (++edges[{t[k], t[(k + 1) % 3]}] > 1) return false;
    std::size_t ringEdges = 0;
    std::uint32_t begin = 0;
    for (const Ring& ring : island) {
        const auto n = static_cast<std::uint32_t>(ring.size());
        for (std::uint32_t i = 0; i < n; ++i) {
            const std::uint32_t a = begin + i, b = begin + (i + 1) % n;
            if (edges.count({a, b}) != 1 || edges.count({b, a}) != 0) return false;
        }
        ringEdges += n;
        begin += n;
    }
    std::size_t alone = 0;
    for (const auto& [edge, count] : edges)
        alone += edges.count({edge.second, edge.first}) == 0 ? 1 : 0;
    return alone == ringEdges;
}

Ring circle(const Vec2& centre, double radius, int n, bool hole) {
    Ring ring;
    for (int i = 0; i < n; ++i) {
        const double a = 2 * M_PI * (hole ? n - i : i) / n;
        ring.emplace_back(centre.x() + radius * std::cos(a), centre.y() + radius * std::sin(a));
    }
    return ring;
}

void requireExact(const Region& island) {
    const auto triangles = triangulate(island);
    const std::size_t points = pointsOf(island).size();
    CHECK(triangles.size() == points + 2 * (island.size() - 1) - 2);
    CHECK(areaOfTriangles(island, triangles) == Approx(areaOf(island)).epsilon(1e-9));
    CHECK(coversRingsExactly(island, triangles));
}

}  // namespace

TEST_CASE("A rectangle with points on its edges becomes triangles with area that use every edge") {
    requireExact({{{0, 0}, {1, 0}, {3, 0}, {4, 0}, {4, 2}, {4, 3}, {2, 3}, {0, 3}, {0, 1}}});
    const Region island{{{0, 0}, {1, 0}, {3, 0}, {4, 0}, {4, 2}, {4, 3}, {2, 3}, {0, 3}, {0, 1}}};
    const std::vector<Vec2> points = pointsOf(island);
    for (const auto& t : triangulate(island)) {
        const Vec2 ab = points[t[1]] - points[t[0]], ac = points[t[2]] - points[t[0]];
        CHECK(ab.x() * ac.y() - ab.y() * ac.x() > 0.1);
    }
}

TEST_CASE("Points on edges of a turned rectangle, straight only within rounding, are kept") {
    std::mt19937 random(11);
    std::uniform_real_distribution<double> angle(0, 6.3), share(0.01, 0.99);
    for (int i = 0; i < 200; ++i) {
        const double a = angle(random), c = std::cos(a), s = std::sin(a);
        const auto turned = [&](double x, double y) { return Vec2(c * x - s * y, s * x + c * y); };
        const double u = 10 * share(random), v = 7 * share(random);
        Region island{{turned(0, 0), turned(u, 0), turned(10, 0), turned(10, v), turned(10, 7), turned(u, 7),
                       turned(0, 7), turned(0, v)}};
        requireExact(island);
    }
}

TEST_CASE("A plate with a grid of round holes is triangulated exactly") {
    Region island{{{0, 0}, {120, 0}, {120, 60}, {0, 60}}};
    for (int i = 0; i < 10; ++i)
        for (int j = 0; j < 5; ++j)
            island.push_back(circle({6 + 12.0 * i, 6 + 12.0 * j}, 4, 32, true));
    requireExact(island);
}

TEST_CASE("Random star polygons with random holes are triangulated exactly") {
    std::mt19937 random(7);
    std::uniform_real_distribution<double> unit(0, 1);
    for (int trial = 0; trial < 150; ++trial) {
        const int n = 5 + static_cast<int>(unit(random) * 60);
        Ring star;
        for (int i = 0; i < n; ++i) {
            const double a = 2 * M_PI * (i + 0.8 * unit(random)) / n, r = 30 + 40 * unit(random);
            star.emplace_back(r * std::cos(a), r * std::sin(a));
        }
        Region island{star};
        const int wanted = static_cast<int>(unit(random) * 6);
        std::vector<std::pair<Vec2, double>> placed;
        for (int tries = 0; tries < 40 && static_cast<int>(placed.size()) < wanted; ++tries) {
            const double r = 1 + 4 * unit(random), a = 2 * M_PI * unit(random), d = 15 * unit(random);
            const Vec2 centre(d * std::cos(a), d * std::sin(a));
            bool free = true;
            for (const auto& [c, q] : placed)
                free = free && (c - centre).norm() > r + q + 0.1;
            if (!free) continue;
            placed.emplace_back(centre, r);
            island.push_back(circle(centre, r, 3 + static_cast<int>(unit(random) * 30), true));
        }
        // A star with long gaps between its corners can dip below its holes: only proper islands are asked for.
        bool proper = true;
        for (std::size_t h = 1; h < island.size(); ++h) {
            const Region outside = differenceOf({Ring(island[h].rbegin(), island[h].rend())}, {star});
            proper = proper && outside.empty();
        }
        if (proper) requireExact(island);
    }
}

TEST_CASE("Comb, spiral and mixed winding are triangulated exactly") {
    Ring comb;
    for (int i = 0; i < 20; ++i) {
        comb.emplace_back(2.0 * i, 0);
        comb.emplace_back(2.0 * i + 1, 30);
    }
    comb.emplace_back(40, -1);
    comb.emplace_back(0, -1);
    std::reverse(comb.begin(), comb.end());
    requireExact({comb});
    Ring spiral;
    for (int i = 0; i <= 100; ++i)
        spiral.emplace_back((5 + 0.1 * i) * std::cos(0.2 * i), (5 + 0.1 * i) * std::sin(0.2 * i));
    for (int i = 100; i >= 0; --i)
        spiral.emplace_back((4 + 0.1 * i) * std::cos(0.2 * i), (4 + 0.1 * i) * std::sin(0.2 * i));
    requireExact({spiral});
}

TEST_CASE("Five thousand points with a hundred holes are triangulated exactly") {
    Region island{circle({0, 0}, 200, 1000, false)};
    for (int i = 0; i < 10; ++i)
        for (int j = 0; j < 10; ++j)
            island.push_back(circle({-112.5 + 25 * i, -112.5 + 25 * j}, 9, 40, true));
    requireExact(island);
}

TEST_CASE("Nothing becomes no triangles") {
    CHECK(triangulate({}).empty());
    CHECK(triangulate({{{0, 0}, {1, 0}}}).empty());
}
