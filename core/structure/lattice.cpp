#include "core/structure/lattice.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <numeric>

#include "core/fault/input_fault.h"

namespace waybench::statics {

namespace {

constexpr double kLeastShare = 1e-3;        // of a cell, to stay active
constexpr double kLeastRegionShare = 1e-4;  // of a cell, to count as a region of its own
constexpr double kCrumbShare = 1e-3;        // of the body

void numberNodes(Lattice& lattice) {
    const Grid& grid = lattice.grid;
    const int nx = grid.cells(0) + 1, ny = grid.cells(1) + 1, nz = grid.cells(2) + 1;
    std::vector<std::int32_t> number(std::size_t(nx) * std::size_t(ny) * std::size_t(nz), -1);
    const auto at = [&](int i, int j, int k) {
        return (std::size_t(k) * std::size_t(ny) + std::size_t(j)) * std::size_t(nx) + std::size_t(i);
    };
    for (std::size_t e = 0; e < lattice.elements.size(); ++e) {
        const Index3 c = lattice.cellAt(e);
        for (int a = 0; a < 8; ++a)
            number[at(c[0] + (a & 1), c[1] + (a >> 1 & 1), c[2] + (a >> 2 & 1))] = 0;
    }
    lattice.nodeAt.clear();
    for (int k = 0; k < nz; ++k)
        for (int j = 0; j < ny; ++j)
            for (int i = 0; i < nx; ++i) {
                auto& n = number[at(i, j, k)];
                if (n < 0) continue;
                n = std::int32_t(lattice.nodeAt.size());
                lattice.nodeAt.push_back({i, j, k});
            }
    for (std::size_t e = 0; e < lattice.elements.size(); ++e) {
        const Index3 c = lattice.cellAt(e);
        for (int a = 0; a < 8; ++a)
            lattice.elements[e].node[std::size_t(a)] =
                number[at(c[0] + (a & 1), c[1] + (a >> 1 & 1), c[2] + (a >> 2 & 1))];
    }
}

/// Intervals of equal length share a number.
std::array<std::vector<int>, 3> lengthClasses(const Grid& grid) {
    std::array<std::vector<int>, 3> classes;
    for (std::size_t axis = 0; axis < 3; ++axis) {
        std::map<long long, int> known;
        const auto& l = grid.lines[axis];
        for (std::size_t i = 0; i + 1 < l.size(); ++i) {
            const long long key = std::llround((l[i + 1] - l[i]) * 1e7);
            classes[axis].push_back(known.emplace(key, int(known.size())).first->second);
        }
    }
    return classes;
}

void append(Lattice& lattice, const Matrix24& k, bool shared) {
    lattice.matrices.insert(lattice.matrices.end(), k.data(), k.data() + 576);
    lattice.isShared.push_back(shared ? 1 : 0);
}

}  // namespace

CellRegions regionsOf(const MaterialField& field, std::size_t cell) {
    CellRegions result;
    const Moments whole = field.material.of(cell);
    const auto put = [&](const Moments& m, bool infill) {
        result.region[result.count] = {m, infill ? &field.infillLaw.stiffness_MPa : &field.law.stiffness_MPa};
        result.isInfill[result.count++] = infill;
    };
    if (!field.infill || field.infill->entry[cell] == CellMoments::kEmpty) {
        put(whole, false);
        return result;
    }
    const Moments inner = field.infill->of(cell);
    const double wallShare = (whole.volume() - inner.volume()) / 8;
    if (inner.volume() / 8 < kLeastRegionShare) {
        put(whole, false);
    } else if (wallShare < kLeastRegionShare) {
        put(whole, true);
    } else {
        put(whole.minus(inner), false);
        put(inner, true);
    }
    return result;
}

std::vector<int> groupsOf(const Lattice& lattice) {
    const Grid& grid = lattice.grid;
    std::vector<int> group(lattice.elements.size(), -1);
    std::vector<std::size_t> open;
    int count = 0;
    for (std::size_t seed = 0; seed < group.size(); ++seed) {
        if (group[seed] >= 0) continue;
        group[seed] = count;
        open.push_back(seed);
        while (!open.empty()) {
            const Index3 c = lattice.cellAt(open.back());
            open.pop_back();
            for (std::size_t axis = 0; axis < 3; ++axis)
                for (int step : {-1, 1}) {
                    Index3 next = c;
                    next[axis] += step;
                    if (next[axis] < 0 || next[axis] >= grid.cells(int(axis))) continue;
                    const std::int32_t other = lattice.elementOfCell[grid.cellIndex(next)];
                    if (other < 0 || group[std::size_t(other)] >= 0) continue;
                    group[std::size_t(other)] = count;
                    open.push_back(std::size_t(other));
                }
        }
        ++count;
    }
    return group;
}

double* ownMatrix(Lattice& lattice, std::size_t element) {
    auto& number = lattice.elements[element].matrix;
    if (lattice.isShared[std::size_t(number)] != 0) {
        const std::size_t from = 576 * std::size_t(number);
        number = std::int32_t(lattice.isShared.size());
        lattice.matrices.resize(lattice.matrices.size() + 576);
        std::copy_n(lattice.matrices.begin() + std::ptrdiff_t(from), 576, lattice.matrices.end() - 576);
        lattice.isShared.push_back(0);
    }
    return lattice.matrices.data() + 576 * std::size_t(number);
}

Lattice buildLattice(const Grid& grid, const MaterialField& field, const Task& task) {
    Lattice lattice;
    lattice.grid = grid;
    lattice.elementOfCell.assign(grid.cellCount(), -1);
    for (std::size_t cell = 0; cell < grid.cellCount(); ++cell) {
        const double share = field.material.of(cell).volume() / 8;
        if (share <= 0) continue;
        const double volume = share * grid.sizeOf(grid.cellAt(cell)).prod();
        if (share < kLeastShare) {
            lattice.droppedVolume_mm3 += volume;
            continue;
        }
        lattice.volume_mm3 += volume;
        lattice.elementOfCell[cell] = std::int32_t(lattice.elements.size());
        lattice.elements.push_back({});
        lattice.cellOf.push_back(cell);
    }
    const std::vector<int> group = groupsOf(lattice);
    if (!group.empty()) {
        std::vector<double> groupVolume(std::size_t(*std::max_element(group.begin(), group.end())) + 1, 0.0);
        const auto volumeOfElement = [&](std::size_t e) {
            return field.material.of(lattice.cellOf[e]).volume() / 8 * grid.sizeOf(lattice.cellAt(e)).prod();
        };
        for (std::size_t e = 0; e < group.size(); ++e)
            groupVolume[std::size_t(group[e])] += volumeOfElement(e);
        std::vector<std::size_t> kept;
        for (std::size_t e = 0; e < group.size(); ++e) {
            if (groupVolume[std::size_t(group[e])] >= kCrumbShare * lattice.volume_mm3) {
                lattice.elementOfCell[lattice.cellOf[e]] = std::int32_t(kept.size());
                kept.push_back(lattice.cellOf[e]);
            } else {
                lattice.elementOfCell[lattice.cellOf[e]] = -1;
                lattice.droppedVolume_mm3 += volumeOfElement(e);
            }
        }
        lattice.cellOf = std::move(kept);
        lattice.elements.resize(lattice.cellOf.size());
    }
    if (lattice.elements.empty())
        throw InputFault("body_too_thin_for_grid", "", "body", "no cell of the calculation grid holds enough material",
                         "check the part's thickness, or raise the cell budget");
    numberNodes(lattice);

    const auto classes = lengthClasses(grid);
    std::map<std::array<int, 4>, std::int32_t> shared;
    for (std::size_t e = 0; e < lattice.elements.size(); ++e) {
        if (e % 256 == 0) task.check();
        const Index3 c = lattice.cellAt(e);
        const CellRegions regions = regionsOf(field, lattice.cellOf[e]);
        const bool whole = regions.count == 1 && field.material.entry[lattice.cellOf[e]] == CellMoments::kWhole;
        if (whole) {
            const std::array<int, 4> key{classes[0][std::size_t(c[0])], classes[1][std::size_t(c[1])],
                                         classes[2][std::size_t(c[2])], regions.isInfill[0] ? 1 : 0};
            const auto [place, isNew] = shared.emplace(key, std::int32_t(lattice.isShared.size()));
            if (isNew) append(lattice, Brick(grid.sizeOf(c), regions.all()).stiffness(), true);
            lattice.elements[e].matrix = place->second;
        } else {
            lattice.elements[e].matrix = std::int32_t(lattice.isShared.size());
            append(lattice, Brick(grid.sizeOf(c), regions.all()).stiffness(), false);
        }
    }
    return lattice;
}

}  // namespace waybench::statics
