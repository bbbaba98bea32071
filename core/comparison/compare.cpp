#include <exception>
#include <future>
#include <optional>

#include "core/comparison/evaluator.h"
#include "core/comparison/part_solid.h"
#include "core/fault/input_fault.h"
#include "core/geometry/import/shape_file.h"
#include "core/machined/machined_route.h"
#include "core/printed/printed_route.h"

namespace waybench {

namespace {

RouteOutcome evaluateRoute(const Part& part, RouteKind kind, SolidStore& solids, const Shop& shop,
                           const std::string& tariff, Fidelity fidelity, const Task& task) {
    const bool isPrinted = kind == RouteKind::printed;
    RouteTask routeTask;
    routeTask.partName = part.name;
    routeTask.solid = solids.solid(part, kind);
    routeTask.loadCase = part.loadCase;
    routeTask.furtherLoadCases = part.furtherLoadCases;
    task.check();
    RouteOutcome outcome = isPrinted
                               ? printed::PrintedRoute(shop, part.recipe, tariff).evaluate(routeTask, fidelity, task)
                               : machined::MachinedRoute(shop, part.plan, tariff).evaluate(routeTask, fidelity, task);
    for (const std::string& note : routeTask.solid->notes)
        outcome.warnings.push_back({note.ends_with(kUnitAssumed) ? "unit_assumed" : "surface_mended", Severity::note,
                                    note + "; look whether the shape is the one meant"});
    return outcome;
}

}  // namespace

Evaluator realEvaluator(const std::filesystem::path& folder, const Shop& shop, const std::string& tariff) {
    return realEvaluator(std::make_shared<SolidStore>(folder), shop, tariff);
}

Evaluator realEvaluator(std::shared_ptr<SolidStore> solids, const Shop& shop, const std::string& tariff) {
    return [solids = std::move(solids), &shop, tariff](const Part& part, RouteKind kind, Fidelity fidelity,
                                                       const Task& task) {
        try {
            return evaluateRoute(part, kind, *solids, shop, tariff, fidelity, task);
        } catch (const InputFault& fault) {
            throw fault.within("part '" + part.name + "', " + nameOf(kind));
        }
    };
}

Comparison compareBy(const Evaluator& evaluate, const Part& part, Fidelity fidelity, const Task& task) {
    Comparison comparison;
    comparison.part = part;
    comparison.fidelity = fidelity;
    // Side by side: the routes share nothing but the shop, which is constant. The printed fault speaks first, whichever
    // came first in time, so that the message does not depend on it. Progress follows the print, the longer of the two.
    constexpr double kPrinted = 0.95;
    const Task machinedShare = task.part(0, 0);
    auto machinedAnswer =
        std::async(std::launch::async, [&] { return evaluate(part, RouteKind::machined, fidelity, machinedShare); });
    std::exception_ptr printedFault;
    try {
        comparison.printed = evaluate(part, RouteKind::printed, fidelity, task.part(0, kPrinted));
    } catch (...) {
        printedFault = std::current_exception();
    }
    machinedAnswer.wait();
    if (printedFault) std::rethrow_exception(printedFault);
    comparison.machined = machinedAnswer.get();
    judge(comparison);
    task.report(1);
    return comparison;
}

Comparison compare(const Part& part, const std::filesystem::path& folder, const Shop& shop, const std::string& tariff,
                   Fidelity fidelity, const Task& task) {
    return compareBy(realEvaluator(folder, shop, tariff), part, fidelity, task);
}

}  // namespace waybench
