#pragma once
#include "core/machined/operation.h"

namespace waybench::machined {

/// Plans every operation of every set-up: face, clear, rest, holes, finish, surfaces, edges, and the outline last of
/// the first set-up. Within a kind the larger tool works first.
/// @param excess_mm what the blank is thicker than the part
OperationPlan planOperations(const Workshop& shop, const std::vector<SetUp>& setUps, double excess_mm,
                             const Task& task);

/// Tool changes in the order of work, the first tool of each set-up included.
int toolChangesOf(const OperationPlan& plan);

}  // namespace waybench::machined
