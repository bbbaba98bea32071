#include <algorithm>
#include <cmath>
#include <map>
#include <numeric>

#include "core/fault/input_fault.h"
#include "core/geometry/import/dxf_contour.h"
#include "core/geometry/import/dxf_tokens.h"
#include "core/quantity/quantity_text.h"

namespace waybench::dxf {

namespace {

constexpr double kSamePoint_mm = 1e-6;   // stretches shorter than this have no length
constexpr double kCoincident_mm = 1e-4;  // ends closer than this are one corner
constexpr double kSameLine_mm = 1e-3;    // lines closer than this are drawn twice
constexpr double kFarthest_mm = 1e6;
constexpr double kGapWorthANote_mm = 1e-3;

using CellKey = std::pair<std::int64_t, std::int64_t>;

CellKey cellOf(const Vec2& p, double size) {
    return {std::int64_t(std::floor(p.x() / size)), std::int64_t(std::floor(p.y() / size))};
}

/// Points by square cell, so that all within the cell size of a place are found in nine cells.
class PointGrid {
public:
    explicit PointGrid(double size) : size_(size) {}
    void add(const Vec2& p, std::size_t index) { cells_[cellOf(p, size_)].push_back(index); }
    template <class Visit>
    void near(const Vec2& p, Visit visit) const {
        const auto [x, y] = cellOf(p, size_);
        for (std::int64_t i = x - 1; i <= x + 1; ++i)
            for (std::int64_t j = y - 1; j <= y + 1; ++j) {
                const auto found = cells_.find({i, j});
                if (found == cells_.end()) continue;
                for (const std::size_t index : found->second)
                    visit(index);
            }
    }

private:
    double size_;
    std::map<CellKey, std::vector<std::size_t>> cells_;
};

std::string rounded(double mm) {
    return plainNumber(std::round(mm * 1e4) / 1e4);
}

std::vector<Vec2> pointsOf(const Chain& chain) {
    std::vector<Vec2> points;
    for (const Piece& piece : chain.pieces)
        points.insert(points.end(), piece.points.begin(), piece.points.end() - 1);
    if (!chain.isClosed) points.push_back(chain.back());
    return points;
}

bool sameInOrder(const std::vector<Vec2>& a, const std::vector<Vec2>& b, std::size_t start, int step) {
    const std::size_t n = a.size();
    for (std::size_t i = 0; i < n; ++i) {
        const std::size_t j = step > 0 ? (start + i) % n : (start + n - i) % n;
        if ((a[i] - b[j]).norm() > kSameLine_mm) return false;
    }
    return true;
}

bool sameShape(const std::vector<Vec2>& a, bool aClosed, const std::vector<Vec2>& b, bool bClosed) {
    if (a.size() != b.size() || aClosed != bClosed) return false;
    if (!aClosed) return sameInOrder(a, b, 0, 1) || sameInOrder(a, b, b.size() - 1, -1);
    for (std::size_t start = 0; start < b.size(); ++start) {
        if ((a[0] - b[start]).norm() > kSameLine_mm) continue;
        if (sameInOrder(a, b, start, 1) || sameInOrder(a, b, start, -1)) return true;
    }
    return false;
}

Vec2 middleOf(const std::vector<Vec2>& points) {
    Vec2 low = points.front(), high = points.front();
    for (const Vec2& p : points) {
        low = low.cwiseMin(p);
        high = high.cwiseMax(p);
    }
    return 0.5 * (low + high);
}

/// End e of the open chains: chain e/2, its front when e is even.
class EndJoining {
public:
    EndJoining(std::vector<Chain>& chains, double tolerance_mm, std::vector<std::string>& notes)
        : chains_(chains), tolerance_mm_(tolerance_mm), notes_(notes), partner_(2 * chains.size(), kFree) {}

    std::vector<Chain> run() {
        joinCoincident();
        joinNearest();
        refuseOpen();
        return walk();
    }

private:
    static constexpr std::size_t kFree = SIZE_MAX;

    const Vec2& at(std::size_t end) const { return end % 2 == 0 ? chains_[end / 2].front() : chains_[end / 2].back(); }
    void pair(std::size_t a, std::size_t b) {
        partner_[a] = b;
        partner_[b] = a;
    }

