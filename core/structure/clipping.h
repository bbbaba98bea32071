#pragma once
#include <algorithm>
#include <array>

#include "core/structure/grid.h"

namespace waybench::statics {

/// A convex planar polygon of few corners: a triangle and what clipping leaves of it.
struct Piece {
    std::array<Vec3, 16> corner;
    int count = 0;

    Piece() = default;
    Piece(const Piece& other) { *this = other; }
    Piece& operator=(const Piece& other) {  // copies what is used only
        count = other.count;
        std::copy_n(other.corner.begin(), count, corner.begin());
        return *this;
    }
};

/// Splits a piece by the plane normal to the axis into the parts below and above. Corners on the plane go to both.
inline void split(const Piece& piece, int axis, double plane, Piece& below, Piece& above) {
    below.count = above.count = 0;
    for (int i = 0; i < piece.count; ++i) {
        const Vec3& p = piece.corner[std::size_t(i)];
        const Vec3& q = piece.corner[std::size_t((i + 1) % piece.count)];
        const double dp = p[axis] - plane, dq = q[axis] - plane;
        if (dp <= 0) below.corner[std::size_t(below.count++)] = p;
        if (dp >= 0) above.corner[std::size_t(above.count++)] = p;
        if ((dp < 0 && dq > 0) || (dp > 0 && dq < 0)) {
            Vec3 cut = p + (q - p) * (dp / (dp - dq));
            cut[axis] = plane;
            below.corner[std::size_t(below.count++)] = cut;
            above.corner[std::size_t(above.count++)] = cut;
        }
    }
}

/// Calls visit(interval, piece) for the part of the piece in every interval of the axis. A piece that lies wholly on a
/// line goes to the interval above it.
template <class Visit>
void slice(const Grid& grid, int axis, const Piece& piece, Visit&& visit) {
    if (piece.count < 3) return;
    double low = piece.corner[0][axis], high = low;
    for (int i = 1; i < piece.count; ++i) {
        low = std::min(low, piece.corner[std::size_t(i)][axis]);
        high = std::max(high, piece.corner[std::size_t(i)][axis]);
    }
    int interval = grid.intervalOf(axis, low);
    const int last = grid.cells(axis) - 1;
    Piece rest = piece, below, above;
    while (interval < last && grid.lines[axis][std::size_t(interval) + 1] < high) {
        split(rest, axis, grid.lines[axis][std::size_t(interval) + 1], below, above);
        if (below.count >= 3) visit(interval, below);
        rest = above;
        ++interval;
        if (rest.count < 3) return;
    }
    visit(interval, rest);
}

/// Calls visit(cell, piece) for the part of the triangle in every cell.
template <class Visit>
void clipToCells(const Grid& grid, const Vec3& a, const Vec3& b, const Vec3& c, Visit&& visit) {
    Piece whole;
    whole.corner[0] = a;
    whole.corner[1] = b;
    whole.corner[2] = c;
    whole.count = 3;
    slice(grid, 0, whole, [&](int i, const Piece& inX) {
        slice(grid, 1, inX, [&](int j, const Piece& inY) {
            slice(grid, 2, inY, [&](int k, const Piece& inZ) { visit(Index3{i, j, k}, inZ); });
        });
    });
}

/// Seven points on a triangle (barycentric) that integrate fifth-degree polynomials exactly.
/// Source: J. Radon (1948), Zur mechanischen Kubatur; weights and places in the form of the textbooks, from memory,
/// verified by test on all monomials.
struct TrianglePoint {
    double a, b, c, weight;
};
const std::array<TrianglePoint, 7>& trianglePoints();

}  // namespace waybench::statics
