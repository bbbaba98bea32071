#pragma once
#include <string>
#include <vector>

#include "core/bench/shop.h"
#include "core/printed/recipe.h"
#include "core/progress/task.h"
#include "core/quantity/figure.h"
#include "core/route/route.h"

namespace waybench::printed {

/// One way the part can stand on the bed, with what it leads to. Figures are those of the route's draft.
struct WayUp {
    Direction up = Direction::plus_z;
    std::string loadCase;  ///< whose deflection and margin these are: the one asking most, standing so
    Figure deflection, strengthMargin;
    double deflectionDemand = 0;  ///< deflection over its limit, on the values; above 1 fails
    double strengthDemand = 0;    ///< margin asked for over the one there is
    Figure machineTime, handsOnTime;
    Figure support_mm3;  ///< material of the supports
    double height_mm = 0, footprint_mm2 = 0;
    int holes = 0, roundHoles = 0;  ///< full bores; those whose axis points up, and so come out round
    bool fitsPrinter = true;

    bool holds() const { return deflectionDemand <= 1 && strengthDemand <= 1; }
    double penalty = 0;  ///< what it is ranked by; see rankedWaysUp
    std::string why;     ///< one sentence: why it stands where it stands
};

/// The six principal directions, best first.
///
/// First come those that fit the printer, among them those that hold under every load case (on the values of the
/// draft), then the rest; within each, by the least penalty:
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

}  // namespace waybench::printed
