#pragma once
#include <vector>

#include "core/geometry/vector.h"

namespace waybench {

/// Closed ring of points, mm, first point not repeated. Counter-clockwise bounds material, clockwise bounds a hole.
using Ring = std::vector<Vec2>;
/// Region as outer rings and holes under the non-zero rule.
using Region = std::vector<Ring>;

double signedArea(const Ring& ring);
double areaOf(const Region& region);   ///< mm2, holes deducted
double perimeterOf(const Ring& ring);  ///< closed length, mm
double perimeterOf(const Region& region);
bool contains(const Region& region, const Vec2& p);

/// Boolean and offset operations, exact to 0.1 micrometre (integer clipping inside).
Region unionOf(const Region& a, const Region& b);
Region unionOf(const std::vector<Region>& regions);
Region intersectionOf(const Region& a, const Region& b);
Region differenceOf(const Region& a, const Region& b);

enum class Corner { mitre, round };
/// Grown (distance > 0) or shrunk (distance < 0). Pieces smaller than 1e-3 mm2 are dropped. Round corners are chords
/// within 0.005 mm of the arc, thinned by 0.002 mm.
Region offsetBy(const Region& region, double distance_mm, Corner corner = Corner::mitre);
/// Separate islands, each one outer ring followed by its holes.
std::vector<Region> islandsOf(const Region& region);
/// Polylines of the parallel lines of given direction and spacing clipped to the region; each entry two points.
/// `phase_mm` shifts the family of lines so that neighbouring layers can be aligned in part coordinates.
struct Segment2 {
    Vec2 from, to;
};
std::vector<Segment2> hatch(const Region& region, double angle_rad, double spacing_mm, double phase_mm = 0);

/// Triangles (indices into the concatenated points, outer ring first) of one island.
std::vector<std::array<std::uint32_t, 3>> triangulate(const Region& island);

}  // namespace waybench
