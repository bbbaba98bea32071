#pragma once
#include <string>
#include <vector>

#include "core/bench/workholding.h"
#include "core/machined/holding_statics.h"
#include "core/machined/operation.h"

namespace waybench::machined {

/// How often what holds must carry the largest cutting force (2 to 2.5; machined-route.md 6, common practice).
inline constexpr double kHoldingAsked = 2.5;

/// One set-up as it is held.
struct HeldWork {
    const Workholding* method = nullptr;
    int clamps = 0;                                ///< of clamps only
    Vec2 low = Vec2::Zero(), high = Vec2::Zero();  ///< rectangle of the blank or part on the table, set-up's frame
    Region underside;                              ///< what lies on the table; areas hold there
    double bottom_mm = 0, height_mm = 0;           ///< height of the table in that frame; of the work above it
};

/// Whether a vice opens far enough for the work; true for other methods.
bool goesIn(const HeldWork& work);
/// Where the clamps go: evenly along the border, the first in the middle of a short side, so that two stand opposite.
std::vector<Vec2> clampPlaces(const HeldWork& work, int clamps);
/// Hold points for nominal (0), weakest (-1) and strongest (+1) friction and force.
std::vector<HoldPoint> holdPointsOf(const HeldWork& work, int clamps, int side);

enum class WayLoose { lifts, slides, turns };
/// "lifts off or tips", "slides", "turns".
const char* wordOf(WayLoose way);

/// Whether the work of a set-up stays where it is while it is cut. Bounds: friction, clamp force and cutting force
/// against each other (factor 2 and more).
struct HoldingCheck {
    int setUp = 0;
    HeldWork work;
    Figure safety;                               ///< -, capacity over the largest load; kHoldingAsked is asked
    WayLoose way = WayLoose::slides;             ///< how it gives way first
    const Tool* tool = nullptr;                  ///< of the operation that loads it most; nullptr where nothing is cut
    OperationKind kind = OperationKind::pocket;  ///< of that operation
    Vec2 at = Vec2::Zero();                      ///< where the cutter then stands
    CutLoad load;                                ///< nominal
    double carried = 0;                          ///< N sideways or lifting, N mm of torque, before it gives way
    int clampsNeeded = 0;      ///< clamps of this kind that would hold; 0 where eight do not, or no clamps
    double forceNeeded_N = 0;  ///< per clamp or vice, at the present number
    /// By the nominal figures often enough, and not even with the poorest friction less than once.
    bool holds() const { return tool == nullptr || (safety.value >= kHoldingAsked && safety.low >= 1); }
};

/// What a cutter of this operation does to the work: largest force sideways, 0.2 to 0.4 of it upwards (helix of an end
/// mill; machined-route.md 2.2, common practice), its moment about the tool axis. Drills: the torque; where they break
/// through, they pull the work up by none to all of their thrust (common practice, no source), else the thrust is left
/// out. side: -1 least, 0 nominal, +1 greatest. Height of the cut: the top of the work.
CutLoad cutLoadOf(const Operation& operation, const HeldWork& work, const Vec2& at, bool breaksThrough, int side);

/// Checks one set-up over all its operations and all places the cutter goes to. @param withRemedy also what would hold
HoldingCheck checkHolding(const HeldWork& work, int setUp, const std::vector<Operation>& operations, bool withRemedy,
                          const Task& task);

/// Tabs that keep the part in its blank while the last of the outline is cut.
struct TabCheck {
    int tabs = 0;
    double width_mm = 0, height_mm = 0;  ///< proposed: the lowest that carry the force, not below 0.5 mm
    double force_N = 0;                  ///< largest of the outline's operations
    double carries_N = 0;                ///< shear, least strength; 0 where there is nothing to hang on
    double web_mm = 0;                   ///< blank that stays outside the slot
    bool isStrengthKnown = true;         ///< panels and laminates shear between their layers: only by their own figure
    double safety() const { return force_N > 0 ? carries_N / force_N : kFirmly; }
};
inline constexpr double kLeastWeb_mm = 2;  ///< common practice, no source
/// Heights 0.5 to 1.5 mm in metal, to 3 mm in panels and polymers, never more than half the part's; width 4 and 6 mm
/// (machined-route.md 5.1, common practice). @param margin_mm blank around the part
TabCheck checkTabs(const OperationPlan& plan, const StockMaterial& material, double margin_mm, double thickness_mm,
                   double allowance_mm);

}  // namespace waybench::machined
