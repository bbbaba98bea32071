#pragma once
#include <vector>

#include "core/bench/mill.h"
#include "core/geometry/polygon.h"

namespace waybench::machined {

/// One uninterrupted cut of the tool centre at one level.
struct Pass {
    std::vector<Vec2> points;
    bool isClosed = false;
};

double lengthOf(const Pass& pass);
double lengthOf(const std::vector<Pass>& passes);

/// Concentric rings through a region of tool centres, outermost first: its border, then the border shrunk by the
/// step-over again and again. Where the last ring closes in on itself exactly, the line it collapses to is the last
/// pass (machined-route.md 5.1). Step-over at most half the tool diameter leaves nothing standing between rings.
std::vector<Pass> ringsInside(const Region& centres, double stepover_mm);

/// The borders of a region of tool centres, one closed pass each.
std::vector<Pass> contoursOf(const Region& centres);

/// Parallel lines over a region, to and fro, a step-over apart.
std::vector<Pass> rasterOver(const Region& region, double stepover_mm);

/// Circle of the tool centre.
Pass circlePass(const Vec2& centre, double radius_mm);

/// Passes in the order and sense they are cut, each starting nearest to where the one before ended; those nearer than
/// the link are joined by a straight way at feed. One polyline for each entry into the material.
std::vector<std::vector<Vec2>> runsOf(const std::vector<Pass>& passes, double link_mm);

/// How the tool moves along passes of one level.
struct CutMotion {
    double feed_mm_s = 0;
    double step_mm = 0;        ///< depth a ramp goes down on entry
    double lift_mm = 0;        ///< retract between passes that are apart
    double link_mm = 0;        ///< passes nearer than this are joined at feed
    double rampAngle_deg = 2;  ///< 1 to 3 in metal, 3 to 10 in plastic and wood (common practice, no source)
};

struct PathTime {
    double seconds = 0;          ///< with entries, links, rapids and retracts
    double cutting_seconds = 0;  ///< at feed
    double cut_mm = 0;
};

/// Time of one level by the speed planner of core/motion: feed and acceleration limits of the mill at every corner.
PathTime timeOf(const std::vector<Pass>& passes, const CutMotion& motion, const Mill& mill);

}  // namespace waybench::machined