    void joinCoincident() {
        const double within = std::min(kCoincident_mm, tolerance_mm_);
        PointGrid grid(within > 0 ? within : kSamePoint_mm);
        for (std::size_t e = 0; e < partner_.size(); ++e)
            grid.add(at(e), e);
        for (std::size_t e = 0; e < partner_.size(); ++e) {
            std::vector<std::size_t> here;
            grid.near(at(e), [&](std::size_t other) {
                if (other != e && (at(other) - at(e)).norm() <= within) here.push_back(other);
            });
            if (here.size() > 1)
                throw InputFault("contour_branches", "", placeOf(chains_[e / 2].line) + ", at " + textOf(at(e)),
                                 std::to_string(here.size() + 1) + " lines meet in one point",
                                 "draw each edge of the profile once and keep contours apart, remove construction "
                                 "lines");
            if (here.size() == 1 && partner_[e] == kFree) pair(e, here.front());
        }
    }

    void joinNearest() {
        if (!(tolerance_mm_ > 0)) return;
        PointGrid grid(tolerance_mm_);
        for (std::size_t e = 0; e < partner_.size(); ++e)
            if (partner_[e] == kFree) grid.add(at(e), e);
        struct Gap {
            double width;
            std::size_t a, b;
            bool operator<(const Gap& o) const { return std::tie(width, a, b) < std::tie(o.width, o.a, o.b); }
        };
        std::vector<Gap> gaps;
        constexpr std::size_t kMostNeighbours = 16;  // more free ends than this in one place are no contour
        for (std::size_t e = 0; e < partner_.size(); ++e) {
            if (partner_[e] != kFree) continue;
            std::size_t neighbours = 0;
            grid.near(at(e), [&](std::size_t other) {
                if (other == e || neighbours >= kMostNeighbours) return;
                const double width = (at(other) - at(e)).norm();
                if (width > tolerance_mm_) return;
                ++neighbours;
                if (other > e) gaps.push_back({width, e, other});
            });
        }
        std::sort(gaps.begin(), gaps.end());
        std::size_t closed = 0;
        Gap widest{0, 0, 0};
        for (const Gap& gap : gaps) {
            if (partner_[gap.a] != kFree || partner_[gap.b] != kFree) continue;
            pair(gap.a, gap.b);
            if (gap.width < kGapWorthANote_mm) continue;
            ++closed;
            if (gap.width > widest.width) widest = gap;
        }
        if (closed > 0)
            notes_.push_back("closed " + std::to_string(closed) + (closed == 1 ? " gap" : " gaps") +
                             " of the contour, " + (closed == 1 ? "" : "the largest ") + rounded(widest.width) +
                             " mm at " + textOf(at(widest.a)));
    }

    void refuseOpen() const {
        std::vector<std::size_t> open;
        for (std::size_t e = 0; e < partner_.size(); ++e)
            if (partner_[e] == kFree) open.push_back(e);
        if (open.empty()) return;
        constexpr std::size_t kMostCompared = 2000;  // enough to name a place
        open.resize(std::min(open.size(), kMostCompared));
        double largest = -1;
        std::size_t where = open.front();
        for (const std::size_t e : open) {
            double nearest = 1e300;
            for (const std::size_t other : open)
                if (other != e) nearest = std::min(nearest, (at(other) - at(e)).norm());
            if (nearest < 1e300 && nearest > largest) {
                largest = nearest;
                where = e;
            }
        }
        const std::string gap = largest < 0 ? "an end" : "a gap of " + rounded(largest) + " mm";
        throw InputFault(
            "contour_open", "",
            placeOf(chains_[where / 2].line) + " (" + chains_[where / 2].entity + "), at " + textOf(at(where)),
            "the contour is open: " + gap + " where it should go on",
            "close the contour in the drawing; gaps up to " + rounded(tolerance_mm_) + " mm are closed by themselves");
    }

    std::vector<Chain> walk() {
        std::vector<Chain> closed;
        std::vector<char> used(chains_.size(), 0);
        for (std::size_t first = 0; first < chains_.size(); ++first) {
            if (used[first]) continue;
            Chain loop;
            loop.isClosed = true;
            loop.line = chains_[first].line;
            loop.entity = chains_[first].entity;
            std::size_t end = 2 * first;  // entering through the front
            do {
                used[end / 2] = 1;
                append(loop, chains_[end / 2], end % 2 == 1);
                end = partner_[end ^ 1];
            } while (end != 2 * first);
            meet(loop.pieces.back(), loop.pieces.front());
            closed.push_back(std::move(loop));
        }
        return closed;
    }

