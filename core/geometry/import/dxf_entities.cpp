#include "core/geometry/import/dxf_entities.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace waybench::dxf {

namespace {

constexpr double kLargestCoordinate = 1e9;  // drawing units; beyond it micrometres drown in rounding
constexpr double kLargestBulge = 1e4;       // an arc closed but for 0.02 degrees
constexpr double kFlat = 1e-6;              // share of the size by which an entity may leave the plane
constexpr int kHighestDegree = 15;
constexpr double kDegree = std::numbers::pi / 180;

[[noreturn]] void unusable(const Entity& e, const std::string& code, const std::string& problem) {
    throw InputFault(code, "", e.place(), problem, "correct the entity in the drawing and export it again");
}

Vec2 boundedPoint(const Entity& e, double x, double y) {
    if (std::abs(x) > kLargestCoordinate || std::abs(y) > kLargestCoordinate)
        unusable(e, "size_absurd", "a coordinate is larger than 1e9 drawing units");
    return {x, y};
}

double positive(const Entity& e, int code, const char* what) {
    const double value = e.number(code, 0);
    if (!(value > 0) || value > kLargestCoordinate) unusable(e, "size_absurd", std::string(what) + " is not usable");
    return value;
}

double sweepBetween(double start, double end) {
    const double turn = 2 * std::numbers::pi;
    double sweep = std::fmod(end - start, turn);
    if (sweep <= 1e-9) sweep += turn;
    return std::min(sweep, turn);
}

Curve circleOf(const Entity& e) {
    const double radius = positive(e, 40, "the radius");
    ConicCurve c{e.point(10), Vec2(radius, 0), Vec2(0, radius), 0, 2 * std::numbers::pi};
    if (e.type == "ARC") {
        const double start = std::fmod(e.number(50, 0), 360.0), end = std::fmod(e.number(51, 360), 360.0);
        c.start = start * kDegree;
        c.sweep = sweepBetween(c.start, end * kDegree);
    }
    return c;
}

Curve ellipseOf(const Entity& e) {
    ConicCurve c;
    c.centre = e.point(10);
    c.u = e.point(11);
    const double ratio = e.number(40, 1);
    if (!(std::abs(ratio) > 1e-9 && std::abs(ratio) <= 1e6)) unusable(e, "size_absurd", "the axis ratio is not usable");
    const double facing = e.number(230, 1) < 0 ? -1.0 : 1.0;
    c.v = facing * ratio * Vec2(-c.u.y(), c.u.x());
    c.start = std::fmod(e.number(41, 0), 2 * std::numbers::pi);
    c.sweep = sweepBetween(c.start, e.number(42, 2 * std::numbers::pi));
    return c;
}

/// LINE, ELLIPSE, SPLINE and 3D polylines carry world coordinates, all others those of their extrusion plane.
bool isInWorldCoordinates(const Entity& e) {
    return e.type == "LINE" || e.type == "ELLIPSE" || e.type == "SPLINE";
}

void requireOneHeight(const Entity& e, std::initializer_list<int> codes, double size) {
    double low = 1e300, high = -1e300;
    for (const Group& g : e.groups) {
        if (std::find(codes.begin(), codes.end(), g.code) == codes.end()) continue;
        const double z = numberOf(g);
        low = std::min(low, z);
        high = std::max(high, z);
    }
    if (high - low > kFlat * std::max(1.0, size))
        unusable(e, "entity_not_flat", "the " + e.type + " runs out of the drawing plane");
}

Curve splineOf(const Entity& e) {
    SplineCurve s;
    s.degree = e.wholeNumber(71, 3);
    bool hasFitPoints = false;
    double x = 0;
    for (const Group& g : e.groups) {
        if (g.code == 40) s.knots.push_back(numberOf(g));
        if (g.code == 41) s.weights.push_back(numberOf(g));
        if (g.code == 10) x = numberOf(g);
        if (g.code == 20) s.points.push_back(boundedPoint(e, x, numberOf(g)));
        if (g.code == 11) hasFitPoints = true;
    }
    if (s.points.empty() && hasFitPoints)
        unusable(e, "spline_unusable", "the SPLINE has fit points only and no control points");
    const bool degreeFits = s.degree >= 1 && s.degree <= kHighestDegree && s.points.size() > std::size_t(s.degree);
    if (!degreeFits || s.knots.size() != s.points.size() + s.degree + 1)
        unusable(e, "spline_unusable", "degree, knots and control points of the SPLINE do not fit together");
    if (!std::is_sorted(s.knots.begin(), s.knots.end()) || !(s.knots[s.points.size()] > s.knots[s.degree]))
        unusable(e, "spline_unusable", "the knots of the SPLINE do not ascend");
    if (s.weights.size() != s.points.size()) {
        if (!s.weights.empty()) unusable(e, "spline_unusable", "the SPLINE has not one weight per control point");
    } else if (std::any_of(s.weights.begin(), s.weights.end(), [](double w) { return !(w > 1e-9 && w < 1e9); })) {
        unusable(e, "spline_unusable", "a weight of the SPLINE is not positive");
    }
    requireOneHeight(e, {30}, (s.points.back() - s.points.front()).norm());
    return s;
}

struct Corner {
    Vec2 point;
    double bulge = 0;
};

double bulgeOf(const Entity& e, double bulge) {
    if (std::abs(bulge) > kLargestBulge) unusable(e, "size_absurd", "a bulge is too large to be an arc");
    return bulge;
}

std::vector<Corner> cornersOfLightPolyline(const Entity& e) {
    std::vector<Corner> corners;
    bool hasY = true;
    for (const Group& g : e.groups) {
        if (g.code == 10) {
            if (!hasY) unusable(e, "number_unreadable", "a vertex has no y coordinate");
            corners.push_back({boundedPoint(e, numberOf(g), 0), 0});
            hasY = false;
        }
        if (corners.empty()) continue;
        if (g.code == 20) {
            corners.back().point = boundedPoint(e, corners.back().point.x(), numberOf(g));
            hasY = true;
        }
        if (g.code == 42) corners.back().bulge = bulgeOf(e, numberOf(g));
    }
    if (!hasY) unusable(e, "number_unreadable", "a vertex has no y coordinate");
    return corners;
}

std::vector<Corner> cornersOfPolyline(const Entity& e) {
    constexpr int kSplineFrame = 16;
    std::vector<Corner> corners;
    double low = 1e300, high = -1e300, size = 1;
    for (const Entity& v : e.vertices) {
        if (v.wholeNumber(70, 0) & kSplineFrame) continue;
        corners.push_back({v.point(10), bulgeOf(v, v.number(42, 0))});
        low = std::min(low, v.number(30, 0));
        high = std::max(high, v.number(30, 0));
        size = std::max(size, (corners.back().point - corners.front().point).norm());
    }
    if (!corners.empty() && high - low > kFlat * size)
        unusable(e, "entity_not_flat", "the POLYLINE runs out of the drawing plane");
    return corners;
}

std::vector<Curve> curvesThrough(const std::vector<Corner>& corners, bool isClosed) {
    std::vector<Curve> curves;
    const std::size_t n = corners.size(), segments = n < 2 ? 0 : isClosed ? n : n - 1;
    for (std::size_t i = 0; i < segments; ++i) {
        const Corner &a = corners[i], &b = corners[(i + 1) % n];
        if (a.point == b.point) continue;
        curves.push_back(bulged(a.point, b.point, a.bulge));
    }
    return curves;
}

}  // namespace

