#include "core/structure/piece_moments.h"

#include <cmath>

#include "core/structure/moment_integrals.h"

namespace waybench::statics {

namespace {

/// What is known of one piece while its facets are gathered.
struct Gathered {
    Moments under;
    Plane shadow{};
    Plane top{};                  // its share of the top face
    std::array<double, 3> rim{};  // its share of the rim z = 1, y = 1: integrals of x^m
    std::array<double, 3> unusedRow{};
};

/// Integrals of x^m from -1 to x.
void addRim(std::array<double, 3>& rim, double x, double sign) {
    double power = x, start = -1;
    for (std::size_t m = 0; m < 3; ++m) {
        rim[m] += sign * (power - start) / double(m + 1);
        power *= x;
        start *= -1;
    }
}

void addTopEdge(Gathered& g, const Vec3& a, const Vec3& b, const Vec3& outward) {
    if (std::abs(outward[1]) > 1e-12) addStrip(a[0], a[1], b[0], b[1], outward[1] > 0 ? 1 : -1, g.top, g.unusedRow);
    if (std::abs(outward[0]) <= 1e-12) return;
    for (const Vec3& end : {a, b})
        if (end[1] == 1) addRim(g.rim, end[0], outward[0] > 0 ? 1 : -1);
}

}  // namespace

std::vector<Moments> momentsOfPieces(const SplitCell& split, int count) {
    std::vector<Gathered> gathered(std::size_t(count), Gathered{});
    for (const FacetInside& f : split.facets) {
        Gathered& g = gathered[std::size_t(f.piece)];
        const std::size_t corners = f.corners.size();
        for (std::size_t i = 1; i + 1 < corners; ++i)
            addBelow(f.corners[0], f.corners[i], f.corners[i + 1], g.under, g.shadow);
        for (std::size_t i = 0; i < corners; ++i) {
            const Vec3 &a = f.corners[i], &b = f.corners[(i + 1) % corners];
            if (a[2] == 1 && b[2] == 1) addTopEdge(g, a, b, f.outward);
        }
    }
    const Vec3 corner = Vec3::Constant(1 - 1e-7);
    bool isInside = false;
    const int covering = split.pieceAt(corner, &isInside);
    if (isInside) addRim(gathered[std::size_t(covering)].rim, 1, 1);
    std::vector<Moments> pieces;
    for (Gathered& g : gathered) {
        const auto height = heightIntegrals(-1, 1);
        for (std::size_t m = 0; m < 3; ++m)
            for (std::size_t n = 0; n < 3; ++n)
                g.top[m + 3 * n] += g.rim[m] * height[n];
        addPrism(g.under, g.top, -1, 1);
        pieces.push_back(g.under);
    }
    return pieces;
}

}  // namespace waybench::statics
