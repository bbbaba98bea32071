#include "core/loadcase/bolt_seat.h"

#include <algorithm>
#include <cmath>

#include "core/fault/input_fault.h"
#include "core/geometry/facet.h"

namespace waybench {

namespace {

constexpr double kParallel = 0.999;      // cosine between a flat face's normal, or another bore's axis, and the axis
constexpr double kOnAxis = 0.02;         // of the radius: how far axes of one bore may lie apart
constexpr double kOpenBore = 0.2;        // a half bore has 2/pi: its wall pushes to one side
constexpr double kChamfer = 0.5;         // of the radius
constexpr double kLevelSlack_mm = 1e-3;  // between a flat face and the end of the bore
constexpr double kNoArea_mm2 = 1e-9;
constexpr double kHeadOverBore = 2;         // where no head is given
constexpr double kLeastHeadOverBore = 1.1;  // less than this is no seat
constexpr double kMostHeadOverBore =
    8;  // large washers reach three, plates under heads more (common practice, no source)

InputFault boltFault(const std::string& code, const std::string& place, const std::string& problem,
                     const std::string& remedy) {
    return {code, "", place, problem, remedy};
}

/// Distance of a facet, seen along the axis, from it; zero where the axis passes through.
double distanceFromAxis(const Mesh& mesh, std::uint32_t facet, const Prism& head) {
    const Vec3 u = head.axis.unitOrthogonal(), v = head.axis.cross(u);
    std::array<Vec2, 3> flat;
    for (std::size_t k = 0; k < 3; ++k) {
        const Vec3 from = mesh.vertices[mesh.triangles[facet][k]] - head.point;
        flat[k] = {u.dot(from), v.dot(from)};
    }
    const Vec2 first = flat[1] - flat[0], second = flat[2] - flat[0];
    const bool hasArea = std::abs(first.x() * second.y() - first.y() * second.x()) > kNoArea_mm2;
    double nearest = 1e300;
    int left = 0, right = 0;
    for (std::size_t k = 0; k < 3; ++k) {
        const Vec2 a = flat[k], edge = flat[(k + 1) % 3] - a;
        const double length2 = edge.squaredNorm();
        const double along = length2 > 0 ? std::clamp(-a.dot(edge) / length2, 0.0, 1.0) : 0.0;
        nearest = std::min(nearest, (a + along * edge).norm());
        (edge.x() * -a.y() - edge.y() * -a.x() > 0 ? left : right) += 1;
    }
    return hasArea && (left == 0 || right == 0) ? 0 : nearest;
}

bool isFlatAcross(const Solid& solid, std::uint32_t facet, const Vec3& outward) {
    const Face& face = solid.faces[solid.faceOfTriangle[facet]];
    return face.kind == SurfaceKind::plane && face.direction.dot(outward) > kParallel;
}

/// Whole faces that the selector touches: a bolt bears on all of its bore.
std::vector<std::uint32_t> boreWall(const Solid& solid, const Hold& hold, const std::string& place, BoltSeat& seat) {
    std::vector<char> isTouched(solid.faces.size(), 0);
    for (const std::uint32_t t : select(solid, hold.face))
        isTouched[solid.faceOfTriangle[t]] = 1;
    const Face* bore = nullptr;
    for (std::size_t f = 0; f < solid.faces.size(); ++f) {
        if (isTouched[f] == 0) continue;
        const Face& face = solid.faces[f];
        const auto refuse = [&](const std::string& problem) -> InputFault {
            return boltFault("bolt_not_in_bore", place, "face '" + face.name + "' " + problem,
                             "choose the wall of one round bore for a bolted hold, or hold the face as fixed");
        };
        if (face.kind != SurfaceKind::cylinder || !face.isHollow || !(face.radius_mm > 0))
            throw refuse("is not a bore");
        if (bore == nullptr) {
            bore = &face;
            seat.head.axis = face.direction.normalized();
            seat.head.point = face.point;
            seat.boreRadius_mm = face.radius_mm;
            continue;
        }
        const Vec3 apart = face.point - bore->point;
        const bool isSameBore = std::abs(face.direction.normalized().dot(seat.head.axis)) > kParallel &&
                                seat.head.axis.cross(apart).norm() < kOnAxis * seat.boreRadius_mm &&
                                std::abs(face.radius_mm - bore->radius_mm) < kOnAxis * seat.boreRadius_mm;
        if (!isSameBore) throw refuse("is another bore than '" + bore->name + "', and a bolt sits in one");
    }
    std::vector<std::uint32_t> wall;
    Vec3 sum = Vec3::Zero();
    double area = 0;
    for (std::uint32_t t = 0; t < solid.mesh.triangles.size(); ++t) {
        if (isTouched[solid.faceOfTriangle[t]] == 0) continue;
        wall.push_back(t);
        const Vec3 facing = facetOf(solid.mesh, t).areaVector;
        sum += facing;
        area += facing.norm();
    }
    if (sum.norm() > kOpenBore * area)
        throw boltFault("bolt_not_in_bore", place, "face '" + bore->name + "' does not close to a round bore",
                        "choose the wall of one round bore for a bolted hold, or hold the face as fixed");
    return wall;
}

/// Level of the flat face nearest to the end of the bore, not beyond a chamfer; none where the bore does not open.
std::optional<double> flatLevel(const Solid& solid, const BoltSeat& seat, double end, double sign) {
    const Vec3 outward = sign * seat.head.axis;
    std::optional<double> nearest;
    bool isClosed = false;
    for (std::uint32_t t = 0; t < solid.mesh.triangles.size(); ++t) {
        if (!isFlatAcross(solid, t, outward)) continue;
        const double level = seat.along(facetOf(solid.mesh, t).centre());
        const double beyond = sign * (level - end);
        if (beyond < -kLevelSlack_mm || beyond > kChamfer * seat.boreRadius_mm + kLevelSlack_mm) continue;
        const double distance = distanceFromAxis(solid.mesh, t, seat.head);
        if (distance >= seat.head.radius_mm) continue;
        const bool isNearer = !nearest || sign * level < sign * *nearest - kLevelSlack_mm;
        if (isNearer) nearest = level;
        if (isNearer || std::abs(level - *nearest) <= kLevelSlack_mm)
            isClosed = distance == 0 || (!isNearer && isClosed);
    }
    return isClosed ? std::nullopt : nearest;
}

}  // namespace

bool BoltSeat::isOnFlat(const Solid& solid, std::uint32_t facet, std::size_t end) const {
    return level[end] && isFlatAcross(solid, facet, (end == 0 ? -1 : 1) * head.axis) &&
           std::abs(along(facetOf(solid.mesh, facet).centre()) - *level[end]) <= kLevelSlack_mm;
}

bool BoltSeat::isUnderHead(const Solid& solid, std::uint32_t facet) const {
    return (isOnFlat(solid, facet, 0) || isOnFlat(solid, facet, 1)) &&
           head.contains(facetOf(solid.mesh, facet).centre());
}

void refuseSeat(const std::string& place) {
    throw boltFault("bolt_without_seat", place,
                    "no flat face lies round either end of the bore for the head to press on",
                    "choose a bore that ends in a flat face square to it, or hold the bore as fixed");
}

BoltSeat boltSeatOf(const Solid& solid, const Hold& hold, const std::string& place) {
    BoltSeat seat;
    seat.wall = boreWall(solid, hold, place, seat);
    const double given = hold.headDiameter_mm;
    if (!(given >= 0) || !std::isfinite(given))
        throw boltFault("bolt_head_absurd", place, "the head's diameter is not a size",
                        "enter it in mm, or 0 for twice the bore's diameter");
    seat.head.radius_mm = given > 0 ? given / 2 : kHeadOverBore * seat.boreRadius_mm;
    if (seat.head.radius_mm < kLeastHeadOverBore * seat.boreRadius_mm)
        throw boltFault("bolt_head_absurd", place, "the head is hardly wider than the bore, so it would fall through",
                        "enter the diameter of the head or its washer");
    if (seat.head.radius_mm > kMostHeadOverBore * seat.boreRadius_mm)
        throw boltFault("bolt_head_absurd", place, "the head is more than eight times as wide as the bore",
                        "enter the diameter of the head or its washer; hold what a wider plate clamps as fixed");
    double low = 1e300, high = -1e300;
    for (const std::uint32_t t : seat.wall)
        for (const std::uint32_t v : solid.mesh.triangles[t]) {
            const double along = seat.along(solid.mesh.vertices[v]);
            low = std::min(low, along);
            high = std::max(high, along);
        }
    seat.length_mm = high - low;
    seat.level = {flatLevel(solid, seat, low, -1), flatLevel(solid, seat, high, 1)};
    if (!seat.level[0] && !seat.level[1]) refuseSeat(place);
    return seat;
}

Solid cutRoundHead(const BoltSeat& seat, const Solid& solid) {
    Solid cut = solid;
    for (const std::size_t end : {0, 1})
        cutAlongPrism(cut, seat.head, [&](std::uint32_t facet) { return seat.isOnFlat(cut, facet, end); });
    return cut;
}

}  // namespace waybench
