#pragma once
#include <cstdint>
#include <vector>

#include "core/geometry/polygon.h"

namespace waybench {

/// Open line through points, mm.
using Curve = std::vector<Vec2>;

double lengthOf(const Curve& curve);

/// Cuts open curves to a region. Edges of the region are sorted into a grid once, so a curve of short pieces costs
/// about its number of points.
///
/// A curve is cut wherever it crosses an edge; a piece stays when the middle of its longest line lies in the region.
class CurveClipper {
public:
    /// Precondition: rings do not cross (as the Boolean operations of polygon.h return them). Keeps a copy.
    explicit CurveClipper(Region region);
    /// Appends the pieces of the curve that lie inside, in the order of the curve.
    void clip(const Curve& curve, std::vector<Curve>& pieces) const;
    /// Whether the whole region lies in another whose edges nowhere meet its own; false also where they only touch.
    bool liesWithin(const Region& other) const;
    const Vec2& low() const { return low_; }
    const Vec2& high() const { return high_; }

private:
    struct Edge {
        Vec2 from, to;
    };
    struct Crossing {
        double share;  ///< of the line, from its start
        std::uint32_t edge;
    };
    std::size_t cellOf(double x, int axis) const;
    void addCrossings(const Vec2& from, const Vec2& to, std::vector<Crossing>& crossings) const;
    void keepInside(Curve& piece, std::vector<Curve>& pieces) const;

    Region region_;
    std::vector<Edge> edges_;
    Vec2 low_ = Vec2::Zero(), high_ = Vec2::Zero();
    std::size_t columns_[2] = {1, 1};
    double cell_mm_ = 1;
    std::vector<std::uint32_t> cellStart_, cellEdges_;  ///< edges of each cell, one after another
};

}  // namespace waybench
