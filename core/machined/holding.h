#pragma once
#include <string>
#include <vector>

#include "core/bench/workholding.h"
#include "core/machined/holding_statics.h"
#include "core/machined/operation.h"

namespace waybench::machined {

/// How often what holds must carry the largest cutting force (2 to 2.5; machined-route.md 6, common practice).
inline constexpr double kHoldingAsked = 2.5;

/// One set-up as it is held: the blank in the first, the part in later ones.
struct HeldWork {
    const Workholding* method = nullptr;
    int clamps = 0;                                ///< of clamps only
    Vec2 low = Vec2::Zero(), high = Vec2::Zero();  ///< rectangle of the blank or part on the table, set-up's frame
    Region underside;                              ///< what lies on the table; areas hold there
};

/// Where the clamps go: evenly along the border, the first in the middle of a short side, so that two stand opposite.
std::vector<Vec2> clampPlaces(const HeldWork& work, int clamps);
/// Hold points for nominal (0), weakest (-1) and strongest (+1) friction and force.
std::vector<HoldPoint> holdPointsOf(const HeldWork& work, int clamps, int side);

enum class WayLoose { lifts, slides, turns };

/// Whether the work of a set-up stays where it is while it is cut. Bounds: friction, clamp force and cutting force
/// against each other (factor 2 and more).
struct HoldingCheck {
    int setUp = 0;
    HeldWork work;
    Figure safety;                     ///< -, capacity over the largest load; kHoldingAsked is asked
    WayLoose way = WayLoose::slides;   ///< how it gives way first
    const Operation* worst = nullptr;  ///< the operation that loads it most; nullptr where nothing is cut
    Vec2 at = Vec2::Zero();            ///< where the cutter then stands
    CutLoad load;                      ///< nominal
    double carried_N = 0;              ///< of the sideways (or lifting) force, before it gives way; torque: N mm
    int clampsNeeded = 0;              ///< clamps of this kind that would hold; 0 where eight do not, or no clamps
    double forceNeeded_N = 0;          ///< per clamp or vice, at the present number
    bool holds() const { return worst == nullptr || safety.value >= kHoldingAsked; }
};

/// What a cutter of this operation does to the work: largest force sideways, 0.2 to 0.4 of it upwards (helix of an end
/// mill; machined-route.md 2.2, common practice), its moment about the tool axis; drills: the torque, thrust left out,
/// as it ends when the drill breaks through. side: -1 least, 0 nominal, +1 greatest.
CutLoad cutLoadOf(const Operation& operation, const Vec2& at, int side);

/// Checks one set-up over all its operations and all places the cutter goes to.
HoldingCheck checkHolding(const HeldWork& work, int setUp, const std::vector<Operation>& operations);

/// Tabs that keep the part in its blank while the last of the outline is cut.
struct TabCheck {
    int tabs = 0;
    double width_mm = 0, height_mm = 0;  ///< proposed: the lowest that carry the force, not below 0.5 mm
    double force_N = 0;                  ///< largest of the outline's operations
    double carries_N = 0;                ///< shear, least yield strength
    double safety() const { return force_N > 0 ? carries_N / force_N : kFirmly; }
};
/// Heights 0.5 to 1.5 mm in metal, to 3 mm in panels and polymers, width 4 and 6 mm (machined-route.md 5.1, common
/// practice).
TabCheck checkTabs(const OperationPlan& plan, const StockMaterial& material);

/// "slides", "turns", "lifts off".
const char* wordOf(WayLoose way);

}  // namespace waybench::machined
