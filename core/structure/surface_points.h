#pragma once
#include <span>

#include "core/structure/lattice.h"

namespace waybench::statics {

/// A point of the surface with its share of area, tied to the element that carries it.
struct SurfacePoint {
    std::size_t element = 0;
    Vec3 local = Vec3::Zero();  ///< coordinates in the element's cell; may lie a little outside -1..1
    Vec3 position = Vec3::Zero(), normal = Vec3::Zero();
    double area_mm2 = 0;
    std::uint32_t triangle = 0;
};

/// Points that integrate over the facets exactly for polynomials of degree five on every cell's share of a facet.
/// A point whose cell was left out goes to the nearest active cell inwards, else to any within two cells.
/// @param lostArea_mm2 area for which no cell was found
std::vector<SurfacePoint> surfacePoints(const Lattice& lattice, const Mesh& mesh,
                                        std::span<const std::uint32_t> triangles, double& lostArea_mm2,
                                        const Task& task);

/// Element that carries a point just inside the surface, or -1.
/// @param facet the point lies on, if known: tells the two sides of a narrow gap apart
std::int32_t carrierOf(const Lattice& lattice, const Vec3& point, const Vec3& outward, std::int64_t facet = -1);

}  // namespace waybench::statics
