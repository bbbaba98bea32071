#include "core/structure/lattice.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <numeric>

#include "core/fault/input_fault.h"
#include "core/progress/thread_team.h"
#include "core/structure/joints.h"

namespace waybench::statics {

namespace {

constexpr double kLeastShare = 1e-3;        // of a cell, to stay active
constexpr double kLeastRegionShare = 1e-4;  // of a cell, to count as a region of its own
constexpr double kCrumbShare = 1e-3;        // of the body
constexpr std::size_t kBricksAtOnce = 128;

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

const Moments momentsOfPiece(const MaterialField& field, std::size_t cell, int piece) {
    const SplitCell* split = field.split ? field.split->at(cell) : nullptr;
    return split != nullptr ? split->pieces[std::size_t(piece)] : field.material.of(cell);
}

/// Of a split cell's infill the piece that holds its middle gets all, as far as it has room: the sides of a gap are
/// walls, and a gap narrower than a cell leaves infill on one side of it at most.
Moments infillOfPiece(const MaterialField& field, std::size_t cell, int piece, const Moments& whole) {
    const Moments all = field.infill->of(cell);
    const SplitCell* split = field.split ? field.split->at(cell) : nullptr;
    if (split == nullptr || !(all.volume() > 0)) return all;
    const Vec3 middle(all.value[1] / all.volume(), all.value[3] / all.volume(), all.value[9] / all.volume());
    if (split->pieceAt(middle) != piece) return {};
    return all.volume() < whole.volume() ? all : whole;
}

}  // namespace

std::int32_t Lattice::elementAt(std::size_t cell, int piece) const {
    const std::int32_t first = elementOfCell[cell];
    if (first < 0) return first;
    for (auto e = std::size_t(first); e < cellOf.size() && cellOf[e] == cell; ++e)
        if (pieceOf[e] == piece) return std::int32_t(e);
    return -1;
}

std::int32_t Lattice::elementHolding(const Index3& at, const Vec3& point, std::int64_t facet) const {
    const std::size_t cell = grid.cellIndex(at);
    const std::int32_t first = elementOfCell[cell];
    if (first < 0 || !split) return first;
    const SplitCell* pieces = split->at(cell);
    if (pieces == nullptr) return first;
    const int bounded = facet >= 0 ? pieces->pieceBoundedBy(std::uint32_t(facet)) : -1;
    return elementAt(cell, bounded >= 0 ? bounded : pieces->pieceAt(grid.localOf(at, point)));
}

CellRegions regionsOf(const MaterialField& field, std::size_t cell, int piece) {
    CellRegions result;
    const Moments whole = momentsOfPiece(field, cell, piece);
    const auto put = [&](const Moments& m, bool infill) {
        result.region[result.count] = {m, infill ? &field.infillLaw.stiffness_MPa : &field.law.stiffness_MPa};
        result.isInfill[result.count++] = infill;
    };
    if (!field.infill || field.infill->entry[cell] == CellMoments::kEmpty) {
        put(whole, false);
        return result;
    }
    const Moments inner = infillOfPiece(field, cell, piece, whole);
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
    std::vector<std::int32_t> first(lattice.nodeAt.size(), -1);
    std::vector<Joint> shared;
    for (std::size_t e = 0; e < lattice.elements.size(); ++e)
        for (const std::int32_t n : lattice.elements[e].node) {
            std::int32_t& f = first[std::size_t(n)];
            if (f < 0)
                f = std::int32_t(e);
            else
                shared.push_back({f, std::int32_t(e), 0});
        }
    return groupsBy(shared, lattice.elements.size());
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
    lattice.split = field.split;
    lattice.elementOfCell.assign(grid.cellCount(), -1);
    const auto add = [&](std::size_t cell, int piece) {
        if (lattice.elementOfCell[cell] < 0) lattice.elementOfCell[cell] = std::int32_t(lattice.elements.size());
        lattice.elements.push_back({});
        lattice.cellOf.push_back(cell);
        lattice.pieceOf.push_back(std::uint8_t(piece));
    };
    const auto volumeOf = [&](std::size_t cell, int piece) {
        return momentsOfPiece(field, cell, piece).volume() / 8 * grid.sizeOf(grid.cellAt(cell)).prod();
    };
    for (std::size_t cell = 0; cell < grid.cellCount(); ++cell) {
        if (field.material.entry[cell] == CellMoments::kEmpty) continue;
        const SplitCell* split = field.split ? field.split->at(cell) : nullptr;
        const int pieces = split != nullptr ? int(std::min<std::size_t>(split->pieces.size(), 255)) : 1;
        for (int piece = 0; piece < pieces; ++piece) {
            const double share = momentsOfPiece(field, cell, piece).volume() / 8;
            if (share <= 0) continue;
            if (share < kLeastShare) {
                lattice.droppedVolume_mm3 += volumeOf(cell, piece);
                continue;
            }
            lattice.volume_mm3 += volumeOf(cell, piece);
            add(cell, piece);
        }
    }
    const std::vector<int> group = groupsBy(jointsOf(lattice, field), lattice.elements.size());
    if (!group.empty()) {
        std::vector<double> groupVolume(std::size_t(*std::max_element(group.begin(), group.end())) + 1, 0.0);
        for (std::size_t e = 0; e < group.size(); ++e)
            groupVolume[std::size_t(group[e])] += volumeOf(lattice.cellOf[e], lattice.pieceOf[e]);
        const std::vector<std::size_t> cells = std::move(lattice.cellOf);
        const std::vector<std::uint8_t> pieces = std::move(lattice.pieceOf);
        lattice.elements.clear();
        lattice.cellOf.clear();
        lattice.pieceOf.clear();
        for (const std::size_t cell : cells)
            lattice.elementOfCell[cell] = -1;
        for (std::size_t e = 0; e < group.size(); ++e) {
            if (groupVolume[std::size_t(group[e])] >= kCrumbShare * lattice.volume_mm3)
                add(cells[e], pieces[e]);
            else
                lattice.droppedVolume_mm3 += volumeOf(cells[e], pieces[e]);
        }
    }
    if (lattice.elements.empty())
        throw InputFault("body_too_thin_for_grid", "", "body", "no cell of the calculation grid holds enough material",
                         "check the part's thickness, or raise the cell budget");
    numberNodes(lattice, jointsOf(lattice, field));

    const auto classes = lengthClasses(grid);
    std::map<std::array<int, 4>, std::int32_t> shared;
    std::vector<std::pair<std::int32_t, Matrix24>> sharedMatrices;
    std::vector<std::uint32_t> cut;
    for (std::size_t e = 0; e < lattice.elements.size(); ++e) {
        if (e % 256 == 0) task.check();
        const Index3 c = lattice.cellAt(e);
        const CellRegions regions = regionsOf(field, lattice.cellOf[e], lattice.pieceOf[e]);
        const bool whole = regions.count == 1 && field.material.entry[lattice.cellOf[e]] == CellMoments::kWhole;
        if (whole) {
            const std::array<int, 4> key{classes[0][std::size_t(c[0])], classes[1][std::size_t(c[1])],
                                         classes[2][std::size_t(c[2])], regions.isInfill[0] ? 1 : 0};
            const auto [place, isNew] = shared.emplace(key, std::int32_t(lattice.isShared.size()));
            if (isNew) {
                sharedMatrices.emplace_back(place->second, Brick(grid.sizeOf(c), regions.all()).stiffness());
                lattice.isShared.push_back(1);
            }
            lattice.elements[e].matrix = place->second;
        } else {
            lattice.elements[e].matrix = std::int32_t(lattice.isShared.size());
            lattice.isShared.push_back(0);
            cut.push_back(std::uint32_t(e));
        }
    }
    lattice.matrices.resize(576 * lattice.isShared.size());
    for (const auto& [number, k] : sharedMatrices)
        std::copy_n(k.data(), 576, lattice.matrices.begin() + 576 * std::ptrdiff_t(number));
    inShares(cut.size(), kBricksAtOnce, [&](std::size_t begin, std::size_t end) {
        task.check();
        for (std::size_t i = begin; i < end; ++i) {
            const std::size_t e = cut[i];
            const CellRegions regions = regionsOf(field, lattice.cellOf[e], lattice.pieceOf[e]);
            const Matrix24 k = Brick(grid.sizeOf(lattice.cellAt(e)), regions.all()).stiffness();
            std::copy_n(k.data(), 576, lattice.matrices.begin() + 576 * std::ptrdiff_t(lattice.elements[e].matrix));
        }
    });
    return lattice;
}

}  // namespace waybench::statics
