#include "core/structure/cell_moments.h"

#include <algorithm>
#include <cmath>

#include "core/structure/moment_integrals.h"

namespace waybench::statics {

namespace {

constexpr double kWholeTolerance = 1e-7;

struct Touched {
    Moments under;   // below the facets that lie in this very cell
    Plane shadow{};  // footprint of those facets, which fills all cells below
    // Areas seen along each axis, signed by the outward normal, a whole face 4: facets inside the cell, and facets
    // lying on its low face where the material ends or begins.
    std::array<double, 3> inside{}, ending{}, beginning{};
};

bool liesOnLowFace(const std::array<Vec3, 16>& local, int count, int axis) {
    for (int i = 0; i < count; ++i)
        if (local[std::size_t(i)][axis] > -1 + 1e-9) return false;
    return true;
}

void addAreas(Touched& into, const std::array<Vec3, 16>& local, int count) {
    Vec3 seen = Vec3::Zero();
    for (int i = 1; i + 1 < count; ++i)
        seen += 0.5 * (local[std::size_t(i)] - local[0]).cross(local[std::size_t(i) + 1] - local[0]);
    for (int axis = 0; axis < 3; ++axis) {
        auto& where = !liesOnLowFace(local, count, axis) ? into.inside : seen[axis] > 0 ? into.ending : into.beginning;
        where[std::size_t(axis)] += seen[axis];
    }
}

/// Walks every column of the grid from below: the area of material on a line follows from the facets passed.
std::vector<float> throughFaces(const Grid& grid, std::size_t axis, const std::vector<std::int32_t>& touchedAt,
                                const std::vector<Touched>& touched) {
    std::vector<float> through(grid.cellCount(), 0.0F);
    const std::size_t u = (axis + 1) % 3, v = (axis + 2) % 3;
    Index3 at{};
    for (at[v] = 0; at[v] < grid.cells(int(v)); ++at[v])
        for (at[u] = 0; at[u] < grid.cells(int(u)); ++at[u]) {
            double area = 0;
            for (at[axis] = 0; at[axis] < grid.cells(int(axis)); ++at[axis]) {
                const std::size_t cell = grid.cellIndex(at);
                const std::int32_t slot = touchedAt[cell];
                if (slot < 0) {
                    through[cell] = float(area / 4);
                    continue;
                }
                const Touched& t = touched[std::size_t(slot)];
                through[cell] = float(std::max(0.0, area - t.ending[axis]) / 4);
                area -= t.ending[axis] + t.beginning[axis] + t.inside[axis];
            }
        }
    return through;
}

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

CellMoments momentsOf(const Mesh& mesh, const Grid& grid, const Task& task, SurfaceInCells* surface) {
    const int nz = grid.cells(2);
    std::vector<std::int32_t> touchedAt(grid.cellCount(), -1);
    std::vector<Touched> touched;
    int untilCheck = 256;
    for (std::uint32_t n = 0; n < mesh.triangles.size(); ++n) {
        const auto& t = mesh.triangles[n];
        if (--untilCheck == 0) {
            task.check();
            untilCheck = 256;
        }
        const Vec3 &a = mesh.vertices[t[0]], &b = mesh.vertices[t[1]], &c = mesh.vertices[t[2]];
        const double upward = (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0]);
        if (upward == 0 && surface == nullptr) continue;
        clipToCells(grid, a, b, c, [&](const Index3& cell, const Piece& piece) {
            const std::size_t index = grid.cellIndex(cell);
            std::int32_t& slot = touchedAt[index];
            if (slot < 0) {
                slot = std::int32_t(touched.size());
                touched.emplace_back();
            }
            Touched& into = touched[std::size_t(slot)];
            std::array<Vec3, 16> local;
            for (int i = 0; i < piece.count; ++i)
                local[std::size_t(i)] = grid.localOf(cell, piece.corner[std::size_t(i)]);
            if (upward != 0)
                for (int i = 1; i + 1 < piece.count; ++i)
                    addBelow(local[0], local[std::size_t(i)], local[std::size_t(i) + 1], into.under, into.shadow);
            if (surface != nullptr) {
                addAreas(into, local, piece.count);
                surface->facets.emplace_back(std::uint32_t(index), n);
            }
        });
    }
    if (surface != nullptr) {
        std::sort(surface->facets.begin(), surface->facets.end());
        for (std::size_t axis = 0; axis < 3; ++axis)
            surface->through[axis] = throughFaces(grid, axis, touchedAt, touched);
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

std::size_t MaterialInCells::activeCells() const {
    return std::size_t(std::count_if(moments.entry.begin(), moments.entry.end(),
                                     [](std::int32_t e) { return e != CellMoments::kEmpty; }));
}

MaterialInCells materialInCells(const Mesh& mesh, const Grid& grid, const Task& task) {
    MaterialInCells result;
    result.moments = momentsOf(mesh, grid, task, &result.surface);
    return result;
}

PrismMoments::PrismMoments(const Grid& grid) : grid_(grid), entry_(grid.cellCount(), -1) {}

void PrismMoments::add(const std::vector<std::vector<Eigen::Vector2d>>& footprint, double bottom_mm, double top_mm) {
    if (top_mm <= bottom_mm) return;
    // Plane moments of the footprint in every column: each edge adds the strip below it (towards -y), signed.
    const int nx = grid_.cells(0), ny = grid_.cells(1);
    std::vector<Plane> plane(std::size_t(nx) * std::size_t(ny), Plane{});
    std::vector<std::array<double, 3>> rows(plane.size(), {0, 0, 0});  // strips that fill all cells below in y
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
                addStrip(la[0], la[1], lb[0], lb[1], lb[0] < la[0] ? 1 : -1, plane[column], rows[column]);
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
