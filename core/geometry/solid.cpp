#include "core/geometry/solid.h"

#include <algorithm>
#include <charconv>
#include <cmath>
#include <numeric>
#include <stdexcept>

#include "core/fault/input_fault.h"
#include "core/geometry/facet_cut.h"

namespace waybench {

namespace {

constexpr double kPointSlack_mm = 0.05;
constexpr double kAlikeNormals = 0.9;
constexpr std::size_t kNamesInMessage = 24;

std::string numberText(double value) {
    char buffer[32];
    const auto end = std::to_chars(buffer, buffer + sizeof buffer, value == 0 ? 0.0 : value).ptr;
    return {buffer, end};
}

std::string pointText(const Vec3& p) {
    return "(" + numberText(p.x()) + " " + numberText(p.y()) + " " + numberText(p.z()) + ")";
}

/// Distance from p to the nearest point of the triangle (Ericson, Real-Time Collision Detection, section 5.1.5).
double distanceToTriangle(const Vec3& p, const Vec3& a, const Vec3& b, const Vec3& c) {
    const Vec3 ab = b - a, ac = c - a, ap = p - a;
    const double d1 = ab.dot(ap), d2 = ac.dot(ap);
    if (d1 <= 0 && d2 <= 0) return ap.norm();
    const Vec3 bp = p - b;
    const double d3 = ab.dot(bp), d4 = ac.dot(bp);
    if (d3 >= 0 && d4 <= d3) return bp.norm();
    const double vc = d1 * d4 - d3 * d2;
    if (vc <= 0 && d1 >= 0 && d3 <= 0) return (ap - d1 / (d1 - d3) * ab).norm();
    const Vec3 cp = p - c;
    const double d5 = ab.dot(cp), d6 = ac.dot(cp);
    if (d6 >= 0 && d5 <= d6) return cp.norm();
    const double vb = d5 * d2 - d1 * d6;
    if (vb <= 0 && d2 >= 0 && d6 <= 0) return (ap - d2 / (d2 - d6) * ac).norm();
    const double va = d3 * d6 - d5 * d4;
    if (va <= 0 && d4 - d3 >= 0 && d5 - d6 >= 0) return (bp - (d4 - d3) / (d4 - d3 + d5 - d6) * (c - b)).norm();
    const double whole = va + vb + vc;
    return (ap - vb / whole * ab - vc / whole * ac).norm();
}

InputFault faceNotFound(const Solid& solid, const FaceSelector& selector) {
    std::string there;
    for (std::size_t i = 0; i < solid.faces.size() && i < kNamesInMessage; ++i)
        there += (i ? ", '" : "'") + solid.faces[i].name + "'";
    if (solid.faces.size() > kNamesInMessage)
        there += " and " + std::to_string(solid.faces.size() - kNamesInMessage) + " more";
    const char* wrong = selector.kind == FaceSelector::Kind::name  ? " does not exist"
                        : selector.kind == FaceSelector::Kind::box ? " takes no facet of the surface"
                                                                   : " touches no face of the surface";
    return {"face_not_found", "", selector.text(), selector.text() + wrong,
            there.empty() ? "the shape has no faces" : "choose one of the faces there are: " + there};
}

std::vector<std::uint32_t> facetsOfFace(const Solid& solid, std::uint32_t face) {
    std::vector<std::uint32_t> taken;
    for (std::uint32_t t = 0; t < solid.faceOfTriangle.size(); ++t)
        if (solid.faceOfTriangle[t] == face) taken.push_back(t);
    return taken;
}

/// Cuts the facets that meet the plane x[axis] = at inside the box along it.
void cutAt(Solid& solid, const Box3& box, int axis, double at) {
    cutFacets(solid, {Vec3::Unit(axis), at}, [&](std::uint32_t, const Box3& line) {
        return (line.low.array() <= box.high.array() + kCutSlack_mm).all() &&
               (line.high.array() >= box.low.array() - kCutSlack_mm).all();
    });
}

}  // namespace

void measureFaces(Solid& solid) {
    if (solid.faceOfTriangle.size() != solid.mesh.triangles.size())
        throw std::logic_error("every facet must belong to a face");
    struct Extent {
        double low = 1e300, high = -1e300;
    };
    std::vector<Extent> extents(solid.faces.size());
    for (Face& face : solid.faces) {
        face.area_mm2 = 0;
        face.centroid = Vec3::Zero();
    }
    for (std::size_t i = 0; i < solid.mesh.triangles.size(); ++i) {
        Face& face = solid.faces.at(solid.faceOfTriangle[i]);
        const auto& t = solid.mesh.triangles[i];
        const Vec3 &a = solid.mesh.vertices[t[0]], &b = solid.mesh.vertices[t[1]], &c = solid.mesh.vertices[t[2]];
        const double area = (b - a).cross(c - a).norm() / 2;
        face.area_mm2 += area;
        face.centroid += area * (a + b + c) / 3;
        if (face.kind != SurfaceKind::cylinder) continue;
        for (std::uint32_t v : t) {
            const double along = face.direction.dot(solid.mesh.vertices[v] - face.point);
            Extent& extent = extents[solid.faceOfTriangle[i]];
            extent.low = std::min(extent.low, along);
            extent.high = std::max(extent.high, along);
        }
    }
    for (std::size_t f = 0; f < solid.faces.size(); ++f) {
        Face& face = solid.faces[f];
        if (!(face.area_mm2 > 0)) continue;
        face.centroid /= face.area_mm2;
        if (face.kind == SurfaceKind::cylinder)
            face.point += 0.5 * (extents[f].low + extents[f].high) * face.direction;
        else
            face.point = face.centroid;
    }
}

Solid transformed(const Solid& solid, const Mat3& rotation, const Vec3& shift) {
    if (!(rotation.determinant() > 0)) throw std::logic_error("a body can be turned but not mirrored");
    Solid result{transformed(solid.mesh, rotation, shift), solid.faceOfTriangle, solid.faces, solid.notes};
    for (Face& face : result.faces) {
        face.point = rotation * face.point + shift;
        face.centroid = rotation * face.centroid + shift;
        face.direction = rotation * face.direction;
    }
    return result;
}

FaceSelector FaceSelector::byName(std::string name) {
    FaceSelector s;
    s.name = std::move(name);
    return s;
}

FaceSelector FaceSelector::byBox(const Vec3& low, const Vec3& high) {
    FaceSelector s;
    s.kind = Kind::box;
    s.box.include(low);
    s.box.include(high);
    return s;
}

FaceSelector FaceSelector::byPoint(const Vec3& point, const Vec3& normal) {
    FaceSelector s;
    s.kind = Kind::point;
    s.point = point;
    s.normal = normal;
    return s;
}

std::string FaceSelector::text() const {
    if (kind == Kind::name) return "face '" + name + "'";
    if (kind == Kind::box) return "box " + pointText(box.low) + " to " + pointText(box.high);
    return "point " + pointText(point) + " facing " + pointText(normal);
}

Vec3 surfaceNormalAt(const Solid& solid, std::uint32_t triangle, const Vec3& p) {
    const Face& face = solid.faces.at(solid.faceOfTriangle.at(triangle));
    if (face.kind == SurfaceKind::plane && !face.direction.isZero()) return face.direction.normalized();
    if (face.kind == SurfaceKind::cylinder && !face.direction.isZero()) {
        const Vec3 axis = face.direction.normalized(), from = p - face.point, radial = from - from.dot(axis) * axis;
        if (radial.norm() > 0) return (face.isHollow ? -1 : 1) * radial.normalized();
    }
    return normalOf(solid.mesh, triangle);
}

std::vector<std::uint32_t> select(const Solid& solid, const FaceSelector& selector) {
    const Mesh& mesh = solid.mesh;
    std::vector<std::uint32_t> taken;
    if (selector.kind == FaceSelector::Kind::name) {
        for (std::uint32_t f = 0; f < solid.faces.size(); ++f)
            if (solid.faces[f].name == selector.name) taken = facetsOfFace(solid, f);
    } else if (selector.kind == FaceSelector::Kind::box) {
        for (std::uint32_t t = 0; t < mesh.triangles.size(); ++t) {
            bool inside = true;
            for (std::uint32_t v : mesh.triangles[t])
                inside = inside && selector.box.contains(mesh.vertices[v], kCutSlack_mm);
            if (inside) taken.push_back(t);
        }
    } else {
        const double length = selector.normal.norm();
        std::uint32_t best = UINT32_MAX;
        double bestDistance = kPointSlack_mm, bestAgreement = -1;
        for (std::uint32_t t = 0; t < mesh.triangles.size() && length > 0; ++t) {
            const double agreement = normalOf(mesh, t).dot(selector.normal) / length;
            if (!(agreement > kAlikeNormals)) continue;
            const auto& c = mesh.triangles[t];
            const double distance =
                distanceToTriangle(selector.point, mesh.vertices[c[0]], mesh.vertices[c[1]], mesh.vertices[c[2]]);
            const bool nearer = distance < bestDistance - 1e-9;
            if (nearer || (distance <= bestDistance + 1e-9 && agreement > bestAgreement + 1e-12)) {
                best = t;
                bestDistance = std::min(distance, bestDistance);
                bestAgreement = agreement;
            }
        }
        if (best != UINT32_MAX) taken = facetsOfFace(solid, solid.faceOfTriangle[best]);
    }
    if (taken.empty()) throw faceNotFound(solid, selector);
    return taken;
}

Solid namedBySize(Solid result) {
    measureFaces(result);
    std::vector<std::array<double, 4>> keys;
    for (const Face& f : result.faces)
        keys.push_back({-std::round(f.area_mm2 * 1e3), std::round(f.centroid.x() * 1e3),
                        std::round(f.centroid.y() * 1e3), std::round(f.centroid.z() * 1e3)});
    std::vector<std::uint32_t> order(result.faces.size()), place(result.faces.size());
    std::iota(order.begin(), order.end(), 0u);
    std::stable_sort(order.begin(), order.end(), [&](std::uint32_t a, std::uint32_t b) { return keys[a] < keys[b]; });
    std::vector<Face> sorted;
    for (std::uint32_t f : order) {
        place[f] = static_cast<std::uint32_t>(sorted.size());
        sorted.push_back(result.faces[f]);
        sorted.back().name = "face " + std::to_string(sorted.size());
    }
    result.faces = std::move(sorted);
    for (std::uint32_t& f : result.faceOfTriangle)
        f = place[f];
    return result;
}

Solid refinedForBox(const Solid& solid, const Box3& box) {
    Solid result = solid;
    for (int axis = 0; axis < 3; ++axis) {
        cutAt(result, box, axis, box.low[axis]);
        cutAt(result, box, axis, box.high[axis]);
    }
    return result;
}

}  // namespace waybench
