#pragma once
#include <algorithm>
#include <string>
#include <vector>

#include "core/bench/shop.h"
#include "core/printed/recipe.h"
#include "core/progress/task.h"
#include "core/quantity/figure.h"
#include "core/route/route.h"

namespace waybench::printed {

/// Whether the limits are kept, by the rule of the requirements: only where the unfavourable bound keeps them do they
/// hold; where the value alone does, it cannot be said.
enum class Holding { holds, uncertain, fails };
const char* nameOf(Holding holding);  ///< "holds", "uncertain", "fails"

/// A figure against its limit, of the load case that fares worst on it.
struct Judged {
    Figure figure;
    double limit = 0;
    std::string loadCase;
    double demand = 0;  ///< value over limit, or limit over value where more is better; above 1 fails
    Holding holding = Holding::holds;
};

/// One way the part can stand on the bed, with what it leads to. Figures are those of the route's draft.
struct WayUp : Stance {
    Judged deflection;  ///< its size against what is allowed
    Judged strength;    ///< the margin against the one asked for
    std::size_t loadCases = 1;
    Figure machineTime, handsOnTime;
    Figure support_mm3;  ///< material of the supports
    double height_mm = 0, footprint_mm2 = 0;
    int holes = 0, roundHoles = 0;  ///< full bores; those whose axis points up, and so come out round
    bool fitsPrinter = true;

    Holding holding() const { return std::max(deflection.holding, strength.holding); }
    double penalty = 0;  ///< what it is ranked by; see rankedWaysUp
    std::string why;     ///< one sentence: why it stands where it stands
};

/// The six principal directions, and those that lay one of the largest plane faces askew to them on the bed; best
/// first.
///
/// First come those that fit the printer: those that hold under every load case (in the draft), then those of which it
/// cannot be said, then those that fail; last what does not fit. Within each, by the least penalty:
///
///     ln(1 + deflection over limit) + ln(1 + margin asked over margin)     a demand far below one hardly counts
///     + 1/2 ln(machine and hands-on time over the shortest)
///     + 1/2 ln(1 + support over part volume)                               besides the time it takes: scarred faces
///     + 1/4 (holes that do not come out round over holes)
///     + 1/4 ln(1 + height over twice the root of the footprint)            tall on a small foot: falls, warps, shakes
///
/// The weights are ours (common practice, no source for any of them). Penalties are taken in
/// steps of 0.005; equal ones keep the order of Direction.
/// @throws InputFault as PrintedRoute::evaluate does; Cancelled
std::vector<WayUp> rankedWaysUp(const RouteTask& part, const Recipe& recipe, const Shop& shop,
                                const std::string& tariff, const Task& task);

/// A way up with the figures of the route's answer for it in place of the draft's: deflection, strength, times. The
/// sentence is said anew where the way stands first; elsewhere it compares drafts, and says so.
WayUp answered(WayUp way, const RouteOutcome& outcome, bool isFirst);

}  // namespace waybench::printed
