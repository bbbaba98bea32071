#pragma once
#include "core/machined/operation.h"

namespace waybench::machined {

/// Tabs that hold a part of this outline length in its plate: at least 3, one per 80 mm (60 to 100, common practice).
int tabsFor(double perimeter_mm);

/// Cuts the part out of its blank: a slot around the outline, level by level down through it, with a last pass along
/// the wall; inner corners of the outline the tool cannot enter are cleared by a smaller one. An outline deeper than
/// any cutter is long is cut half from either side; deeper than that it stays as a leftover.
void planOutline(const Workshop& shop, const SetUp& setUp, int number, OperationPlan& plan);

}  // namespace waybench::machined
