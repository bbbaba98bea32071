#include "core/comparison/solved_limit.h"

#include <algorithm>
#include <cmath>

#include "core/comparison/wording.h"

namespace waybench {

namespace {

bool isOfRoute(const Variable& variable, RouteKind route) {
    return variable.name.rfind(std::string(nameOf(route)) + ".", 0) == 0;
}

std::string rangeText(const Variable& variable, double from, double to) {
    return "from " + placeOn(variable, from) + " to " + placeOn(variable, to);
}

}  // namespace

SolvedLimit solveInOrBesideBy(const Evaluator& evaluate, const Part& part, const Variable& variable, RouteKind route,
                              double from, double to, Fidelity fidelity, const Task& task) {
    SolvedLimit solved;
    solved.route = route;
    solved.from = solved.least = from;
    solved.to = solved.most = to;
    solved.isUntouched = isOfRoute(variable, otherThan(route));
    if (solved.isUntouched) return solved;
    const auto search = [&](double low, double high, const Task& share) {
        return solveForLimitBy(evaluate, part, variable, route, low, high, fidelity, share);
    };
    try {
        solved.sized = search(from, to, task.part(0, 0.5));
    } catch (const InputFault& fault) {
        solved.fault.emplace(fault);
        return solved;
    }
    solved.holdsInRange = solved.sized && solved.sized->holdsThroughout;
    if ((solved.sized && !solved.holdsInRange) || variable.unit != Unit::millimetre) return solved;
    const double least = std::max(variable.minimum, from / 8), most = std::min(variable.maximum, to * 2);
    if (least >= from && most <= to) return solved;
    try {
        solved.sized = search(least, most, task.part(0.5, 1));
        solved.least = least;
        solved.most = most;
    } catch (const InputFault&) {
        // what was found in the asked range stays
    }
    return solved;
}

SolvedLimit solveInOrBeside(const Part& part, const std::filesystem::path& folder, const Shop& shop,
                            const std::string& tariff, const Variable& variable, RouteKind route, double from,
                            double to, Fidelity fidelity, const Task& task) {
    return solveInOrBesideBy(realEvaluator(folder, shop, tariff), part, variable, route, from, to, fidelity, task);
}

std::string wordsOf(const SolvedLimit& solved, const Variable& variable) {
    const std::string name = nameOf(solved.route), holds = name + " holds by its value ";
    if (solved.fault) return "where " + name + " holds could not be solved: " + solved.fault->what();
    if (solved.isUntouched) return name + " is not touched by this";
    if (!solved.sized) return holds + "nowhere " + rangeText(variable, solved.least, solved.most);
    if (solved.sized->holdsThroughout) return holds + "throughout, " + rangeText(variable, solved.least, solved.most);
    const bool above = solved.sized->holdsAbove;
    const std::string place = (above ? "from " : "up to ") + holdingPlaceOn(variable, solved.sized->at, above);
    if (solved.holdsInRange) return holds + "throughout this range, " + place;
    return holds + place + (solved.isBeside() ? ", beyond this range" : "");
}

void takeSolved(std::vector<Crossing>& found, const SolvedLimit& solved, const Variable& variable) {
    if (!solved.sized || solved.sized->holdsThroughout || solved.isBeside()) return;
    const double at = solved.sized->at;
    Crossing* nearest = nullptr;
    for (Crossing& c : found)
        if (c.route == solved.route && c.holdsAbove == solved.sized->holdsAbove &&
            (!nearest || std::fabs(c.at - at) < std::fabs(nearest->at - at)))
            nearest = &c;
    if (!nearest) return;
    nearest->at = at;
    nearest->low = std::min(nearest->low, at);
    nearest->high = std::max(nearest->high, at);
    nearest->text = wordsOf(*nearest, variable);
}

}  // namespace waybench
