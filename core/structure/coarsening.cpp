#include "core/structure/coarsening.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <numeric>

#include "core/progress/thread_team.h"

namespace waybench::statics {

namespace {

int rootOf(std::vector<std::int32_t>& parent, int i) {
    while (parent[std::size_t(i)] != i) {
        parent[std::size_t(i)] = parent[std::size_t(parent[std::size_t(i)])];
        i = parent[std::size_t(i)];
    }
    return i;
}

void join(std::vector<std::int32_t>& parent, int a, int b) {
    a = rootOf(parent, a);
    b = rootOf(parent, b);
    if (a != b) parent[std::size_t(std::max(a, b))] = std::min(a, b);
}

/// Which lines stay: neighbouring intervals are merged while the sum is no longer than `target`.
std::vector<std::size_t> keptLines(const std::vector<double>& lines, double target) {
    std::vector<std::size_t> kept{0};
    for (std::size_t i = 1; i + 1 < lines.size(); ++i)
        if (lines[i + 1] - lines[kept.back()] > target) kept.push_back(i);
    if (lines.size() > 1) kept.push_back(lines.size() - 1);
    return kept;
}

double smallestInterval(const std::array<std::vector<double>, 3>& lines) {
    double least = 1e300;
    for (const auto& l : lines)
        for (std::size_t i = 1; i < l.size(); ++i)
            least = std::min(least, l[i] - l[i - 1]);
    return least;
}

/// adds W^T K W, where W maps the coarse corners to the child's by w[child corner][coarse corner]
void addGalerkin(const double* k, const double (&w)[8][8], Matrix24& into) {
    const Eigen::Map<const Matrix24> child(k);
    Matrix24 half = Matrix24::Zero();
    for (int b = 0; b < 8; ++b)
        for (int c = 0; c < 8; ++c)
            if (w[b][c] != 0) half.middleCols<3>(3 * c) += w[b][c] * child.middleCols<3>(3 * b);
    half.transposeInPlace();
    Matrix24 whole = Matrix24::Zero();
    for (int b = 0; b < 8; ++b)
        for (int c = 0; c < 8; ++c)
            if (w[b][c] != 0) whole.middleCols<3>(3 * c) += w[b][c] * half.middleCols<3>(3 * b);
    into += whole;
}

struct Placement {
    double low[3], high[3];  // of a child in its coarse cell, 0..1
};

constexpr std::size_t kMatricesAtOnce = 128;

/// Per interval between fine lines, the interval between kept lines it lies in.
std::vector<int> parentsOf(std::size_t fineIntervals, const std::vector<std::size_t>& kept) {
    std::vector<int> parents;
    for (std::size_t i = 0, interval = 0; i < fineIntervals; ++i) {
        if (i >= kept[interval + 1]) ++interval;
        parents.push_back(int(interval));
    }
    return parents;
}

/// Coarse cells that hold at least one of the fine ones.
std::size_t cellsTaken(const std::vector<Index3>& fineCells, const std::array<std::vector<int>, 3>& parents) {
    const auto intervals = [&](std::size_t axis) { return std::size_t(parents[axis].back()) + 1; };
    std::vector<char> taken(intervals(0) * intervals(1) * intervals(2), 0);
    std::size_t count = 0;
    for (const Index3& c : fineCells) {
        std::size_t at = 0;
        for (std::size_t axis = 3; axis-- > 0;)
            at = at * intervals(axis) + std::size_t(parents[axis][std::size_t(c[axis])]);
        if (taken[at] == 0) ++count;
        taken[at] = 1;
    }
    return count;
}

// Thin walls are cells across and many along: a level that halves them across alone is worth its cost (measured on
// boxes of 1.6 to 4.5 mm: half the iterations of coarsening by four across in one go).
constexpr double kMostCellsLeft = 0.6;

}  // namespace

LevelMesh finestLevel(const Lattice& lattice) {
    LevelMesh level;
    level.lines = lattice.grid.lines;
    level.nodeAt = lattice.nodeAt;
    level.elements = lattice.elements;
    level.matrices = lattice.matrices;
    level.isShared = lattice.isShared;
    for (std::size_t e = 0; e < lattice.elements.size(); ++e)
        level.cellOf.push_back(lattice.cellAt(e));
    return level;
}

bool coarsen(const LevelMesh& fine, LevelMesh& coarse, Interpolation& interpolation, const Task& task) {
    // 1. lines: merge the shortest intervals first, so that flat cells become squarer before all grow
    std::array<std::vector<std::size_t>, 3> kept;
    std::array<std::vector<int>, 3> parentInterval;
    double target = 2.3 * smallestInterval(fine.lines);
    for (int attempt = 0;; ++attempt, target *= 1.3) {
        for (std::size_t axis = 0; axis < 3; ++axis) {
            kept[axis] = keptLines(fine.lines[axis], target);
            parentInterval[axis] = parentsOf(fine.lines[axis].size() - 1, kept[axis]);
        }
        if (double(cellsTaken(fine.cellOf, parentInterval)) <= kMostCellsLeft * double(fine.elements.size())) break;
        if (attempt > 40) return false;
    }
    for (std::size_t axis = 0; axis < 3; ++axis) {
        coarse.lines[axis].clear();
        for (std::size_t i : kept[axis])
            coarse.lines[axis].push_back(fine.lines[axis][i]);
    }

    // 2. children of every coarse cell, split into pieces joined through nodes
    std::vector<std::pair<std::array<int, 3>, std::int32_t>> byCell;  // key z, y, x
    for (std::size_t e = 0; e < fine.elements.size(); ++e) {
        std::array<int, 3> key;
        for (std::size_t axis = 0; axis < 3; ++axis)
            key[2 - axis] = parentInterval[axis][std::size_t(fine.cellOf[e][axis])];
        byCell.push_back({key, std::int32_t(e)});
    }
    std::sort(byCell.begin(), byCell.end());
    coarse.elements.clear();
    coarse.cellOf.clear();
    std::vector<std::vector<std::int32_t>> children;
    std::vector<std::int32_t> coarseOf(fine.elements.size(), -1);
    for (std::size_t begin = 0; begin < byCell.size();) {
        std::size_t end = begin;
        while (end < byCell.size() && byCell[end].first == byCell[begin].first)
            ++end;
        const std::size_t count = end - begin;
        std::vector<std::int32_t> piece(count);
        std::iota(piece.begin(), piece.end(), 0);
        for (std::size_t a = 0; a < count; ++a)
            for (std::size_t b = a + 1; b < count; ++b) {
                if (rootOf(piece, int(a)) == rootOf(piece, int(b))) continue;
                const auto &na = fine.elements[std::size_t(byCell[begin + a].second)].node,
                           &nb = fine.elements[std::size_t(byCell[begin + b].second)].node;
                const bool touch = std::any_of(na.begin(), na.end(), [&](std::int32_t n) {
                    return std::find(nb.begin(), nb.end(), n) != nb.end();
                });
                if (touch) join(piece, int(a), int(b));
            }
        std::map<int, std::size_t> elementOfPiece;
        for (std::size_t a = 0; a < count; ++a) {
            const auto [place, isNew] = elementOfPiece.emplace(rootOf(piece, int(a)), children.size());
            if (isNew) {
                children.emplace_back();
                coarse.elements.push_back({});
                coarse.cellOf.push_back({byCell[begin].first[2], byCell[begin].first[1], byCell[begin].first[0]});
            }
            children[place->second].push_back(byCell[begin + a].second);
            coarseOf[std::size_t(byCell[begin + a].second)] = std::int32_t(place->second);
        }
        begin = end;
    }

    // 3. coarse nodes: corner slots of two coarse elements are one node when the elements share a fine node
    const std::size_t slots = 8 * children.size();
    std::vector<std::int32_t> parent(slots);
    std::iota(parent.begin(), parent.end(), 0);
    std::vector<std::vector<std::int32_t>> touching(fine.nodeAt.size());
    for (std::size_t e = 0; e < fine.elements.size(); ++e)
        for (std::int32_t n : fine.elements[e].node) {
            auto& list = touching[std::size_t(n)];
            if (std::find(list.begin(), list.end(), coarseOf[e]) == list.end()) list.push_back(coarseOf[e]);
        }
    const auto cornerAt = [&](std::int32_t element, int corner) {
        const Index3& c = coarse.cellOf[std::size_t(element)];
        return Index3{c[0] + (corner & 1), c[1] + (corner >> 1 & 1), c[2] + (corner >> 2 & 1)};
    };
    for (const auto& list : touching)
        for (std::size_t i = 1; i < list.size(); ++i)
            for (std::size_t j = 0; j < i; ++j)
                for (int a = 0; a < 8; ++a) {
                    const Index3 at = cornerAt(list[i], a);
                    int b = 0;
                    bool common = true;
                    for (std::size_t axis = 0; axis < 3; ++axis) {
                        const int step = at[axis] - coarse.cellOf[std::size_t(list[j])][axis];
                        common = common && (step == 0 || step == 1);
                        b |= step << axis;
                    }
                    if (common) join(parent, 8 * list[i] + a, 8 * list[j] + b);
                }
    coarse.nodeAt.clear();
    std::vector<std::int32_t> number(slots, -1);
    for (std::size_t s = 0; s < slots; ++s) {
        const int root = rootOf(parent, int(s));
        auto& n = number[std::size_t(root)];
        if (n < 0) {
            n = std::int32_t(coarse.nodeAt.size());
            coarse.nodeAt.push_back(cornerAt(std::int32_t(s / 8), int(s % 8)));
        }
        coarse.elements[s / 8].node[s % 8] = n;
    }
    if (coarse.nodeAt.size() > fine.nodeAt.size() * 9 / 10) return false;

    // 4. interpolation
    std::vector<std::int32_t> carrier(fine.nodeAt.size(), -1);
    for (std::size_t n = 0; n < touching.size(); ++n)
        carrier[n] = touching[n].empty() ? -1 : touching[n].front();
    interpolation = {};
    interpolation.start.push_back(0);
    for (std::size_t n = 0; n < fine.nodeAt.size(); ++n) {
        const Index3& cell = coarse.cellOf[std::size_t(carrier[n])];
        double t[3];
        for (std::size_t axis = 0; axis < 3; ++axis) {
            const double low = coarse.lines[axis][std::size_t(cell[axis])],
                         high = coarse.lines[axis][std::size_t(cell[axis]) + 1];
            t[axis] = (fine.lines[axis][std::size_t(fine.nodeAt[n][axis])] - low) / (high - low);
        }
        for (int a = 0; a < 8; ++a) {
            double w = 1;
            for (int axis = 0; axis < 3; ++axis)
                w *= (a >> axis & 1) != 0 ? t[axis] : 1 - t[axis];
            if (w < 1e-9) continue;
            interpolation.coarse.push_back(coarse.elements[std::size_t(carrier[n])].node[std::size_t(a)]);
            interpolation.weight.push_back(float(w));
        }
        interpolation.start.push_back(std::int32_t(interpolation.coarse.size()));
    }

    // 5. matrices
    coarse.isShared.clear();
    std::vector<std::pair<std::uint32_t, std::vector<Placement>>> own;  // element a matrix is made for
    std::map<std::vector<std::int32_t>, std::int32_t> shared;
    for (std::size_t c = 0; c < children.size(); ++c) {
        if (c % 128 == 0) task.check();
        const Index3& cell = coarse.cellOf[c];
        std::vector<Placement> placement;
        std::vector<std::int32_t> key;
        bool allShared = true;
        for (std::int32_t child : children[c]) {
            Placement p;
            const Index3& fineCell = fine.cellOf[std::size_t(child)];
            key.push_back(fine.elements[std::size_t(child)].matrix);
            for (std::size_t axis = 0; axis < 3; ++axis) {
                const double low = coarse.lines[axis][std::size_t(cell[axis])],
                             length = coarse.lines[axis][std::size_t(cell[axis]) + 1] - low;
                const std::size_t line = std::size_t(fineCell[axis]);
                p.low[axis] = (fine.lines[axis][line] - low) / length;
                p.high[axis] = (fine.lines[axis][line + 1] - low) / length;
                key.push_back(std::int32_t(std::lround(p.low[axis] * 1e6)));
                key.push_back(std::int32_t(std::lround(p.high[axis] * 1e6)));
            }
            placement.push_back(p);
            allShared = allShared && fine.isShared[std::size_t(fine.elements[std::size_t(child)].matrix)] != 0;
        }
        if (allShared) {
            const auto found = shared.find(key);
            if (found != shared.end()) {
                coarse.elements[c].matrix = found->second;
                continue;
            }
        }
        coarse.elements[c].matrix = std::int32_t(coarse.isShared.size());
        if (allShared) shared.emplace(std::move(key), coarse.elements[c].matrix);
        coarse.isShared.push_back(allShared ? 1 : 0);
        own.push_back({std::uint32_t(c), std::move(placement)});
    }
    coarse.matrices.resize(576 * own.size());
    inShares(own.size(), kMatricesAtOnce, [&](std::size_t begin, std::size_t end) {
        task.check();
        for (std::size_t made = begin; made < end; ++made) {
            const auto& of = children[own[made].first];
            const std::vector<Placement>& placement = own[made].second;
            Matrix24 k = Matrix24::Zero();
            for (std::size_t i = 0; i < of.size(); ++i) {
                double w[8][8];
                for (int b = 0; b < 8; ++b)
                    for (int a = 0; a < 8; ++a) {
                        w[b][a] = 1;
                        for (int axis = 0; axis < 3; ++axis) {
                            const double t = (b >> axis & 1) != 0 ? placement[i].high[axis] : placement[i].low[axis];
                            w[b][a] *= (a >> axis & 1) != 0 ? t : 1 - t;
                        }
                        if (std::abs(w[b][a]) < 1e-12) w[b][a] = 0;
                    }
                addGalerkin(fine.matrices.data() + 576 * std::size_t(fine.elements[std::size_t(of[i])].matrix), w, k);
            }
            std::copy_n(k.data(), 576, coarse.matrices.begin() + 576 * std::ptrdiff_t(made));
        }
    });
    return true;
}

}  // namespace waybench::statics
