#include <algorithm>
#include <cmath>
#include <cstdint>

#include "core/fault/input_fault.h"
#include "core/geometry/import/dxf_contour.h"
#include "core/geometry/orientation.h"

namespace waybench::dxf {

namespace {

struct Segment {
    Vec2 a, b;
    std::uint32_t ring, index;
};

bool withinBox(const Vec2& p, const Vec2& a, const Vec2& b) {
    return p.x() >= std::min(a.x(), b.x()) && p.x() <= std::max(a.x(), b.x()) && p.y() >= std::min(a.y(), b.y()) &&
           p.y() <= std::max(a.y(), b.y());
}

bool meet(const Segment& s, const Segment& t, Vec2& place) {
    const int abc = turnOf(s.a, s.b, t.a), abd = turnOf(s.a, s.b, t.b);
    const int cda = turnOf(t.a, t.b, s.a), cdb = turnOf(t.a, t.b, s.b);
    if (abc * abd < 0 && cda * cdb < 0) {
        const Vec2 d = s.b - s.a, e = t.b - t.a;
        const double denominator = d.x() * e.y() - d.y() * e.x();
        const Vec2 f = t.a - s.a;
        place = s.a + (denominator != 0 ? (f.x() * e.y() - f.y() * e.x()) / denominator : 0.5) * d;
        return true;
    }
    const auto touches = [&](int turn, const Vec2& p, const Segment& on) {
        if (turn != 0 || !withinBox(p, on.a, on.b)) return false;
        place = p;
        return true;
    };
    return touches(abc, t.a, s) || touches(abd, t.b, s) || touches(cda, s.a, t) || touches(cdb, s.b, t);
}

/// Segments by the cells of a regular grid they pass through.
class SegmentGrid {
public:
    explicit SegmentGrid(const std::vector<Segment>& segments) {
        low_ = high_ = segments.front().a;
        for (const Segment& s : segments) {
            low_ = low_.cwiseMin(s.a);
            high_ = high_.cwiseMax(s.a);
        }
        constexpr double kMostPerSide = 1000;
        const double side = std::clamp(std::sqrt(double(segments.size())), 1.0, kMostPerSide);
        const Vec2 size = (high_ - low_).cwiseMax(1e-9);
        const double cell = std::max(size.maxCoeff() / side, 1e-9);
        cell_ = Vec2(cell, cell);
        columns_ = int(size.x() / cell) + 1;
        rows_ = int(size.y() / cell) + 1;
        cells_.resize(std::size_t(columns_) * rows_);
        for (std::uint32_t i = 0; i < segments.size(); ++i)
            put(segments[i], i);
    }
    const std::vector<std::vector<std::uint32_t>>& cells() const { return cells_; }

private:
    int column(double x) const { return std::clamp(int((x - low_.x()) / cell_.x()), 0, columns_ - 1); }
    int row(double y) const { return std::clamp(int((y - low_.y()) / cell_.y()), 0, rows_ - 1); }

    void put(const Segment& s, std::uint32_t index) {
        const Vec2 &left = s.a.x() <= s.b.x() ? s.a : s.b, &right = s.a.x() <= s.b.x() ? s.b : s.a;
        const double slope = right.x() > left.x() ? (right.y() - left.y()) / (right.x() - left.x()) : 0;
        const int first = column(left.x()), last = column(right.x());
        const double slack = 1e-9 * cell_.y();
        for (int c = first; c <= last; ++c) {
            double y0 = left.y(), y1 = right.y();
            if (first != last) {
                const double x0 = std::max(left.x(), low_.x() + c * cell_.x() - slack);
                const double x1 = std::min(right.x(), low_.x() + (c + 1) * cell_.x() + slack);
                y0 = left.y() + slope * (x0 - left.x());
                y1 = left.y() + slope * (x1 - left.x());
            }
            const int bottom = row(std::min(y0, y1) - slack), top = row(std::max(y0, y1) + slack);
            for (int r = bottom; r <= top; ++r)
                cells_[std::size_t(r) * columns_ + c].push_back(index);
        }
    }

    Vec2 low_, high_, cell_;
    int columns_ = 1, rows_ = 1;
    std::vector<std::vector<std::uint32_t>> cells_;
};

[[noreturn]] void crosses(const Segment& s, const Segment& t, const Vec2& place) {
    const bool itself = s.ring == t.ring;
    throw InputFault("contour_crosses_itself", "", "at " + textOf(place),
                     itself ? "the contour crosses or touches itself" : "two contours cross or touch each other",
                     "correct the drawing there; construction lines must be removed");
}

void check(const Segment& s, const Segment& t, std::size_t ringSize) {
    const bool follows =
        s.ring == t.ring && ((s.index + 1) % ringSize == t.index || (t.index + 1) % ringSize == s.index);
    if (follows) {
        // Neighbours share a corner; only folding back onto each other is wrong.
        const Segment &first = (s.index + 1) % ringSize == t.index ? s : t, &second = &first == &s ? t : s;
        if (turnOf(first.a, first.b, second.b) == 0 && (first.b - first.a).dot(second.b - second.a) < 0)
            crosses(s, t, first.b);
        return;
    }
    Vec2 place;
    if (meet(s, t, place)) crosses(s, t, place);
}

}  // namespace

void refuseCrossings(const std::vector<Ring>& rings) {
    std::vector<Segment> segments;
    for (std::uint32_t r = 0; r < rings.size(); ++r)
        for (std::uint32_t i = 0; i < rings[r].size(); ++i)
            segments.push_back({rings[r][i], rings[r][(i + 1) % rings[r].size()], r, i});
    if (segments.empty()) return;
    const SegmentGrid grid(segments);
    for (const auto& cell : grid.cells())
        for (std::size_t i = 0; i < cell.size(); ++i)
            for (std::size_t j = i + 1; j < cell.size(); ++j) {
                const Segment &s = segments[cell[i]], &t = segments[cell[j]];
                check(s, t, rings[s.ring].size());
            }
}

}  // namespace waybench::dxf
