#pragma once
#include <string>
#include <vector>

#include "core/geometry/polygon.h"

namespace waybench {

/// Chords per full turn for a round of that radius: at most 0.005 mm off the true circle, but 24 to 128 of them and a
/// multiple of four, so that quarters end on the axes. Above 16 mm radius the bound of 128 prevails.
int segmentsPerTurn(double radius_mm);

/// A stretch of an outline that becomes one face when the outline is extruded.
struct OutlineRun {
    std::string name;
    std::size_t edges = 1;  ///< how many edges of the ring it takes
    bool isArc = false;
    Vec2 centre = Vec2::Zero();
    double radius_mm = 0;
    bool isFullTurn = false;
};

/// Counter-clockwise ring with its runs: edge i leads from point i to point i + 1, runs take the edges in order.
struct Outline {
    Ring points;
    std::vector<OutlineRun> runs;
};

/// Straight edges; names[i] is the edge that leaves corners[i].
Outline polygonal(const Ring& corners, const std::vector<std::string>& names);
Outline circular(const std::string& name, const Vec2& centre, double radius_mm);
/// Rectangle with rounded corners. sides: names of the sides that look to -y, +x, +y, -x; the round between the first
/// two is `corner` + " 1" and so on. Radius 0 gives sharp corners; sides of no length are left out.
Outline roundedRectangle(const Vec2& low, const Vec2& high, double radius_mm, const std::vector<std::string>& sides,
                         const std::string& corner);
/// Two half turns joined by straight sides, along x or along y, of total length and width: faces name + " side -y",
/// " end +x", " side +y", " end -x" (along y: " end -y", " side +x" ...).
/// Precondition: length > width > 0.
Outline slotted(const std::string& name, const Vec2& centre, double length_mm, double width_mm, bool alongX);

}  // namespace waybench
