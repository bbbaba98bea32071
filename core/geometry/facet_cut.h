#pragma once
#include <functional>

#include "core/geometry/solid.h"

namespace waybench {

/// Points p with normal . p = at. The normal is a unit vector.
struct CutPlane {
    Vec3 normal = Vec3::UnitX();
    double at = 0;
    double distance(const Vec3& p) const { return normal.dot(p) - at; }
};

/// Corners nearer to a cutting plane or to a box than this lie on it.
inline constexpr double kCutSlack_mm = 1e-6;

/// Cuts the facets that cross the plane and are wanted, and their neighbours where an edge they share was cut, so that
/// a closed surface stays closed. All other facets stay as they are; faces keep their names and order.
/// @param isWanted asked only for facets that cross; given the facet and the box round its line of crossing
void cutFacets(Solid& solid, const CutPlane& plane,
               const std::function<bool(std::uint32_t facet, const Box3& line)>& isWanted);

/// Cuts the facets for which isWanted holds along the regular prism of so many sides round the axis whose cross-section
/// has the area of a circle of this radius. Facets outside it stay whole, but for edges they share.
struct Prism {
    Vec3 point = Vec3::Zero(), axis = Vec3::UnitZ();
    double radius_mm = 0;
    static constexpr int kSides = 32;

    CutPlane side(int k) const;  ///< normal outwards
    bool contains(const Vec3& p) const;
};
void cutAlongPrism(Solid& solid, const Prism& prism, const std::function<bool(std::uint32_t facet)>& isWanted);

}  // namespace waybench
