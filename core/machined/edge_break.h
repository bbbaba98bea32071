#pragma once
#include "core/machined/operation.h"

namespace waybench::machined {

/// Breaks the upper edges of a set-up: by a chamfer cutter where the rack has one, else left to the hand. Adds the
/// length of all edges, upper and lower, to plan.edge_mm, less what the cutter broke.
void planEdgeBreak(const Workshop& shop, const SetUp& setUp, int number, OperationPlan& plan);

}  // namespace waybench::machined
