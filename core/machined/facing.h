#pragma once
#include "core/machined/operation.h"

namespace waybench::machined {

/// Takes `excess_mm` off the top of the blank over the part's outline, to and fro with 0.7 D, by the quickest tool.
void planFacing(const Workshop& shop, const SetUp& setUp, int number, double excess_mm, OperationPlan& plan);

}  // namespace waybench::machined
