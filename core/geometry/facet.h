#pragma once
#include "core/geometry/mesh.h"

namespace waybench {

/// A facet's corners, and its area with direction (outward normal times area).
struct Facet {
    Vec3 a, b, c, areaVector;
    double area() const { return areaVector.norm(); }
    Vec3 centre() const { return (a + b + c) / 3; }
};

inline Facet facetOf(const Mesh& mesh, std::uint32_t triangle) {
    const auto& t = mesh.triangles.at(triangle);
    Facet f{mesh.vertices[t[0]], mesh.vertices[t[1]], mesh.vertices[t[2]], Vec3::Zero()};
    f.areaVector = 0.5 * (f.b - f.a).cross(f.c - f.a);
    return f;
}

}  // namespace waybench
