#include <algorithm>
#include <cmath>

#include "core/comparison/evaluator.h"
#include "core/comparison/judgement.h"
#include "core/comparison/wording.h"
#include "core/fault/input_fault.h"

namespace waybench {

namespace {

constexpr double kTolerance = 0.002;  // of the limit
constexpr int kMostEvaluations = 60;
constexpr int kScanSteps = 8;    // when an end cannot be built
constexpr int kSearchSteps = 4;  // when both can and agree: a dip between them is unlikely

[[noreturn]] void throwLimitMissing() {
    throw InputFault("limit_missing", "", "load case", "there is no deflection limit to size for",
                     "give the deflection the part may have");
}

struct Trial {
    double at = 0;
    double excess = 0;  ///< ln(deflection / limit): > 0 bends too much
    Figure deflection;
};

/// One route's deflection as a function of the variable. Stiffness follows powers of a dimension, so the logarithm
/// against the logarithm is nearly straight and the secant needs few steps.
class DeflectionOf {
public:
    DeflectionOf(const Evaluator& evaluate, const Part& part, const Variable& variable, RouteKind route,
                 Fidelity fidelity, const Task& task)
        : evaluate_(evaluate), part_(part), variable_(variable), route_(route), fidelity_(fidelity), task_(task) {}

    /// Empty where the part cannot be built.
    std::optional<Trial> at(double place) {
        task_.check();
        ++evaluations_;
        try {
            const Part varied = with(part_, variable_, place);
            const RouteOutcome outcome =
                evaluate_(varied, route_, fidelity_, task_.part(share(evaluations_ - 1), share(evaluations_)));
            Trial trial;
            trial.at = place;
            for (std::size_t i = 0; i < varied.loadCaseCount(); ++i)
                if (!(varied.loadCaseAt(i).deflectionLimit_mm > 0)) throwLimitMissing();
            const std::size_t worst = worstDemand(outcome, varied, Question::deflection).loadCase;
            trial.deflection = outcome.at(Question::deflection, worst);
            const double limit = varied.loadCaseAt(worst).deflectionLimit_mm;
            const double size = std::fabs(trial.deflection.value);
            trial.excess = std::log(std::max(size, 1e-12 * limit) / limit);
            anyValid_ = true;
            return trial;
        } catch (const InputFault& fault) {
            if (fault.code() == "limit_missing") throw;
            if (!firstFault_) firstFault_.emplace(fault);
            return {};
        }
    }
    int evaluations() const { return evaluations_; }
    /// @throws the first fault when no place at all could be built
    void checkAnyValid() const {
        if (!anyValid_ && firstFault_) throw InputFault(*firstFault_);
    }

private:
    /// How many steps are left is not known; each takes a fair share of the rest.
    static double share(int evaluations) { return 1 - std::pow(0.75, evaluations); }

