#include "core/comparison/sweep.h"

#include <algorithm>
#include <cmath>
#include <deque>
#include <utility>

#include "core/comparison/evaluator.h"
#include "core/comparison/json_text.h"
#include "core/fault/input_fault.h"

namespace waybench {

namespace {

constexpr int kMostPoints = 1001;

std::vector<double> placesOf(const Variable& variable, double from, double to, int points) {
    if (!std::isfinite(from) || !std::isfinite(to) || !(from < to))
        throw InputFault("sweep_range", "", variable.name, "the range of the what-if is empty",
                         "give a start that is smaller than the end");
    if (points < 2 || points > kMostPoints)
        throw InputFault("sweep_points", "", variable.name, std::to_string(points) + " points cannot be swept",
                         "ask for 2 to " + std::to_string(kMostPoints) + " points");
    std::vector<double> places;
    for (int i = 0; i < points; ++i) {
        const double share = static_cast<double>(i) / (points - 1);
        double at = i + 1 == points ? to : from + share * (to - from);
        // a place the user can type: 7.1, not 7.099999999999999
        if (i > 0 && i + 1 < points) at = roundedToDigits(at, 12);
        if (variable.isWhole) at = std::round(at);
        if (places.empty() || at > places.back()) places.push_back(at);
    }
    return places;
}

/// Indices so that the whole range is seen early: ends, middle, quarters, eighths ...
std::vector<std::size_t> showingOrder(std::size_t count) {
    std::vector<std::size_t> order{0};
    if (count > 1) order.push_back(count - 1);
    std::deque<std::pair<std::size_t, std::size_t>> gaps{{0, count - 1}};
    while (!gaps.empty()) {
        const auto [left, right] = gaps.front();
        gaps.pop_front();
        if (right < left + 2) continue;
        const std::size_t middle = left + (right - left) / 2;
        order.push_back(middle);
        gaps.emplace_back(left, middle);
        gaps.emplace_back(middle, right);
    }
    return order;
}

/// A setting or dimension of one route leaves the other route's answer as it is: it is computed once.
Evaluator rememberingOtherRoute(const Evaluator& evaluate, const Part& part, const Variable& variable,
                                Fidelity fidelity) {
    const bool printedOnly = variable.name.rfind("printed.", 0) == 0;
    const bool machinedOnly = variable.name.rfind("machined.", 0) == 0;
    if (!printedOnly && !machinedOnly) return evaluate;
    const RouteKind constant = printedOnly ? RouteKind::machined : RouteKind::printed;
    auto remembered = std::make_shared<std::optional<RouteOutcome>>();  // written by one route's calls only
    return [=](const Part& varied, RouteKind route, Fidelity asked, const Task& task) {
        if (route != constant || asked != fidelity) return evaluate(varied, route, asked, task);
        if (!*remembered) *remembered = evaluate(part, route, asked, task);
        return **remembered;
    };
}

SweepPoint pointAt(const Evaluator& evaluate, const Part& part, const Variable& variable, double at, Fidelity fidelity,
                   const Task& task) {
    SweepPoint point;
    point.at = at;
    try {
        point.comparison = compareBy(evaluate, with(part, variable, at), fidelity, task);
    } catch (const InputFault& fault) {
        point.valid = false;
        point.why = fault.what();
    }
    return point;
}

}  // namespace

Sweep sweepBy(const Evaluator& evaluate, const Part& part, const Variable& variable, double from, double to, int points,
              Fidelity fidelity, const Task& task, const std::function<void(const SweepPoint&)>& onPoint) {
    Sweep result;
    result.variable = variable;
    const std::vector<double> places = placesOf(variable, from, to, points);
    const Evaluator remembering = rememberingOtherRoute(evaluate, part, variable, fidelity);
    const double share = 1.0 / static_cast<double>(places.size());
    double done = 0;
    bool isShownKnown = false;
    try {
        for (const std::size_t i : showingOrder(places.size())) {
            task.check();
            SweepPoint point = pointAt(remembering, part, variable, places[i], fidelity, task.part(done, done + share));
            done += share;
            if (point.valid && !isShownKnown) result.shownCase = point.comparison.worstCase;
            if (point.valid && point.comparison.printed.shownCase != result.shownCase)
                judgeShowing(point.comparison, result.shownCase);
            isShownKnown = isShownKnown || point.valid;
            if (onPoint) onPoint(point);
            const auto place = std::upper_bound(result.points.begin(), result.points.end(), point.at,
                                                [](double at, const SweepPoint& other) { return at < other.at; });
            result.points.insert(place, std::move(point));
        }
    } catch (const Cancelled&) {
        // what was finished stays; the caller sees task.isCancelled()
    }
    return result;
}

Sweep sweep(const Part& part, const std::filesystem::path& folder, const Shop& shop, const std::string& tariff,
            const Variable& variable, double from, double to, int points, Fidelity fidelity, const Task& task,
            const std::function<void(const SweepPoint&)>& onPoint) {
    return sweepBy(realEvaluator(folder, shop, tariff), part, variable, from, to, points, fidelity, task, onPoint);
}

}  // namespace waybench
