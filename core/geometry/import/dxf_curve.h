#pragma once
#include <string>
#include <variant>
#include <vector>

#include "core/geometry/vector.h"

namespace waybench::dxf {

using Mat2 = Eigen::Matrix2d;

/// x -> linear x + shift.
struct Affine {
    Mat2 linear = Mat2::Identity();
    Vec2 shift = Vec2::Zero();
    Vec2 apply(const Vec2& p) const { return linear * p + shift; }
};
/// First `inner`, then `outer`.
Affine after(const Affine& outer, const Affine& inner);

struct LineCurve {
    Vec2 from, to;
};
/// centre + u cos t + v sin t for t from start over a positive sweep; circle and ellipse alike, and any affine image.
struct ConicCurve {
    Vec2 centre, u, v;
    double start = 0, sweep = 0;
};
/// Non-uniform rational B-spline; weights empty when polynomial.
struct SplineCurve {
    int degree = 3;
    std::vector<double> knots;
    std::vector<Vec2> points;
    std::vector<double> weights;
};
using Curve = std::variant<LineCurve, ConicCurve, SplineCurve>;

/// Curves joined end to end: one entity of the drawing.
struct Path {
    std::vector<Curve> curves;
    bool isClosed = false;
    std::size_t line = 0;  ///< where the entity begins in the file
    std::string entity;    ///< "ARC"
};

Curve moved(const Curve& curve, const Affine& by);

/// A curve as points, with the line or circle it came from kept.
struct Piece {
    enum class Kind { line, arc, free } kind = Kind::line;
    std::vector<Vec2> points;  ///< at least two, ends included
    Vec2 centre = Vec2::Zero();
    double radius_mm = 0;
    bool isCounterClockwise = true;  ///< arc only
    bool isFullTurn = false;         ///< arc only
};
Piece reversed(const Piece& piece);

/// Points no farther than chord_mm from the curve (as long as a cap of 20000 points per curve allows).
Piece flattened(const Curve& curve, double chord_mm);

/// Point of a B-spline at parameter t by de Boor's algorithm (C. de Boor, A Practical Guide to Splines, ch. X), in
/// homogeneous coordinates when rational. Precondition: knots.size() == points.size() + degree + 1, ascending.
Vec2 pointAt(const SplineCurve& spline, double t);

/// The arc of a polyline segment with bulge b = tan(quarter of the included angle), positive counter-clockwise.
Curve bulged(const Vec2& from, const Vec2& to, double bulge);

}  // namespace waybench::dxf
