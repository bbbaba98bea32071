#pragma once
#include "core/machined/operation.h"

namespace waybench::machined {

/// How one hole is made.
struct HoleMaking {
    Hole hole;
    const Tool* drill = nullptr;    ///< within 0.05 mm of the diameter
    const Tool* endMill = nullptr;  ///< for a bore by helix: below 0.8 and above 0.53 of the diameter
};

/// Drilled where a drill fits and the spindle turns slowly enough for it, else bored by helix. Holes for which the rack
/// has nothing that fits and is long enough are left out; they are then cleared like pockets. Nothing is reamed: the
/// hole accuracy is that without reaming.
std::vector<HoleMaking> holesToMake(const Workshop& shop, const SetUp& setUp);

void planHoles(const Workshop& shop, const SetUp& setUp, int number, const std::vector<HoleMaking>& holes,
               OperationPlan& plan);

/// Time of one drilled hole, s: approach, feed through depth and point, pecks with full retract once deeper than 3 D
/// (2 D in steel): each 2 x depth/rapid + 0.35 s (0.2 to 0.5 s, common practice, no source).
double drillingTime(const Workshop& shop, const CuttingData& cutting, const Tool& drill, double depth_mm, bool through);

}  // namespace waybench::machined
