#include "core/comparison/sweep.h"

#include <algorithm>
#include <cmath>
#include <deque>
#include <map>
#include <set>
#include <utility>

#include "core/comparison/evaluator.h"
#include "core/comparison/json_text.h"
#include "core/comparison/lifted_curve.h"
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
        if (route != constant) return evaluate(varied, route, asked, task);
        asked = fidelity;  // once in full costs less than coarse and full
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

/// Takes the points as they are done, puts them in order, and has all show the same load case.
class Collected {
public:
    Collected(Sweep& into, std::function<void(const SweepPoint&)> onPoint)
        : into_(into), onPoint_(std::move(onPoint)) {}

    void add(SweepPoint point) {
        if (point.valid && !isShownKnown_) into_.shownCase = point.comparison.worstCase;
        if (point.valid && point.comparison.printed.shownCase != into_.shownCase)
            judgeShowing(point.comparison, into_.shownCase);
        isShownKnown_ = isShownKnown_ || point.valid;
        if (onPoint_) onPoint_(point);
        const auto place = std::upper_bound(into_.points.begin(), into_.points.end(), point.at,
                                            [](double at, const SweepPoint& other) { return at < other.at; });
        into_.points.insert(place, std::move(point));
    }

private:
    Sweep& into_;
    std::function<void(const SweepPoint&)> onPoint_;
    bool isShownKnown_ = false;
};

/// Full answers, evenly over the places: at first, and at most where coarse ones foretell them badly.
constexpr std::size_t kAnchors = 5, kMostAnchors = 9;
constexpr double kGoodForetelling = 0.02;

/// From here on a curve is lifted from coarse answers, if its variable is a measure and not a count.
constexpr std::size_t kLeastLifted = kMostAnchors + 1;

/// The more anchors keep the places of the fewer when their gaps are halved.
std::vector<std::size_t> anchorsAmong(std::size_t places, std::size_t anchors) {
    std::vector<std::size_t> chosen;
    for (std::size_t i = 0; i < anchors; ++i)
        chosen.push_back(i * (places - 1) / std::max<std::size_t>(1, anchors - 1));
    return chosen;
}

/// The points of a long curve: coarse answers everywhere, full ones at the anchors, and the former lifted by the
/// latter.
class LiftedSweep {
public:
    LiftedSweep(const Evaluator& evaluate, const Part& part, const Variable& variable, const Task& task)
        : evaluate_(evaluate), part_(part), variable_(variable), task_(task) {}

    /// Adds the points as they are done. @throws Cancelled
    void run(const std::vector<double>& places, Collected& points) {
        std::vector<SweepPoint> coarse;
        for (std::size_t i = 0; i < places.size(); ++i) {
            SweepPoint point =
                answered(places[i], Fidelity::curve, 0.4 * share(i, places.size()), 0.4 * share(i + 1, places.size()));
            if (point.valid)
                coarse.push_back(std::move(point));
            else  // what is too thin for a coarse grid may do on a fine one
                points.add(answered(places[i], Fidelity::standard, 0, 0));
        }
        std::set<double> done;
        const auto anchorAt = [&](std::size_t anchors) {
            const std::vector<std::size_t> among = anchorsAmong(coarse.size(), anchors);
            for (const std::size_t i : showingOrder(anchors)) {
                const SweepPoint& at = coarse[among[i]];
                if (!done.insert(at.at).second) continue;
                const double before = share(done.size() - 1, kMostAnchors), after = share(done.size(), kMostAnchors);
                SweepPoint full = answered(at.at, Fidelity::standard, 0.4 + 0.6 * before, 0.4 + 0.6 * after);
                for (const RouteKind route : {RouteKind::printed, RouteKind::machined})
                    if (full.valid)
                        curve_[route].addAnchor(at.at, at.comparison.outcome(route), full.comparison.outcome(route));
                points.add(std::move(full));
            }
        };
        if (coarse.empty()) return;
        anchorAt(std::min(kAnchors, coarse.size()));
        if (worstForetold() > kGoodForetelling) anchorAt(std::min(kMostAnchors, coarse.size()));
        for (SweepPoint& point : coarse) {
            if (done.count(point.at) != 0) continue;
            task_.check();
            for (const RouteKind route : {RouteKind::printed, RouteKind::machined})
                if (curve_[route].anchors() > 0) curve_[route].lift(point.at, point.comparison.outcome(route));
            judge(point.comparison);
            points.add(std::move(point));
        }
        task_.report(1);
    }

private:
    static double share(std::size_t i, std::size_t count) { return double(i) / double(count); }

    SweepPoint answered(double at, Fidelity fidelity, double from, double to) {
        task_.check();
        return pointAt(evaluate_, part_, variable_, at, fidelity, task_.part(from, to));
    }
    double worstForetold() {
        return std::max(curve_[RouteKind::printed].deflectionForetold(),
                        curve_[RouteKind::machined].deflectionForetold());
    }

    const Evaluator& evaluate_;
    const Part& part_;
    const Variable& variable_;
    Task task_;
    std::map<RouteKind, LiftedCurve> curve_;
};

}  // namespace

Sweep sweepBy(const Evaluator& evaluate, const Part& part, const Variable& variable, double from, double to, int points,
              Fidelity fidelity, const Task& task, const std::function<void(const SweepPoint&)>& onPoint) {
    Sweep result;
    result.variable = variable;
    const std::vector<double> places = placesOf(variable, from, to, points);
    const Evaluator remembering = rememberingOtherRoute(evaluate, part, variable, fidelity);
    Collected collected(result, onPoint);
    try {
        if (fidelity == Fidelity::standard && !variable.isWhole && places.size() >= kLeastLifted) {
            LiftedSweep(remembering, part, variable, task).run(places, collected);
            return result;
        }
        const double share = 1.0 / static_cast<double>(places.size());
        double done = 0;
        for (const std::size_t i : showingOrder(places.size())) {
            task.check();
            collected.add(pointAt(remembering, part, variable, places[i], fidelity, task.part(done, done + share)));
            done += share;
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
