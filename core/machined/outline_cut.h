#pragma once
#include "core/machined/operation.h"

namespace waybench::machined {

/// Tabs that hold a part of this outline length in its plate: at least 3, one per 80 mm (60 to 100, common practice).
int tabsFor(double perimeter_mm);

/// Where a tab stands on the outline, and which way is out.
struct Tab {
    Vec2 at = Vec2::Zero(), outward = Vec2::Zero();
};
/// Places for so many tabs, evenly along the outer ring of the outline and moved onto the nearest straight
/// run at least twice as long as the tab is wide, off corners and small arcs (common practice), where there is one.
std::vector<Tab> tabPlaces(const Region& outline, int tabs, double width_mm);

/// Cuts the part out of its blank: a slot around the outline, level by level down through it, with a last pass along
/// the wall; inner corners of the outline the tool cannot enter are cleared by a smaller one. An outline deeper than
/// any cutter is long is cut half from either side; deeper than that it stays as a leftover.
void planOutline(const Workshop& shop, const SetUp& setUp, int number, OperationPlan& plan);

}  // namespace waybench::machined
