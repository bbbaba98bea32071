#pragma once
#include <functional>
#include <optional>

#include "core/comparison/comparison.h"
#include "core/comparison/part_solid.h"
#include "core/comparison/sweep.h"

namespace waybench {

/// Answers one route for one part. The real one builds the solid and runs the route; tests put closed forms here.
using Evaluator = std::function<RouteOutcome(const Part& part, RouteKind route, Fidelity fidelity, const Task& task)>;

/// The real evaluator. Holds copies of folder and tariff and a reference to the shop.
/// It throws InputFault naming part and route.
Evaluator realEvaluator(const std::filesystem::path& folder, const Shop& shop, const std::string& tariff);
/// The same with solids that others use too.
Evaluator realEvaluator(std::shared_ptr<SolidStore> solids, const Shop& shop, const std::string& tariff);

/// The public functions of comparison.h and sweep.h with the evaluator given.
Comparison compareBy(const Evaluator& evaluate, const Part& part, Fidelity fidelity, const Task& task);
Sweep sweepBy(const Evaluator& evaluate, const Part& part, const Variable& variable, double from, double to, int points,
              Fidelity fidelity, const Task& task, const std::function<void(const SweepPoint&)>& onPoint = {});
std::optional<Sized> solveForLimitBy(const Evaluator& evaluate, const Part& part, const Variable& variable,
                                     RouteKind route, double from, double to, Fidelity fidelity, const Task& task);

}  // namespace waybench
