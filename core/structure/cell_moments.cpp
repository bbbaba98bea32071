#include "core/structure/cell_moments.h"

#include <algorithm>
#include <cmath>

#include "core/structure/clipping.h"

namespace waybench::statics {

namespace {

constexpr double kWholeTolerance = 1e-7;

using Plane = std::array<double, 9>;  // integrals of x^i y^j over a footprint, index i + 3 j

/// Integrals of z^k between two cell heights, k = 0..2.
std::array<double, 3> heightIntegrals(double low, double high) {
    return {high - low, 0.5 * (high * high - low * low), (high * high * high - low * low * low) / 3.0};
}

void addPrism(Moments& m, const Plane& footprint, double low, double high) {
    const auto height = heightIntegrals(low, high);
    for (std::size_t k = 0; k < 3; ++k)
        for (std::size_t j = 0; j < 3; ++j)
            for (std::size_t i = 0; i < 3; ++i)
                if (i + j + k <= 4) m.value[i + 3 * j + 9 * k] += footprint[i + 3 * j] * height[k];
}

struct Touched {
    Moments under;   // below the facets that lie in this very cell
    Plane shadow{};  // footprint of those facets, which fills all cells below
};

}  // namespace

const std::array<TrianglePoint, 7>& trianglePoints() {
    static const std::array<TrianglePoint, 7> points = [] {
        const double root = std::sqrt(15.0);
        const double a1 = (6 - root) / 21, a2 = (6 + root) / 21;
        const double w1 = (155 - root) / 1200, w2 = (155 + root) / 1200, third = 1.0 / 3.0;
        return std::array<TrianglePoint, 7>{{{third, third, third, 9.0 / 40.0},
                                             {a1, a1, 1 - 2 * a1, w1},
                                             {a1, 1 - 2 * a1, a1, w1},
                                             {1 - 2 * a1, a1, a1, w1},
                                             {a2, a2, 1 - 2 * a2, w2},
                                             {a2, 1 - 2 * a2, a2, w2},
                                             {1 - 2 * a2, a2, a2, w2}}};
    }();
    return points;
}

Moments& Moments::operator+=(const Moments& other) {
    for (std::size_t i = 0; i < 27; ++i)
        value[i] += other.value[i];
    return *this;
}

Moments Moments::minus(const Moments& other) const {
    Moments m;
    for (std::size_t i = 0; i < 27; ++i)
        m.value[i] = value[i] - other.value[i];
    return m;
}

Moments wholeCell() {
    Moments m;
    addPrism(m, {4, 0, 4.0 / 3, 0, 0, 0, 4.0 / 3, 0, 4.0 / 9}, -1, 1);
    return m;
}

Moments CellMoments::of(std::size_t cell) const {
    const std::int32_t e = entry[cell];
    if (e == kEmpty) return {};
    return e == kWhole ? wholeCell() : cut[std::size_t(e)];
}

CellMoments momentsOf(const Mesh& mesh, const Grid& grid, const Task& task) {
    const int nz = grid.cells(2);
    std::vector<std::int32_t> touchedAt(grid.cellCount(), -1);
    std::vector<Touched> touched;
    int untilCheck = 256;
    for (const auto& t : mesh.triangles) {
        if (--untilCheck == 0) {
            task.check();
            untilCheck = 256;
        }
        const Vec3 &a = mesh.vertices[t[0]], &b = mesh.vertices[t[1]], &c = mesh.vertices[t[2]];
        const double upward = (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0]);
        if (upward == 0) continue;
        clipToCells(grid, a, b, c, [&](const Index3& cell, const Piece& piece) {
            std::int32_t& slot = touchedAt[grid.cellIndex(cell)];
            if (slot < 0) {
                slot = std::int32_t(touched.size());
                touched.emplace_back();
            }
            Touched& into = touched[std::size_t(slot)];
            std::array<Vec3, 16> local;
            for (int i = 0; i < piece.count; ++i)
                local[std::size_t(i)] = grid.localOf(cell, piece.corner[std::size_t(i)]);
            for (int i = 1; i + 1 < piece.count; ++i) {
                const Vec3 &p = local[0], &q = local[std::size_t(i)], &r = local[std::size_t(i) + 1];
                const double area = 0.5 * ((q[0] - p[0]) * (r[1] - p[1]) - (q[1] - p[1]) * (r[0] - p[0]));
                if (area == 0) continue;
                for (const TrianglePoint& tp : trianglePoints()) {
                    const Vec3 x = tp.a * p + tp.b * q + tp.c * r;
                    const double w = area * tp.weight;
                    const double wx[3] = {w, w * x[0], w * x[0] * x[0]}, y[3] = {1, x[1], x[1] * x[1]};
                    const auto height = heightIntegrals(-1, x[2]);
                    for (std::size_t j = 0; j < 3; ++j)
                        for (std::size_t i2 = 0; i2 < 3; ++i2) {
                            const double wxy = wx[i2] * y[j];
                            into.shadow[i2 + 3 * j] += wxy;
                            for (std::size_t k = 0; k < 3 && i2 + j + k <= 4; ++k)
                                into.under.value[i2 + 3 * j + 9 * k] += wxy * height[k];
                        }
                }
            }
        });
    }
    CellMoments result;
    result.entry.assign(grid.cellCount(), CellMoments::kEmpty);
    for (int j = 0; j < grid.cells(1); ++j) {
        task.check();
        for (int i = 0; i < grid.cells(0); ++i) {
            Plane above{};
            for (int k = nz - 1; k >= 0; --k) {
                const std::size_t cell = grid.cellIndex({i, j, k});
                const std::int32_t slot = touchedAt[cell];
                Moments m;
                addPrism(m, above, -1, 1);
                if (slot >= 0) {
                    m += touched[std::size_t(slot)].under;
                    for (std::size_t q = 0; q < 9; ++q)
                        above[q] += touched[std::size_t(slot)].shadow[q];
                }
                const double share = m.volume() / 8;
                if (share < kWholeTolerance) continue;
                if (share > 1 - kWholeTolerance) {
                    result.entry[cell] = CellMoments::kWhole;
                } else {
                    result.entry[cell] = std::int32_t(result.cut.size());
                    result.cut.push_back(m);
                }
            }
        }
    }
    return result;
}

