#pragma once
#include <QString>

#include "core/route/outcome.h"

namespace waybench {

/// What a route's answer knows beside the row's own figure, a line each; empty where there is nothing.
/// Deflection and stiffness: the first natural frequency, where the mass is known, and the holds' reaction. Mass: the
/// centre of volume.
/// @param loadCase whose answer is meant, as in RouteOutcome::cases
QString furtherText(const RouteOutcome& outcome, Question question, std::size_t loadCase);

}  // namespace waybench