    const Evaluator& evaluate_;
    const Part& part_;
    const Variable& variable_;
    RouteKind route_;
    Fidelity fidelity_;
    Task task_;
    int evaluations_ = 0;
    bool anyValid_ = false;
    std::optional<InputFault> firstFault_;
};

/// At the limit or a little below: a place that is called good enough must really be so.
bool meets(const Trial& trial) {
    return trial.excess <= 0 && -std::expm1(trial.excess) <= kTolerance;
}

/// Distance from the middle of what meets() accepts, which is where the search aims.
double miss(const Trial& trial) {
    return trial.excess + kTolerance / 2;
}

bool differInSign(const Trial& a, const Trial& b) {
    return (a.excess > 0) != (b.excess > 0);
}

/// Bracket of the smallest crossing seen: the ends first, a scan when they agree or cannot be built.
struct Bracket {
    std::optional<Trial> left, right;
    std::optional<Trial> alreadyHolds;  ///< smallest valid place that needs no crossing
};

/// Between a place that cannot be built and one above it that holds: the smallest that can be built and holds, or a
/// crossing on the way there.
void narrowDown(DeflectionOf& deflection, double unbuildable, Trial holding, Bracket& bracket) {
    constexpr int kHalvings = 12;
    for (int i = 0; i < kHalvings; ++i) {
        const double middle = 0.5 * (unbuildable + holding.at);
        const std::optional<Trial> here = deflection.at(middle);
        if (!here) {
            unbuildable = middle;
        } else if (here->excess > 0) {
            bracket.left = here;
            bracket.right = holding;
            return;
        } else {
            holding = *here;
        }
    }
    bracket.alreadyHolds = holding;
}

Bracket findBracket(DeflectionOf& deflection, double from, double to) {
    Bracket bracket;
    const std::optional<Trial> first = deflection.at(from), last = deflection.at(to);
    if (first && first->excess <= 0) {
        bracket.alreadyHolds = first;
        if (!last || last->excess <= 0) return bracket;
    }
    if (first && last && differInSign(*first, *last)) {
        bracket.left = first;
        bracket.right = last;
        return bracket;
    }
    const int steps = first && last ? kSearchSteps : kScanSteps;
    std::optional<Trial> before = first;
    for (int i = 1; i <= steps; ++i) {
        const std::optional<Trial> here =
            i == steps ? last : deflection.at(from + (to - from) * i / static_cast<double>(steps));
        if (here && before && differInSign(*before, *here)) {
            bracket.left = before;
            bracket.right = here;
            return bracket;
        }
        if (here && !before && !bracket.alreadyHolds && here->excess <= 0) {
            narrowDown(deflection, from + (to - from) * (i - 1) / static_cast<double>(steps), *here, bracket);
            if (bracket.left) return bracket;
        }
        if (here) before = here;
    }
    return bracket;
}

/// Illinois variant of the false position on ln-ln axes, with a bisection whenever it does not halve the bracket.
/// Where the deflection jumps over the limit (the grid of the structure changes) the holding side is returned.
Trial refine(DeflectionOf& deflection, Trial left, Trial right, bool isWhole) {
    const bool useLogarithm = left.at > 0;
    const auto in = [&](double x) { return useLogarithm ? std::log(x) : x; };
    const auto out = [&](double u) { return useLogarithm ? std::exp(u) : u; };
    Trial best = std::fabs(miss(left)) < std::fabs(miss(right)) ? left : right;
    double leftWeight = miss(left), rightWeight = miss(right);
    double widthBefore = INFINITY;
    int slowSteps = 0, lastMoved = 0;  // -1 left end, +1 right end
    while (!meets(best) && deflection.evaluations() < kMostEvaluations) {
        const double a = in(left.at), b = in(right.at), width = b - a;
        if (isWhole ? right.at - left.at < 1.5 : width <= 1e-9 * std::max(1.0, std::fabs(b))) break;
        slowSteps = width > 0.5 * widthBefore ? slowSteps + 1 : 0;
        widthBefore = width;
        double u =
            slowSteps >= 2 || isWhole ? 0.5 * (a + b) : (a * rightWeight - b * leftWeight) / (rightWeight - leftWeight);
        if (!(u > a && u < b)) u = 0.5 * (a + b);
        double place = out(u);
        if (isWhole) place = std::clamp(std::round(place), left.at + 1, right.at - 1);
        if (!(place > left.at && place < right.at)) break;
        const std::optional<Trial> here = deflection.at(place);
        if (!here) break;  // cannot be built between two places that can: the best so far stays
        if (std::fabs(miss(*here)) < std::fabs(miss(best))) best = *here;
        if (differInSign(left, *here)) {
            right = *here;
            rightWeight = miss(*here);
            if (lastMoved > 0) leftWeight *= 0.5;
            lastMoved = 1;
        } else {
            left = *here;
            leftWeight = miss(*here);
            if (lastMoved < 0) rightWeight *= 0.5;
            lastMoved = -1;
        }
    }
    if (meets(best) && !isWhole) return best;
    return left.excess <= 0 ? left : right;
}

}  // namespace

std::optional<Sized> solveForLimitBy(const Evaluator& evaluate, const Part& part, const Variable& variable,
                                     RouteKind route, double from, double to, Fidelity fidelity, const Task& task) {
    if (!std::isfinite(from) || !std::isfinite(to) || !(from < to))
        throw InputFault("sweep_range", "", variable.name, "the range to size in is empty",
                         "give a start that is smaller than the end");
    if (variable.isWhole) {
        from = std::ceil(from);
        to = std::floor(to);
        if (!(from < to)) return {};
    }
    DeflectionOf deflection(evaluate, part, variable, route, fidelity, task);
    const Bracket bracket = findBracket(deflection, from, to);
    deflection.checkAnyValid();
    std::optional<Trial> answer = bracket.alreadyHolds;
    if (bracket.left && bracket.right) answer = refine(deflection, *bracket.left, *bracket.right, variable.isWhole);
    task.report(1);
    if (!answer) return {};
    const bool holdsAbove = !bracket.left || bracket.left->excess > 0;
    return Sized{answer->at, answer->deflection, !bracket.left && answer->at <= from, holdsAbove};
}

std::optional<Sized> solveForLimit(const Part& part, const std::filesystem::path& folder, const Shop& shop,
                                   const std::string& tariff, const Variable& variable, RouteKind route, double from,
                                   double to, Fidelity fidelity, const Task& task) {
    return solveForLimitBy(realEvaluator(folder, shop, tariff), part, variable, route, from, to, fidelity, task);
}

}  // namespace waybench