PrismMoments::PrismMoments(const Grid& grid) : grid_(grid), entry_(grid.cellCount(), -1) {}

void PrismMoments::add(const std::vector<std::vector<Eigen::Vector2d>>& footprint, double bottom_mm, double top_mm) {
    if (top_mm <= bottom_mm) return;
    // Plane moments of the footprint in every column: each edge adds the strip below it (towards -y), signed.
    const int nx = grid_.cells(0), ny = grid_.cells(1);
    std::vector<Plane> plane(std::size_t(nx) * std::size_t(ny), Plane{});
    std::vector<std::array<double, 3>> rows(plane.size(), {0, 0, 0});  // strips that fill all cells below in y
    const auto gauss =
        std::array<std::array<double, 2>, 3>{{{-std::sqrt(0.6), 5.0 / 9}, {0, 8.0 / 9}, {std::sqrt(0.6), 5.0 / 9}}};
    for (const auto& ring : footprint)
        for (std::size_t e = 0; e < ring.size(); ++e) {
            const Eigen::Vector2d p = ring[e], q = ring[(e + 1) % ring.size()];
            if (p[0] == q[0]) continue;
            // cut parameters along the edge at all lines crossed
            std::vector<double> cuts{0, 1};
            for (int axis = 0; axis < 2; ++axis) {
                const double low = std::min(p[axis], q[axis]), high = std::max(p[axis], q[axis]);
                const auto& l = grid_.lines[axis];
                for (auto it = std::upper_bound(l.begin(), l.end(), low); it != l.end() && *it < high; ++it)
                    cuts.push_back((*it - p[axis]) / (q[axis] - p[axis]));
            }
            std::sort(cuts.begin(), cuts.end());
            for (std::size_t c = 0; c + 1 < cuts.size(); ++c) {
                if (cuts[c + 1] - cuts[c] < 1e-14) continue;
                const Eigen::Vector2d a = p + cuts[c] * (q - p), b = p + cuts[c + 1] * (q - p);
                const Eigen::Vector2d middle = 0.5 * (a + b);
                const int i = grid_.intervalOf(0, middle[0]), j = grid_.intervalOf(1, middle[1]);
                const Vec3 la = grid_.localOf({i, j, 0}, {a[0], a[1], 0}),
                           lb = grid_.localOf({i, j, 0}, {b[0], b[1], 0});
                const std::size_t column = std::size_t(j) * std::size_t(nx) + std::size_t(i);
                // material lies on the left: an edge running towards -x has it below
                for (const auto& g : gauss) {
                    const double s = 0.5 * (1 + g[0]);
                    const double x = la[0] + s * (lb[0] - la[0]), y = la[1] + s * (lb[1] - la[1]);
                    const double w = -0.5 * g[1] * (lb[0] - la[0]);
                    const auto height = heightIntegrals(-1, y);
                    const double wx[3] = {w, w * x, w * x * x};
                    for (std::size_t m = 0; m < 3; ++m) {
                        rows[column][m] += wx[m];
                        for (std::size_t n = 0; n < 3; ++n)
                            plane[column][m + 3 * n] += wx[m] * height[n];
                    }
                }
            }
        }
    for (int i = 0; i < nx; ++i) {
        std::array<double, 3> above{0, 0, 0};
        for (int j = ny - 1; j >= 0; --j) {
            const std::size_t column = std::size_t(j) * std::size_t(nx) + std::size_t(i);
            Plane& m = plane[column];
            const auto height = heightIntegrals(-1, 1);
            for (std::size_t a = 0; a < 3; ++a) {
                for (std::size_t b = 0; b < 3; ++b)
                    m[a + 3 * b] += above[a] * height[b];
                above[a] += rows[column][a];
            }
            if (m[0] / 4 < kWholeTolerance) continue;
            const int first = grid_.intervalOf(2, bottom_mm), last = grid_.intervalOf(2, top_mm);
            for (int k = first; k <= last; ++k) {
                const Index3 cell{i, j, k};
                const double low = std::max(-1.0, grid_.localOf(cell, {0, 0, bottom_mm})[2]);
                const double high = std::min(1.0, grid_.localOf(cell, {0, 0, top_mm})[2]);
                if (high - low < 1e-9) continue;
                std::int32_t& slot = entry_[grid_.cellIndex(cell)];
                if (slot < 0) {
                    slot = std::int32_t(own_.size());
                    own_.emplace_back();
                }
                addPrism(own_[std::size_t(slot)], m, low, high);
            }
        }
    }
}

CellMoments PrismMoments::finish() const {
    CellMoments result;
    result.entry.assign(entry_.size(), CellMoments::kEmpty);
    for (std::size_t cell = 0; cell < entry_.size(); ++cell) {
        if (entry_[cell] < 0) continue;
        const Moments& m = own_[std::size_t(entry_[cell])];
        const double share = m.volume() / 8;
        if (share < kWholeTolerance) continue;
        if (share > 1 - kWholeTolerance) {
            result.entry[cell] = CellMoments::kWhole;
        } else {
            result.entry[cell] = std::int32_t(result.cut.size());
            result.cut.push_back(m);
        }
    }
    return result;
}

}  // namespace waybench::statics