std::optional<Affine> planeOf(const Entity& e) {
    const Vec3 n(e.number(210, 0), e.number(220, 0), e.number(230, 1));
    if (n.head<2>().norm() > 1e-6 * std::abs(n.z()) || n.z() == 0) return std::nullopt;
    Affine plane;
    if (n.z() < 0) plane.linear(0, 0) = -1;
    return plane;
}

std::optional<Path> pathOf(const Entity& e) {
    constexpr int kClosed = 1, kPolyline3d = 8, kMesh = 16, kPolyface = 64;
    Path path;
    path.line = e.line;
    path.entity = e.type;
    bool inWorld = isInWorldCoordinates(e);
    if (e.type == "LINE") {
        const Vec2 from = e.point(10), to = e.point(11);
        requireOneHeight(e, {30, 31}, (to - from).norm());
        path.curves = {LineCurve{from, to}};
    } else if (e.type == "ARC" || e.type == "CIRCLE") {
        path.curves = {circleOf(e)};
    } else if (e.type == "ELLIPSE") {
        path.curves = {ellipseOf(e)};
    } else if (e.type == "SPLINE") {
        path.curves = {splineOf(e)};
    } else if (e.type == "LWPOLYLINE") {
        path.isClosed = (e.wholeNumber(70, 0) & kClosed) != 0;
        path.curves = curvesThrough(cornersOfLightPolyline(e), path.isClosed);
    } else if (e.type == "POLYLINE") {
        const int flags = e.wholeNumber(70, 0);
        if (flags & (kMesh | kPolyface)) return std::nullopt;
        path.isClosed = (flags & kClosed) != 0;
        inWorld = (flags & kPolyline3d) != 0;
        path.curves = curvesThrough(cornersOfPolyline(e), path.isClosed);
    } else {
        return std::nullopt;
    }
    const std::optional<Affine> plane = planeOf(e);
    const bool tiltMatters = !inWorld || e.type == "ELLIPSE";
    if (!plane && tiltMatters) unusable(e, "entity_not_flat", "the " + e.type + " is tilted out of the drawing plane");
    if (!inWorld)
        for (Curve& curve : path.curves)
            curve = moved(curve, *plane);
    return path;
}

bool Entity::has(int code) const {
    return std::any_of(groups.begin(), groups.end(), [&](const Group& g) { return g.code == code; });
}

double Entity::number(int code, double standard) const {
    for (const Group& g : groups)
        if (g.code == code) return numberOf(g);
    return standard;
}

int Entity::wholeNumber(int code, int standard) const {
    for (const Group& g : groups)
        if (g.code == code) return wholeNumberOf(g);
    return standard;
}

std::string Entity::text(int code) const {
    for (const Group& g : groups)
        if (g.code == code) return std::string(g.value);
    return {};
}

Vec2 Entity::point(int code) const {
    if (!has(code) || !has(code + 10)) unusable(*this, "number_unreadable", "the " + type + " lacks a coordinate");
    return boundedPoint(*this, number(code, 0), number(code + 10, 0));
}

std::string Entity::place() const {
    return placeOf(line) + ", " + type;
}

}  // namespace waybench::dxf
