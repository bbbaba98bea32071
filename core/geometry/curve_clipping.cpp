#include "core/geometry/curve_clipping.h"

#include <algorithm>
#include <cmath>
#include <utility>

namespace waybench {
namespace {

constexpr double kMostCells = 128;  // along the longer side
constexpr double kShortestPiece_mm = 1e-6;

double cross(const Vec2& a, const Vec2& b) {
    return a.x() * b.y() - a.y() * b.x();
}

}  // namespace

double lengthOf(const Curve& curve) {
    double length = 0;
    for (std::size_t i = 1; i < curve.size(); ++i)
        length += (curve[i] - curve[i - 1]).norm();
    return length;
}

CurveClipper::CurveClipper(Region region) : region_(std::move(region)) {
    for (const Ring& ring : region_)
        for (std::size_t i = 0, j = ring.size() - 1; i < ring.size(); j = i++)
            edges_.push_back({ring[j], ring[i]});
    if (edges_.empty()) return;
    low_ = high_ = edges_.front().from;
    for (const Edge& e : edges_) {
        low_ = low_.cwiseMin(e.from);
        high_ = high_.cwiseMax(e.from);
    }
    const Vec2 size = high_ - low_;
    const double cells = std::clamp(std::sqrt(static_cast<double>(edges_.size())) * 2, 1.0, kMostCells);
    cell_mm_ = std::max(1e-3, size.maxCoeff() / cells);
    for (int axis = 0; axis < 2; ++axis)
        columns_[axis] = static_cast<std::size_t>(size[axis] / cell_mm_) + 1;

    const auto overCells = [&](const auto& visit) {
        for (std::uint32_t e = 0; e < edges_.size(); ++e) {
            const Vec2 from = edges_[e].from.cwiseMin(edges_[e].to), to = edges_[e].from.cwiseMax(edges_[e].to);
            for (std::size_t y = cellOf(from.y(), 1); y <= cellOf(to.y(), 1); ++y)
                for (std::size_t x = cellOf(from.x(), 0); x <= cellOf(to.x(), 0); ++x)
                    visit(y * columns_[0] + x, e);
        }
    };
    cellStart_.assign(columns_[0] * columns_[1] + 1, 0);
    overCells([&](std::size_t cell, std::uint32_t) { ++cellStart_[cell + 1]; });
    for (std::size_t i = 1; i < cellStart_.size(); ++i)
        cellStart_[i] += cellStart_[i - 1];
    cellEdges_.resize(cellStart_.back());
    std::vector<std::uint32_t> next(cellStart_.begin(), cellStart_.end() - 1);
    overCells([&](std::size_t cell, std::uint32_t edge) { cellEdges_[next[cell]++] = edge; });
}

std::size_t CurveClipper::cellOf(double x, int axis) const {
    const double at = (x - low_[axis]) / cell_mm_;
    if (!(at > 0)) return 0;
    return std::min(columns_[axis] - 1, static_cast<std::size_t>(at));
}

void CurveClipper::addCrossings(const Vec2& from, const Vec2& to, std::vector<Crossing>& crossings) const {
    const Vec2 least = from.cwiseMin(to), most = from.cwiseMax(to);
    if (most.x() < low_.x() || most.y() < low_.y() || least.x() > high_.x() || least.y() > high_.y()) return;
    const Vec2 d = to - from;
    const std::size_t x0 = cellOf(least.x(), 0), x1 = cellOf(most.x(), 0), y1 = cellOf(most.y(), 1);
    for (std::size_t y = cellOf(least.y(), 1); y <= y1; ++y)
        for (std::size_t x = x0; x <= x1; ++x) {
            const std::size_t cell = y * columns_[0] + x;
            for (std::uint32_t i = cellStart_[cell]; i < cellStart_[cell + 1]; ++i) {
                const Edge& e = edges_[cellEdges_[i]];
                // one sign per corner, so that a corner on the line counts for one of its two edges
                if ((cross(d, e.from - from) >= 0) == (cross(d, e.to - from) >= 0)) continue;
                const Vec2 along = e.to - e.from;
                const double share = cross(e.from - from, along) / cross(d, along);
                if (share >= 0 && share < 1) crossings.push_back({share, cellEdges_[i]});
            }
        }
    if (crossings.size() < 2) return;
    std::sort(crossings.begin(), crossings.end(), [](const Crossing& a, const Crossing& b) {
        return a.share != b.share ? a.share < b.share : a.edge < b.edge;
    });
    crossings.erase(std::unique(crossings.begin(), crossings.end(),
                                [](const Crossing& a, const Crossing& b) { return a.edge == b.edge; }),
                    crossings.end());
}

bool CurveClipper::liesWithin(const Region& other) const {
    if (edges_.empty()) return true;
    std::vector<Crossing> crossings;
    for (const Ring& ring : other) {
        for (std::size_t i = 0, j = ring.size() - 1; i < ring.size(); j = i++) {
            addCrossings(ring[j], ring[i], crossings);
            if (!crossings.empty()) return false;
        }
        if (contains(region_, ring.front())) return false;  // an edge of the other runs inside
    }
    return std::all_of(region_.begin(), region_.end(), [&](const Ring& ring) { return contains(other, ring.front()); });
}

void CurveClipper::keepInside(Curve& piece, std::vector<Curve>& pieces) const {
    std::size_t longest = 0;
    double length = kShortestPiece_mm;
    for (std::size_t i = 1; i < piece.size(); ++i)
        if (const double l = (piece[i] - piece[i - 1]).norm(); l > length) {
            length = l;
            longest = i;
        }
    if (longest > 0 && contains(region_, 0.5 * (piece[longest] + piece[longest - 1])))
        pieces.push_back(std::move(piece));
    piece.clear();
}

void CurveClipper::clip(const Curve& curve, std::vector<Curve>& pieces) const {
    if (edges_.empty() || curve.size() < 2) return;
    Curve piece{curve.front()};
    std::vector<Crossing> crossings;
    for (std::size_t i = 1; i < curve.size(); ++i) {
        crossings.clear();
        addCrossings(curve[i - 1], curve[i], crossings);
        for (const Crossing& c : crossings) {
            const Vec2 at = curve[i - 1] + c.share * (curve[i] - curve[i - 1]);
            piece.push_back(at);
            keepInside(piece, pieces);
            piece.assign(1, at);
        }
        piece.push_back(curve[i]);
    }
    keepInside(piece, pieces);
}

}  // namespace waybench
