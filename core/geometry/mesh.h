#pragma once
#include <array>
#include <cstdint>
#include <vector>

#include "core/geometry/vector.h"

namespace waybench {

/// Triangulated surface, mm. Triangles wind counter-clockwise seen from outside.
struct Mesh {
    std::vector<Vec3> vertices;
    std::vector<std::array<std::uint32_t, 3>> triangles;
};

Box3 boundsOf(const Mesh& mesh);
double volumeOf(const Mesh& mesh);                      ///< mm3, signed: positive when facets face outwards
double areaOf(const Mesh& mesh);                        ///< mm2
Vec3 centroidOf(const Mesh& mesh);                      ///< centre of volume
Vec3 normalOf(const Mesh& mesh, std::size_t triangle);  ///< unit, zero for a degenerate facet
Mesh transformed(const Mesh& mesh, const Mat3& rotation, const Vec3& shift);

/// Why a mesh does not bound a solid.
struct Leak {
    std::size_t openEdges = 0;  ///< edges not shared by exactly two facets in opposite sense
    Vec3 place = Vec3::Zero();  ///< middle of the first such edge
};
Leak findLeak(const Mesh& mesh);

/// Merges vertices closer than tolerance_mm and drops facets that collapse.
Mesh welded(const Mesh& mesh, double tolerance_mm);

}  // namespace waybench
