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

std::vector<double> planesAlong(const Solid& solid, const Box3& box, int axis, double cell_mm, const ToolReach& reach) {
    std::vector<double> fixed{box.low[axis], box.high[axis]};
    for (const Face& face : solid.faces)
        if (face.kind == SurfaceKind::plane && std::abs(face.direction[axis]) > 1 - 1e-6) {
            fixed.push_back(face.point[axis]);
            if (reach.endMill_mm > 0)
                for (const double side : {-1.0, 1.0})
                    fixed.push_back(face.point[axis] + side * reach.deepest_mm());
        }
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

/// Columns of cells along one axis, looked at from one side.
class Columns {
public:
    Columns(const AccessGrid& grid, Direction direction)
        : grid_(grid),
          axis_(static_cast<int>(direction) / 2),
          fromHigh_(static_cast<int>(direction) % 2 == 0),
          u_((axis_ + 1) % 3),
          v_((axis_ + 2) % 3) {}

    std::size_t countU() const { return grid_.count(u_); }
    std::size_t countV() const { return grid_.count(v_); }
    std::size_t depth() const { return grid_.count(axis_); }
    std::size_t cell(std::size_t iu, std::size_t iv, std::size_t step) const {
        std::array<std::size_t, 3> at{};
        at[u_] = iu;
        at[v_] = iv;
        at[axis_] = fromHigh_ ? depth() - 1 - step : step;
        return grid_.index(at[0], at[1], at[2]);
    }
    /// Height of the upper and lower wall of a step against the tool.
    double top(std::size_t step) const {
        const auto& p = grid_.planes[axis_];
        return fromHigh_ ? p[depth() - step] : -p[step];
    }
    double bottom(std::size_t step) const { return top(step + 1); }
    Vec2 middle(std::size_t iu, std::size_t iv) const {
        const auto &pu = grid_.planes[u_], &pv = grid_.planes[v_];
        return {0.5 * (pu[iu] + pu[iu + 1]), 0.5 * (pv[iv] + pv[iv + 1])};
    }
    const std::vector<double>& planesU() const { return grid_.planes[u_]; }
    const std::vector<double>& planesV() const { return grid_.planes[v_]; }
    int axis() const { return axis_; }
    int axisU() const { return u_; }
    int axisV() const { return v_; }

private:
    const AccessGrid& grid_;
    int axis_;
    bool fromHigh_;
    int u_, v_;
};

constexpr double kNothing = -1e300;

/// Running maximum along one line of cells within the collet's room.
void dilateLine(const std::vector<double>& planes, std::vector<double>& heights) {
    const std::vector<double> before = heights;
    const std::size_t n = heights.size();
    for (std::size_t i = 0; i < n; ++i) {
        for (std::size_t j = i; j-- > 0 && planes[i] - planes[j + 1] <= kColletClearance_mm + 0.3;)
            heights[i] = std::max(heights[i], before[j]);
        for (std::size_t j = i + 1; j < n && planes[j] - planes[i + 1] <= kColletClearance_mm + 0.3; ++j)
            heights[i] = std::max(heights[i], before[j]);
    }
}

/// Highest material near each column, against the tool.
std::vector<double> surroundings(const AccessGrid& grid, const Columns& columns) {
    const std::size_t nu = columns.countU(), nv = columns.countV();
    std::vector<double> heights(nu * nv, kNothing), line;
    for (std::size_t v = 0; v < nv; ++v)
        for (std::size_t u = 0; u < nu; ++u)
            for (std::size_t s = 0; s < columns.depth(); ++s)
                if (grid.cells[columns.cell(u, v, s)] & AccessGrid::kMaterial) {
                    heights[v * nu + u] = columns.top(s);
                    break;
                }
    for (std::size_t v = 0; v < nv; ++v) {
        line.assign(heights.begin() + static_cast<std::ptrdiff_t>(v * nu),
                    heights.begin() + static_cast<std::ptrdiff_t>((v + 1) * nu));
        dilateLine(columns.planesU(), line);
        std::copy(line.begin(), line.end(), heights.begin() + static_cast<std::ptrdiff_t>(v * nu));
    }
    for (std::size_t u = 0; u < nu; ++u) {
        line.resize(nv);
        for (std::size_t v = 0; v < nv; ++v)
            line[v] = heights[v * nu + u];
        dilateLine(columns.planesV(), line);
        for (std::size_t v = 0; v < nv; ++v)
            heights[v * nu + u] = line[v];
    }
    return heights;
}

/// Columns of air that hang together with the space around the part.
std::vector<char> outsideColumns(const AccessGrid& grid, const Columns& columns) {
    const std::size_t nu = columns.countU(), nv = columns.countV();
    std::vector<char> outside(nu * nv, 0);
    std::vector<std::pair<std::size_t, std::size_t>> open;
    const auto visit = [&](std::size_t u, std::size_t v) {
        if (outside[v * nu + u]) return;
        for (std::size_t s = 0; s < columns.depth(); ++s)
            if (grid.cells[columns.cell(u, v, s)] & AccessGrid::kMaterial) return;
        outside[v * nu + u] = 1;
        open.emplace_back(u, v);
    };
    for (std::size_t u = 0; u < nu; ++u)
        for (const std::size_t v : {std::size_t{0}, nv - 1})
            visit(u, v);
    for (std::size_t v = 0; v < nv; ++v)
        for (const std::size_t u : {std::size_t{0}, nu - 1})
            visit(u, v);
    while (!open.empty()) {
        const auto [u, v] = open.back();
        open.pop_back();
        if (u > 0) visit(u - 1, v);
        if (u + 1 < nu) visit(u + 1, v);
        if (v > 0) visit(u, v - 1);
        if (v + 1 < nv) visit(u, v + 1);
    }
    return outside;
}

/// Columns inside round holes along the axis that a drill fits.
std::vector<char> drilledColumns(const Solid& solid, const AccessGrid& grid, const Columns& columns) {
    const std::size_t nu = columns.countU(), nv = columns.countV();
    std::vector<char> drilled(nu * nv, 0);
    for (const Face& face : solid.faces) {
        if (face.kind != SurfaceKind::cylinder || !face.isHollow || !face.isFullTurn) continue;
        if (std::abs(face.direction[columns.axis()]) < 1 - 1e-5) continue;
        if (2 * face.radius_mm > grid.reach.drillDiameter_mm + 0.05) continue;
        const double length = face.area_mm2 / (2 * 3.14159265358979 * face.radius_mm);
        if (length > grid.reach.drillDepth_mm) continue;
        const Vec2 axis(face.point[columns.axisU()], face.point[columns.axisV()]);
        for (std::size_t v = 0; v < nv; ++v)
            for (std::size_t u = 0; u < nu; ++u)
                if ((columns.middle(u, v) - axis).norm() < face.radius_mm) drilled[v * nu + u] = 1;
    }
    return drilled;
}

/// Bits of the direction: free axis into `open`, free axis and within the cutters' length into `within`.
void sweep(const Solid& solid, const AccessGrid& grid, Direction direction, std::vector<std::uint8_t>& open,
           std::vector<std::uint8_t>& within) {
    const Columns columns(grid, direction);
    const auto bit = static_cast<std::uint8_t>(1u << static_cast<int>(direction));
    const bool limited = grid.reach.endMill_mm > 0;
    std::vector<double> heights;
    std::vector<char> outside, drilled;
    if (limited) {
        heights = surroundings(grid, columns);
        outside = outsideColumns(grid, columns);
        drilled = drilledColumns(solid, grid, columns);
    }
    const std::size_t nu = columns.countU();
    for (std::size_t v = 0; v < columns.countV(); ++v)
        for (std::size_t u = 0; u < nu; ++u)
            for (std::size_t s = 0; s < columns.depth(); ++s) {
                const std::size_t cell = columns.cell(u, v, s), column = v * nu + u;
                if (grid.cells[cell] & AccessGrid::kMaterial) break;
                open[cell] |= bit;
                if (!limited || outside[column] || drilled[column] ||
                    heights[column] - columns.bottom(s) <= grid.reach.deepest_mm() + 1e-6)
                    within[cell] |= bit;
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

AccessGrid accessGridOf(const Solid& solid, Fidelity fidelity, const Task& task, const ToolReach& reach) {
    const Box3 box = boundsOf(solid.mesh);
    const Vec3 size = box.size().cwiseMax(1e-3);
    const double wanted = fidelity == Fidelity::draft ? 30000 : 250000;
    const double cell = std::max(0.2, std::cbrt(size.prod() / wanted));
    AccessGrid grid;
    grid.reach = reach;
    for (int axis = 0; axis < 3; ++axis)
        grid.planes[axis] = planesAlong(solid, box, axis, cell, reach);
    grid.cells.assign(grid.count(0) * grid.count(1) * grid.count(2), 0);
    std::vector<double> heights;
    for (std::size_t k = 0; k < grid.count(2); ++k)
        heights.push_back(0.5 * (grid.planes[2][k] + grid.planes[2][k + 1]));
    const std::vector<Region> sections = sectionsAt(solid.mesh, heights);
    for (std::size_t k = 0; k < sections.size(); ++k) {
        task.check();
        fillLayer(grid, k, sections[k]);
    }
    std::vector<std::uint8_t> open(grid.cells.size(), 0), within(grid.cells.size(), 0);
    for (const Direction d : kDirections)
        sweep(solid, grid, d, open, within);
    for (std::size_t i = 0; i < grid.cells.size(); ++i)
        if (!(grid.cells[i] & AccessGrid::kMaterial)) grid.cells[i] = within[i] ? within[i] : open[i];
    return grid;
}

AccessPlan planAccess(const AccessGrid& grid, const Solid& solid) {
    const double reach_mm = grid.reach.endMill_mm;
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
