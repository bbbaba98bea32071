#include <algorithm>
#include <cmath>

#include "core/comparison/judgement.h"
#include "core/comparison/sweep.h"
#include "core/comparison/wording.h"

namespace waybench {

namespace {

struct Pair {
    double x = 0;
    Figure a, b;
};

/// Neighbouring points without an invalid one between them.
using Run = std::vector<Pair>;

/// Axes on which the curves are nearly straight.
struct Axes {
    bool logX = true, logY = true;

    explicit Axes(const Run& run) {
        for (const Pair& p : run) {
            logX = logX && p.x > 0;
            logY = logY && p.a.low > 0 && p.b.low > 0;
        }
    }
    double gap(double a, double b) const { return logY ? std::log(a / b) : a - b; }
    /// Place between x1 and x2 where a quantity going from g1 to g2 (of unlike sign) is zero.
    double zero(double x1, double g1, double x2, double g2) const {
        const double share = g1 / (g1 - g2);
        const double x = logX ? x1 * std::pow(x2 / x1, share) : x1 + share * (x2 - x1);
        return std::clamp(x, x1, x2);
    }
};

bool isPositive(double gap) {
    return gap > 0;
}

/// Walks from the crossing between points i and i + 1 to where the bands no longer touch; the range's end if never.
double edgeOfBand(const Run& run, const Axes& axes, std::size_t i, double at, int step, bool& isOpen) {
    const auto lowGap = [&](std::size_t k) { return axes.gap(run[k].a.low, run[k].b.high); };
    const auto highGap = [&](std::size_t k) { return axes.gap(run[k].a.high, run[k].b.low); };
    std::size_t k = step < 0 ? i : i + 1;
    while (true) {
        const std::size_t inner = step < 0 ? k + 1 : k - 1;  // towards the crossing
        const double x1 = std::min(run[k].x, run[inner].x), x2 = std::max(run[k].x, run[inner].x);
        const std::size_t left = std::min(k, inner), right = std::max(k, inner);
        for (const bool low : {true, false}) {
            const double gk = low ? lowGap(k) : highGap(k);
            if (low ? gk <= 0 : gk >= 0) continue;  // still touching on this side
            const double g1 = low ? lowGap(left) : highGap(left), g2 = low ? lowGap(right) : highGap(right);
            const double edge = isPositive(g1) != isPositive(g2) ? axes.zero(x1, g1, x2, g2) : at;
            return step < 0 ? std::min(edge, at) : std::max(edge, at);
        }
        if (step < 0 ? k == 0 : k + 1 == run.size()) {
            isOpen = true;
            return run[k].x;
        }
        k = step < 0 ? k - 1 : k + 1;
    }
}

template <typename Tell>
void addCrossings(const Run& run, Question question, const Tell& tell, std::vector<Crossing>& found) {
    if (run.size() < 2) return;
    const Axes axes(run);
    for (std::size_t i = 0; i + 1 < run.size(); ++i) {
        const double g1 = axes.gap(run[i].a.value, run[i].b.value);
        const double g2 = axes.gap(run[i + 1].a.value, run[i + 1].b.value);
        if (isPositive(g1) == isPositive(g2)) continue;
        Crossing c;
        c.question = question;
        c.at = axes.zero(run[i].x, g1, run[i + 1].x, g2);
        c.low = edgeOfBand(run, axes, i, c.at, -1, c.isLowOpen);
        c.high = edgeOfBand(run, axes, i, c.at, +1, c.isHighOpen);
        tell(c, isPositive(g1));
        found.push_back(std::move(c));
    }
}

bool countsBySize(Question question) {
    return question == Question::deflection || question == Question::deflection_max;
}

Figure sized(const Figure& figure, Question question) {
    return countsBySize(question) ? magnitudeOf(figure) : figure;
}

Figure figureOf(const SweepPoint& point, RouteKind route, Question question) {
    return sized(point.comparison.outcome(route).at(question), question);
}

std::optional<Figure> limitOf(const LoadCase& loadCase, Question question) {
    if (question == Question::deflection && loadCase.deflectionLimit_mm > 0)
        return Figure::exact(loadCase.deflectionLimit_mm, Unit::millimetre);
    if (question == Question::strength_margin && loadCase.strengthFactor > 0)
        return Figure::exact(loadCase.strengthFactor, Unit::none);
    if (question == Question::temperature_margin) return Figure::exact(0, Unit::kelvin);
    return {};
}

/// Runs of valid points, each with the pair of figures `pairAt` gives.
template <typename PairAt>
std::vector<Run> runsOf(const Sweep& sweep, const PairAt& pairAt) {
    std::vector<Run> runs(1);
    for (const SweepPoint& point : sweep.points) {
        const std::optional<Pair> pair = point.valid ? pairAt(point) : std::nullopt;
        if (pair)
            runs.back().push_back(*pair);
        else if (!runs.back().empty())
            runs.emplace_back();
    }
    return runs;
}

}  // namespace

std::optional<Figure> worstAgainstLimit(const SweepPoint& point, RouteKind route, Question question) {
    const Comparison& c = point.comparison;
    std::optional<Figure> worst;
    for (std::size_t i = 0; i < c.part.loadCaseCount(); ++i) {
        const std::optional<Figure> limit = limitOf(c.part.loadCaseAt(i), question);
        if (!limit) return {};
        Figure share = sized(c.outcome(route).at(question, i), question);
        if (limit->value > 0) share = share.times(1 / limit->value);
        if (!worst) {
            worst = share;
            continue;
        }
        const bool most = textOf(question).smallerIsBetter;
        const auto worse = [most](double a, double b) { return most ? std::max(a, b) : std::min(a, b); };
        *worst = Figure::bounded(worse(worst->value, share.value), worse(worst->low, share.low),
                                 worse(worst->high, share.high), share.unit);
    }
    return worst;
}

std::string wordsOf(const Crossing& c, const Variable& variable) {
    if (!c.route) {
        const std::string ahead = std::string(nameOf(c.holdsAbove ? RouteKind::machined : RouteKind::printed)) + " " +
                                  comparativeOf(c.question);
        std::string text = ahead + " above " + placeOn(variable, c.at);
        if (c.high - c.low > 1e-9 * std::max(1.0, std::fabs(c.at)))
            text += std::string(" (") + (c.isLowOpen ? "below " : "") + shortNumber(c.low, 3) + " to " +
                    (c.isHighOpen ? "above " : "") + shortNumber(c.high, 3) + ")";
        return text;
    }
    const std::string name = nameOf(*c.route), way = c.holdsAbove ? "from " : "up to ";
    const bool isOpen = c.holdsAbove ? c.isHighOpen : c.isLowOpen;
    const std::string byValue = way + holdingPlaceOn(variable, c.at, c.holdsAbove);
    if (isOpen) return name + " holds by its value " + byValue + ", surely nowhere in this range";
    const double sure = c.holdsAbove ? c.high : c.low;
    const std::string surely = way + holdingPlaceOn(variable, sure, c.holdsAbove);
    if (surely == byValue) return name + " holds " + byValue;
    return name + " surely holds " + surely + ", by its value " + byValue;
}

std::vector<Crossing> crossings(const Sweep& sweep, Question question) {
    std::vector<Crossing> found;
    const bool smallerIsBetter = textOf(question).smallerIsBetter;

    const auto tellRoutes = [&](Crossing& c, bool printedAboveBefore) {
        c.holdsAbove = printedAboveBefore != smallerIsBetter;  // here: the machined route is ahead above
        c.text = wordsOf(c, sweep.variable);
    };
    const auto bothRoutes = [&](const SweepPoint& point) -> std::optional<Pair> {
        return Pair{point.at, figureOf(point, RouteKind::printed, question),
                    figureOf(point, RouteKind::machined, question)};
    };
    for (const Run& run : runsOf(sweep, bothRoutes))
        addCrossings(run, question, tellRoutes, found);

    for (const RouteKind route : {RouteKind::printed, RouteKind::machined}) {
        const auto tellLimit = [&](Crossing& c, bool aboveBefore) {
            c.route = route;
            c.holdsAbove = aboveBefore == smallerIsBetter;
            c.text = wordsOf(c, sweep.variable);
        };
        const auto withLimit = [&](const SweepPoint& point) -> std::optional<Pair> {
            const std::optional<Figure> share = worstAgainstLimit(point, route, question);
            if (!share) return {};
            const double holds = question == Question::temperature_margin ? 0 : 1;
            return Pair{point.at, *share, Figure::exact(holds, share->unit)};
        };
        for (const Run& run : runsOf(sweep, withLimit))
            addCrossings(run, question, tellLimit, found);
    }
    return found;
}

}  // namespace waybench
