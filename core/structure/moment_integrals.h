#pragma once
#include <cmath>

#include "core/structure/cell_moments.h"
#include "core/structure/clipping.h"

namespace waybench::statics {

/// Integrals of x^i y^j over a footprint in cell coordinates, index i + 3 j.
using Plane = std::array<double, 9>;

/// Integrals of z^k between two cell heights, k = 0..2.
inline std::array<double, 3> heightIntegrals(double low, double high) {
    return {high - low, 0.5 * (high * high - low * low), (high * high * high - low * low * low) / 3.0};
}

inline void addPrism(Moments& m, const Plane& footprint, double low, double high) {
    const auto height = heightIntegrals(low, high);
    for (std::size_t k = 0; k < 3; ++k)
        for (std::size_t j = 0; j < 3; ++j)
            for (std::size_t i = 0; i < 3; ++i)
                if (i + j + k <= 4) m.value[i + 3 * j + 9 * k] += footprint[i + 3 * j] * height[k];
}

/// Adds what lies below a triangle of the surface down to the cell's floor, positive where it faces up, and its
/// footprint.
inline void addBelow(const Vec3& p, const Vec3& q, const Vec3& r, Moments& under, Plane& shadow) {
    const double area = 0.5 * ((q[0] - p[0]) * (r[1] - p[1]) - (q[1] - p[1]) * (r[0] - p[0]));
    if (area == 0) return;
    for (const TrianglePoint& tp : trianglePoints()) {
        const Vec3 x = tp.a * p + tp.b * q + tp.c * r;
        const double w = area * tp.weight;
        const double wx[3] = {w, w * x[0], w * x[0] * x[0]}, y[3] = {1, x[1], x[1] * x[1]};
        const auto height = heightIntegrals(-1, x[2]);
        for (std::size_t j = 0; j < 3; ++j)
            for (std::size_t i = 0; i < 3; ++i) {
                const double wxy = wx[i] * y[j];
                shadow[i + 3 * j] += wxy;
                for (std::size_t k = 0; k < 3 && i + j + k <= 4; ++k)
                    under.value[i + 3 * j + 9 * k] += wxy * height[k];
            }
    }
}

/// Adds the strip between the line from a to b (cell coordinates x, y) and y = -1, times sign; the line runs from the
/// smaller x to the larger or back, it is the length that counts. `row` gets its shadow on the x axis.
inline void addStrip(double ax, double ay, double bx, double by, double sign, Plane& plane,
                     std::array<double, 3>& row) {
    static const std::array<std::array<double, 2>, 3> gauss{
        {{-std::sqrt(0.6), 5.0 / 9}, {0, 8.0 / 9}, {std::sqrt(0.6), 5.0 / 9}}};
    for (const auto& g : gauss) {
        const double s = 0.5 * (1 + g[0]);
        const double x = ax + s * (bx - ax), y = ay + s * (by - ay);
        const double w = 0.5 * g[1] * sign * std::abs(bx - ax);
        const auto height = heightIntegrals(-1, y);
        const double wx[3] = {w, w * x, w * x * x};
        for (std::size_t m = 0; m < 3; ++m) {
            row[m] += wx[m];
            for (std::size_t n = 0; n < 3; ++n)
                plane[m + 3 * n] += wx[m] * height[n];
        }
    }
}

}  // namespace waybench::statics
