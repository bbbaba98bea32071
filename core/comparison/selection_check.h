#pragma once
#include <string>
#include <vector>

#include "core/comparison/sweep.h"

namespace waybench {

/// Selectors by box that take other faces at some points of a sweep than at the point nearest to the part as it is: a
/// box that ends where the face was stays behind when the part grows. One line each, empty when all is well.
std::vector<std::string> changedSelections(const Sweep& sweep);

}  // namespace waybench
