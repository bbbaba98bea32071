#include "core/machined/access_grid.h"

#include <algorithm>
#include <bit>
#include <cmath>

#include "core/geometry/section.h"

namespace waybench::machined {
namespace {

constexpr double kSamePlane_mm = 0.02;
constexpr Direction kDirections[] = {Direction::plus_x,  Direction::minus_x, Direction::plus_y,
                                     Direction::minus_y, Direction::plus_z,  Direction::minus_z};

std::vector<double> planesAlong(const Solid& solid, const Box3& box, int axis, double cell_mm) {
    std::vector<double> fixed{box.low[axis], box.high[axis]};
    for (const Face& face : solid.faces)
        if (face.kind == SurfaceKind::plane && std::abs(face.direction[axis]) > 1 - 1e-6)
            fixed.push_back(face.point[axis]);
    std::sort(fixed.begin(), fixed.end());
    std::vector<double> planes{box.low[axis]};
    for (const double p : fixed) {
        if (p < planes.back() + kSamePlane_mm || p > box.high[axis]) continue;
        if (p < box.high[axis] && box.high[axis] - p < kSamePlane_mm) continue;
        const double from = planes.back();
        const int parts = std::max(1, static_cast<int>(std::ceil((p - from) / cell_mm - 1e-9)));
        for (int i = 1; i <= parts; ++i)
            planes.push_back(from + (p - from) * i / parts);
    }
    if (planes.size() < 2) planes.push_back(box.high[axis]);
    planes.back() = box.high[axis];
    return planes;
}

/// Marks the cells of one layer whose centre lies in the section.
void fillLayer(AccessGrid& grid, std::size_t k, const Region& section) {
    const auto& px = grid.planes[0];
    std::vector<double> crossings;
    for (std::size_t j = 0; j < grid.count(1); ++j) {
        const double y = 0.5 * (grid.planes[1][j] + grid.planes[1][j + 1]);
        crossings.clear();
        for (const Ring& ring : section)
            for (std::size_t a = ring.size() - 1, b = 0; b < ring.size(); a = b++) {
                const Vec2 &p = ring[a], &q = ring[b];
                if ((p.y() <= y) == (q.y() <= y)) continue;
                crossings.push_back(p.x() + (y - p.y()) / (q.y() - p.y()) * (q.x() - p.x()));
            }
        std::sort(crossings.begin(), crossings.end());
        for (std::size_t c = 0; c + 1 < crossings.size(); c += 2)
            for (std::size_t i = 0; i < grid.count(0); ++i) {
                const double x = 0.5 * (px[i] + px[i + 1]);
                if (x > crossings[c] && x < crossings[c + 1]) grid.cells[grid.index(i, j, k)] = AccessGrid::kMaterial;
            }
    }
}

void sweep(AccessGrid& grid, Direction direction) {
    const int d = static_cast<int>(direction), axis = d / 2;
    const bool fromHigh = d % 2 == 0;
    const int u = (axis + 1) % 3, v = (axis + 2) % 3;
    const auto n = grid.count(axis);
    std::array<std::size_t, 3> at{};
    for (at[u] = 0; at[u] < grid.count(u); ++at[u])
        for (at[v] = 0; at[v] < grid.count(v); ++at[v])
            for (std::size_t s = 0; s < n; ++s) {
                at[axis] = fromHigh ? n - 1 - s : s;
                std::uint8_t& cell = grid.cells[grid.index(at[0], at[1], at[2])];
                if (cell & AccessGrid::kMaterial) break;
                cell = static_cast<std::uint8_t>(cell | (1u << d));
            }
}

double restingArea(const Solid& solid, Direction direction) {
    double area = 0;
    for (const Face& face : solid.faces)
        if (face.kind == SurfaceKind::plane && face.direction.dot(unitVector(direction)) < -1 + 1e-6)
            area += face.area_mm2;
    return area;
}

std::vector<HiddenSpace> hiddenSpaces(const AccessGrid& grid, double noise_mm3) {
    std::vector<char> seen(grid.cells.size(), 0);
    std::vector<HiddenSpace> spaces;
    std::vector<std::array<std::size_t, 3>> open;
    const std::array<std::size_t, 3> n{grid.count(0), grid.count(1), grid.count(2)};
    for (std::size_t k = 0; k < n[2]; ++k)
        for (std::size_t j = 0; j < n[1]; ++j)
            for (std::size_t i = 0; i < n[0]; ++i) {
                const std::size_t start = grid.index(i, j, k);
                if (grid.cells[start] != 0 || seen[start]) continue;
                HiddenSpace space;
                seen[start] = 1;
                open.assign(1, {i, j, k});
                while (!open.empty()) {
                    const auto at = open.back();
                    open.pop_back();
                    const double volume = grid.volume(at[0], at[1], at[2]);
                    const Box3 box = grid.box(at[0], at[1], at[2]);
                    space.volume_mm3 += volume;
                    space.centre += volume * box.centre();
                    space.bounds.include(box.low);
                    space.bounds.include(box.high);
                    for (int a = 0; a < 3; ++a)
                        for (const int step : {-1, 1}) {
                            auto next = at;
                            if ((step < 0 && at[a] == 0) || (step > 0 && at[a] + 1 == n[a])) continue;
                            next[a] = at[a] + static_cast<std::size_t>(step);
                            const std::size_t id = grid.index(next[0], next[1], next[2]);
                            if (grid.cells[id] != 0 || seen[id]) continue;
                            seen[id] = 1;
                            open.push_back(next);
                        }
                }
                space.centre /= space.volume_mm3;
                if (space.volume_mm3 > noise_mm3) spaces.push_back(space);
            }
    std::stable_sort(spaces.begin(), spaces.end(),
                     [](const HiddenSpace& a, const HiddenSpace& b) { return a.volume_mm3 > b.volume_mm3; });
    return spaces;
}

}  // namespace

Box3 AccessGrid::box(std::size_t i, std::size_t j, std::size_t k) const {
    Box3 b;
    b.include({planes[0][i], planes[1][j], planes[2][k]});
    b.include({planes[0][i + 1], planes[1][j + 1], planes[2][k + 1]});
    return b;
}

double AccessGrid::volume(std::size_t i, std::size_t j, std::size_t k) const {
    return (planes[0][i + 1] - planes[0][i]) * (planes[1][j + 1] - planes[1][j]) * (planes[2][k + 1] - planes[2][k]);
}

AccessGrid accessGridOf(const Solid& solid, Fidelity fidelity, const Task& task) {
    const Box3 box = boundsOf(solid.mesh);
    const Vec3 size = box.size().cwiseMax(1e-3);
    const double wanted = fidelity == Fidelity::draft ? 30000 : 250000;
    const double cell = std::max(0.2, std::cbrt(size.prod() / wanted));
    AccessGrid grid;
    for (int axis = 0; axis < 3; ++axis)
        grid.planes[axis] = planesAlong(solid, box, axis, cell);
    grid.cells.assign(grid.count(0) * grid.count(1) * grid.count(2), 0);
    std::vector<double> heights;
    for (std::size_t k = 0; k < grid.count(2); ++k)
        heights.push_back(0.5 * (grid.planes[2][k] + grid.planes[2][k + 1]));
    const std::vector<Region> sections = sectionsAt(solid.mesh, heights);
    for (std::size_t k = 0; k < sections.size(); ++k) {
        task.check();
        fillLayer(grid, k, sections[k]);
    }
    for (const Direction d : kDirections)
        sweep(grid, d);
    return grid;
}

AccessPlan planAccess(const AccessGrid& grid, const Solid& solid, double reach_mm) {
    std::array<double, 64> byMask{};
    double box = 0;
    for (std::size_t k = 0; k < grid.count(2); ++k)
        for (std::size_t j = 0; j < grid.count(1); ++j)
            for (std::size_t i = 0; i < grid.count(0); ++i) {
                const std::uint8_t cell = grid.cells[grid.index(i, j, k)];
                const double volume = grid.volume(i, j, k);
                box += volume;
                if (!(cell & AccessGrid::kMaterial)) byMask[cell & 63] += volume;
            }
    const double noise = std::max(0.5, box / 50000);
    const auto unreached = [&](unsigned subset) {
        double v = 0;
        for (unsigned mask = 0; mask < 64; ++mask)
            if (!(mask & subset)) v += byMask[mask];
        return v;
    };
    const auto reached = [&](Direction d) {
        double v = 0;
        for (unsigned mask = 0; mask < 64; ++mask)
            if (mask >> static_cast<int>(d) & 1u) v += byMask[mask];
        return v;
    };
    std::array<double, 6> resting{};
    double allResting = 1e-9;
    for (const Direction d : kDirections)
        allResting += resting[static_cast<std::size_t>(d)] = restingArea(solid, d);

    const Vec3 size_mm = boundsOf(solid.mesh).size();
    const double atBest = unreached(63) + noise;
    unsigned chosen = 63;
    int fewest = 7;
    double bestScore = -1e9;
    for (unsigned subset = 1; subset < 64; ++subset) {
        const int size = std::popcount(subset);
        if (size > fewest || unreached(subset) > atBest) continue;
        double score = subset >> static_cast<int>(Direction::plus_z) & 1u ? 1.0 : 0.0;
        for (std::size_t d = 0; d < 6; ++d)
            if (subset >> d & 1u) score += 0.9 * resting[d] / allResting;
        double shallowest = 1e300;
        for (std::size_t d = 0; d < 6; ++d)
            if (subset >> d & 1u) shallowest = std::min(shallowest, size_mm[static_cast<int>(d / 2)]);
        if (reach_mm > 0 && shallowest > reach_mm - 1) score -= shallowest / 2 > reach_mm - 1 ? 4 : 2;
        if (size < fewest || score > bestScore + 1e-9) {
            fewest = size;
            bestScore = score;
            chosen = subset;
        }
    }
    AccessPlan plan;
    for (const Direction d : kDirections)
        if (chosen >> static_cast<int>(d) & 1u) plan.directions.push_back(d);
    const auto rank = [&](Direction d) {
        const bool tooDeep = reach_mm > 0 && size_mm[static_cast<int>(d) / 2] > reach_mm - 1;
        return reached(d) + (d == Direction::plus_z ? 0.1 * box : 0) + 1e-3 * resting[static_cast<std::size_t>(d)] -
               (tooDeep ? 2 * box : 0);
    };
    std::stable_sort(plan.directions.begin(), plan.directions.end(),
                     [&](Direction a, Direction b) { return rank(a) > rank(b); });
    plan.hidden = hiddenSpaces(grid, noise);
    for (const HiddenSpace& space : plan.hidden)
        plan.hidden_mm3 += space.volume_mm3;
    return plan;
}

}  // namespace waybench::machined
