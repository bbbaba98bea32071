#include "core/loadcase/traction.h"

#include <Eigen/Dense>
#include <cmath>
#include <stdexcept>

#include "core/fault/input_fault.h"
#include "core/geometry/facet.h"

namespace waybench {

namespace {

constexpr double kAlongAxis = 1e-3;  // share of a bearing force along the bore that is still called radial
constexpr double kParallel = 0.999;  // cosine between axes of one bore
constexpr double kFlatHalf = 1e-9;   // facets of one direction only cannot carry a radial force of any direction
constexpr double kOnTheHalf = 1e-9;

struct Patch {
    double area = 0;
    Vec3 centroid = Vec3::Zero();
};

Patch patchOf(const Solid& solid, const std::vector<std::uint32_t>& triangles) {
    Patch patch;
    for (const std::uint32_t t : triangles) {
        const Facet f = facetOf(solid.mesh, t);
        patch.area += f.area();
        patch.centroid += f.area() * f.centre();
    }
    if (patch.area > 0) patch.centroid /= patch.area;
    return patch;
}

/// Integral of |r|^2 I - r r^T over the facets, r from the centre; exact for a quadratic by the edge-midpoint rule.
Mat3 secondMoment(const Solid& solid, const std::vector<std::uint32_t>& triangles, const Vec3& centre) {
    Mat3 sum = Mat3::Zero();
    for (const std::uint32_t t : triangles) {
        const Facet f = facetOf(solid.mesh, t);
        for (const Vec3& middle : {Vec3((f.a + f.b) / 2), Vec3((f.b + f.c) / 2), Vec3((f.c + f.a) / 2)}) {
            const Vec3 r = middle - centre;
            sum += f.area() / 3 * (r.squaredNorm() * Mat3::Identity() - r * r.transpose());
        }
    }
    return sum;
}

Vec3 boreAxis(const Solid& solid, const std::vector<std::uint32_t>& triangles, const std::string& place) {
    Vec3 axis = Vec3::Zero();
    for (const std::uint32_t t : triangles) {
        const Face& face = solid.faces.at(solid.faceOfTriangle.at(t));
        const bool fits = face.kind == SurfaceKind::cylinder &&
                          (axis.isZero() || std::abs(axis.dot(face.direction.normalized())) > kParallel);
        if (!fits)
            throw InputFault("bearing_not_on_bore", "", place,
                             "face '" + face.name + "' is not a bore, or not in line with the others",
                             "choose a cylindrical face for a bearing load, or use a force");
        if (axis.isZero()) axis = face.direction.normalized();
    }
    return axis;
}

TractionLaw bearingLaw(const Solid& solid, const Load& load, const std::vector<std::uint32_t>& triangles,
                       const std::string& place) {
    const Vec3 axis = boreAxis(solid, triangles, place);
    const double along = load.vector.dot(axis);
    if (std::abs(along) > kAlongAxis * load.vector.norm())
        throw InputFault("bearing_along_axis", "", place,
                         "a bearing load acts across the bore, and this one has a part along it",
                         "remove the part along the axis, or add it as a force on a flat face");
    TractionLaw law;
    law.half = (load.vector - along * axis).normalized();
    const Vec3 across = axis.cross(law.half);
    Eigen::Matrix2d carried = Eigen::Matrix2d::Zero();
    double area = 0;
    for (const std::uint32_t t : triangles) {
        const Facet f = facetOf(solid.mesh, t);
        if (f.area() == 0) continue;
        const Vec3 push = -f.areaVector / f.area();
        if (push.dot(law.half) <= kOnTheHalf) continue;
        const Eigen::Vector2d p(push.dot(law.half), push.dot(across));
        carried += f.area() * p * p.transpose();
        area += f.area();
    }
    if (area == 0)
        throw InputFault("bearing_pushes_on_nothing", "", place,
                         "there is no wall on the side the bearing load points to",
                         "reverse the load, or choose the wall it pushes on");
    const Eigen::Vector2d force(load.vector.dot(law.half), load.vector.dot(across));
    if (carried.determinant() <= kFlatHalf * area * area)
        throw InputFault("bearing_not_on_bore", "", place, "the loaded wall is flat, so it cannot carry a bearing load",
                         "choose the whole bore, or use a force");
    const Eigen::Vector2d c = carried.inverse() * force;
    law.cosine = c[0] * law.half + c[1] * across;
    return law;
}

}  // namespace

TractionLaw tractionLaw(const Solid& solid, const Load& load, const std::vector<std::uint32_t>& triangles,
                        const std::string& place) {
    const Patch patch = patchOf(solid, triangles);
    if (!(patch.area > 0))
        throw InputFault("face_without_area", "", place, "the loaded surface has no area", "choose another face");
    TractionLaw law;
    switch (load.kind) {
        case LoadKind::force:
            law.constant = load.vector / patch.area;
            break;
        case LoadKind::pressure:
            law.pressure_MPa = load.pressure_MPa;
            break;
        case LoadKind::moment:
            law.centre = patch.centroid;
            law.angular = secondMoment(solid, triangles, patch.centroid).inverse() * load.vector;
            break;
        case LoadKind::bearing:
            law = bearingLaw(solid, load, triangles, place);
            break;
    }
    return law;
}

Vec3 tractionAt(const Solid& solid, const BoundLoadCase& bound, std::size_t load, std::uint32_t triangle,
                const Vec3& p) {
    if (bound.laws.size() != bound.loadedTriangles.size()) throw std::logic_error("load case was not made by bind");
    const TractionLaw& law = bound.laws.at(load);
    const Vec3 push = -normalOf(solid.mesh, triangle);
    Vec3 traction = law.constant + law.angular.cross(p - law.centre) + law.pressure_MPa * push;
    if (push.dot(law.half) > kOnTheHalf) traction += law.cosine.dot(push) * push;
    return traction;
}

Vec3 totalForce(const Solid& solid, const BoundLoadCase& bound) {
    Vec3 total = Vec3::Zero();
    double applied = 0;
    for (std::size_t load = 0; load < bound.loadedTriangles.size(); ++load)
        for (const std::uint32_t t : bound.loadedTriangles[load]) {
            const Facet f = facetOf(solid.mesh, t);
            const Vec3 force = f.area() * tractionAt(solid, bound, load, t, f.centre());
            total += force;
            applied += force.norm();
        }
    // what balances leaves rounding behind
    return total.norm() > 1e-9 * applied ? total : Vec3(Vec3::Zero());
}

}  // namespace waybench
