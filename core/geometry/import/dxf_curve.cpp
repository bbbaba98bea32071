#include "core/geometry/import/dxf_curve.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace waybench::dxf {

namespace {

constexpr double kRound = 1e-6;     // relative difference of axes below which an ellipse is a circle
constexpr double kFullTurn = 1e-9;  // rad
constexpr double kCoarsest = std::numbers::pi / 8;
constexpr int kMostPoints = 20000;
constexpr int kDeepestHalving = 12;

double cross(const Vec2& a, const Vec2& b) {
    return a.x() * b.y() - a.y() * b.x();
}

int stepsFor(double sweep, double step) {
    const double wanted = std::ceil(sweep / std::min(step, kCoarsest) - 1e-9);
    if (!(wanted < kMostPoints)) return kMostPoints;
    return std::max(static_cast<int>(wanted), 1);
}

Piece flattenedConic(const ConicCurve& c, double chord_mm) {
    Piece piece;
    const double longer = std::max(c.u.norm(), c.v.norm());
    const bool isRound =
        std::abs(c.u.norm() - c.v.norm()) <= kRound * longer && std::abs(c.u.dot(c.v)) <= kRound * longer * longer;
    double step = kCoarsest;
    if (isRound) {
        piece.kind = Piece::Kind::arc;
        piece.centre = c.centre;
        piece.radius_mm = c.u.norm();
        piece.isCounterClockwise = cross(c.u, c.v) > 0;
        piece.isFullTurn = c.sweep >= 2 * std::numbers::pi - kFullTurn;
        if (piece.radius_mm > chord_mm) step = 2 * std::acos(1 - chord_mm / piece.radius_mm);
    } else {
        piece.kind = Piece::Kind::free;
        // A chord over the parameter step h lies within h^2/8 max|p''| of the curve.
        const double bend = std::hypot(c.u.norm(), c.v.norm());
        if (bend > 0) step = std::sqrt(8 * chord_mm / bend);
    }
    const int n = stepsFor(c.sweep, step);
    for (int i = 0; i <= n; ++i) {
        const double t = c.start + c.sweep * i / n;
        piece.points.push_back(c.centre + c.u * std::cos(t) + c.v * std::sin(t));
    }
    if (c.sweep >= 2 * std::numbers::pi - kFullTurn) piece.points.back() = piece.points.front();
    return piece;
}

double distanceToChord(const Vec2& p, const Vec2& a, const Vec2& b) {
    const Vec2 d = b - a;
    const double length2 = d.squaredNorm();
    const double t = length2 > 0 ? std::clamp((p - a).dot(d) / length2, 0.0, 1.0) : 0.0;
    return (p - a - t * d).norm();
}

void halve(const SplineCurve& spline, double t0, const Vec2& p0, double t1, const Vec2& p1, double chord_mm, int depth,
           std::vector<Vec2>& out) {
    bool straight = depth > 0;  // the first halving is unconditional: a symmetric S would hide its inflection
    for (const double share : {0.25, 0.5, 0.75})
        straight = straight && distanceToChord(pointAt(spline, t0 + share * (t1 - t0)), p0, p1) <= chord_mm;
    if (straight || depth >= kDeepestHalving || out.size() >= std::size_t(kMostPoints)) {
        out.push_back(p1);
        return;
    }
    const double t = 0.5 * (t0 + t1);
    const Vec2 p = pointAt(spline, t);
    halve(spline, t0, p0, t, p, chord_mm, depth + 1, out);
    halve(spline, t, p, t1, p1, chord_mm, depth + 1, out);
}

Piece flattenedSpline(const SplineCurve& spline, double chord_mm) {
    Piece piece;
    piece.kind = Piece::Kind::free;
    const std::size_t first = spline.degree, last = spline.points.size();
    piece.points.push_back(pointAt(spline, spline.knots[first]));
    for (std::size_t k = first; k < last; ++k) {
        const double t0 = spline.knots[k], t1 = spline.knots[k + 1];
        if (!(t1 > t0)) continue;
        const Vec2 p1 = pointAt(spline, t1);
        if (spline.degree == 1)
            piece.points.push_back(p1);
        else
            halve(spline, t0, Vec2(piece.points.back()), t1, p1, chord_mm, 0, piece.points);
    }
    return piece;
}

}  // namespace

Affine after(const Affine& outer, const Affine& inner) {
    return {outer.linear * inner.linear, outer.apply(inner.shift)};
}

Curve moved(const Curve& curve, const Affine& by) {
    if (const auto* line = std::get_if<LineCurve>(&curve)) return LineCurve{by.apply(line->from), by.apply(line->to)};
    if (const auto* conic = std::get_if<ConicCurve>(&curve)) {
        ConicCurve c = *conic;
        c.centre = by.apply(c.centre);
        c.u = by.linear * c.u;
        c.v = by.linear * c.v;
        return c;
    }
    SplineCurve spline = std::get<SplineCurve>(curve);
    for (Vec2& p : spline.points)
        p = by.apply(p);
    return spline;
}

Piece reversed(const Piece& piece) {
    Piece back = piece;
    std::reverse(back.points.begin(), back.points.end());
    back.isCounterClockwise = !piece.isCounterClockwise;
    return back;
}

Piece flattened(const Curve& curve, double chord_mm) {
    if (const auto* line = std::get_if<LineCurve>(&curve)) {
        Piece piece;
        piece.points = {line->from, line->to};
        return piece;
    }
    if (const auto* conic = std::get_if<ConicCurve>(&curve)) return flattenedConic(*conic, chord_mm);
    return flattenedSpline(std::get<SplineCurve>(curve), chord_mm);
}

Vec2 pointAt(const SplineCurve& s, double t) {
    const int p = s.degree;
    const std::size_t n = s.points.size();
    std::size_t k = std::upper_bound(s.knots.begin() + p, s.knots.begin() + n, t) - s.knots.begin();
    k = std::clamp<std::size_t>(k - 1, p, n - 1);
    while (k > std::size_t(p) && !(s.knots[k + 1] > s.knots[k]))
        --k;
    std::vector<Vec3> d(p + 1);
    for (int j = 0; j <= p; ++j) {
        const std::size_t i = k - p + j;
        const double w = s.weights.empty() ? 1.0 : s.weights[i];
        d[j] = Vec3(w * s.points[i].x(), w * s.points[i].y(), w);
    }
    for (int r = 1; r <= p; ++r)
        for (int j = p; j >= r; --j) {
            const double low = s.knots[k - p + j], high = s.knots[k + 1 + j - r];
            const double share = high > low ? (t - low) / (high - low) : 0.0;
            d[j] = (1 - share) * d[j - 1] + share * d[j];
        }
    return d[p].head<2>() / d[p].z();
}

Curve bulged(const Vec2& from, const Vec2& to, double bulge) {
    if (std::abs(bulge) < 1e-12) return LineCurve{from, to};
    const Vec2 chord = to - from, left(-chord.y(), chord.x());
    const Vec2 centre = 0.5 * (from + to) + left * ((1 - bulge * bulge) / (4 * bulge));
    ConicCurve arc;
    arc.centre = centre;
    arc.u = from - centre;
    arc.v = Vec2(-arc.u.y(), arc.u.x()) * (bulge > 0 ? 1.0 : -1.0);
    arc.sweep = 4 * std::atan(std::abs(bulge));
    return arc;
}

}  // namespace waybench::dxf