    static void append(Chain& loop, const Chain& chain, bool backwards) {
        std::vector<Piece> pieces = chain.pieces;
        if (backwards) {
            std::reverse(pieces.begin(), pieces.end());
            for (Piece& piece : pieces)
                piece = reversed(piece);
        }
        if (!loop.pieces.empty()) meet(loop.pieces.back(), pieces.front());
        loop.pieces.insert(loop.pieces.end(), pieces.begin(), pieces.end());
    }

    /// Puts the end of one piece and the start of the next onto one point.
    static void meet(Piece& before, Piece& behind) {
        const Vec2 a = before.points.back(), b = behind.points.front();
        const Vec2 corner = (a - b).norm() <= 1e-9 ? a : Vec2(0.5 * (a + b));
        before.points.back() = corner;
        behind.points.front() = corner;
    }

    std::vector<Chain>& chains_;
    double tolerance_mm_;
    std::vector<std::string>& notes_;
    std::vector<std::size_t> partner_;
};

}  // namespace

std::string textOf(const Vec2& place) {
    return "(" + rounded(place.x()) + " " + rounded(place.y()) + ")";
}

Chain chainOf(const Path& path, double chord_mm) {
    Chain chain;
    chain.line = path.line;
    chain.entity = path.entity;
    for (const Curve& curve : path.curves) {
        Piece piece = flattened(curve, chord_mm);
        for (const Vec2& p : piece.points)
            if (!(p.cwiseAbs().maxCoeff() <= kFarthest_mm) || !p.allFinite())
                throw InputFault("size_absurd", "", placeOf(path.line) + ", " + path.entity,
                                 "the entity lies farther than 1 km from the origin",
                                 "check the unit of the drawing, or move the profile to the origin");
        std::vector<Vec2> kept{piece.points.front()};
        for (const Vec2& p : piece.points)
            if ((p - kept.back()).norm() > kSamePoint_mm) kept.push_back(p);
        if (kept.size() < 2) continue;
        const bool closes = (piece.points.back() - piece.points.front()).norm() <= kSamePoint_mm;
        if (closes) kept.back() = kept.front();
        piece.points = std::move(kept);
        if (!chain.pieces.empty()) piece.points.front() = chain.back();
        chain.pieces.push_back(std::move(piece));
    }
    if (chain.pieces.empty()) return chain;
    chain.isClosed = path.isClosed || (chain.front() - chain.back()).norm() <= kSamePoint_mm;
    if (chain.isClosed) chain.pieces.back().points.back() = chain.front();
    return chain;
}

void dropDuplicates(std::vector<Chain>& chains, std::vector<std::string>& notes) {
    PointGrid grid(2 * kSameLine_mm);
    std::vector<Chain> kept;
    std::vector<std::vector<Vec2>> shapes;
    constexpr std::size_t kMostCandidates = 64;
    for (Chain& chain : chains) {
        std::vector<Vec2> points = pointsOf(chain);
        bool isDouble = false;
        std::size_t candidates = 0;
        grid.near(middleOf(points), [&](std::size_t k) {
            if (isDouble || ++candidates > kMostCandidates) return;
            isDouble = sameShape(points, chain.isClosed, shapes[k], kept[k].isClosed);
        });
        if (isDouble) continue;
        grid.add(middleOf(points), kept.size());
        kept.push_back(std::move(chain));
        shapes.push_back(std::move(points));
    }
    const std::size_t dropped = chains.size() - kept.size();
    if (dropped > 0) notes.push_back("left out: " + std::to_string(dropped) + " lines drawn twice");
    chains = std::move(kept);
}

std::vector<Chain> closedChains(std::vector<Chain> chains, double tolerance_mm, std::vector<std::string>& notes) {
    std::vector<Chain> closed, open;
    for (Chain& chain : chains)
        (chain.isClosed ? closed : open).push_back(std::move(chain));
    std::vector<Chain> joined = EndJoining(open, tolerance_mm, notes).run();
    for (Chain& chain : joined)
        closed.push_back(std::move(chain));
    return closed;
}

}  // namespace waybench::dxf
