#include "core/report/page_plot_content.h"

#include <algorithm>
#include <cmath>
#include <optional>

#include "core/comparison/wording.h"
#include "core/quantity/quantity_text.h"

namespace waybench {

namespace {

bool all(const std::vector<Figure>& shares, double Figure::*bound, bool within) {
    return std::all_of(shares.begin(), shares.end(), [&](const Figure& f) { return (f.*bound <= 1) == within; });
}

/// Where a route meets its limits, or that it does throughout or nowhere in the range; by the bounds first.
std::string findingOf(RouteKind route, const Sweep& sweep, const std::vector<Crossing>& found) {
    for (const Crossing& c : found)
        if (c.route == route) return c.text;
    std::vector<Figure> shares;
    for (const SweepPoint& point : sweep.points)
        if (point.valid)
            if (const std::optional<Figure> share = worstAgainstLimit(point, route, Question::deflection))
                shares.push_back(*share);
    const std::string name = nameOf(route);
    if (shares.empty()) return name + " has no limit";
    if (all(shares, &Figure::high, true)) return name + " surely holds throughout";
    if (all(shares, &Figure::value, true)) return name + " holds throughout by its value, not surely everywhere";
    if (all(shares, &Figure::low, false)) return name + " surely fails throughout";
    if (all(shares, &Figure::value, false)) return name + " fails throughout by its value";
    return name + " undecided";
}

std::string axisText(const Variable& variable) {
    const std::string symbol = displayUnitFor(variable.unit, 1).symbol;
    return symbol.empty() ? variable.label : variable.label + " in " + symbol;
}

/// Deflection of the curve of one load case at a place between its points, straight in logarithms; 0 where the curve
/// does not tell.
double deflectionAt(const Sweep& sweep, RouteKind route, std::size_t loadCase, double at) {
    const SweepPoint* before = nullptr;
    for (const SweepPoint& point : sweep.points) {
        if (!point.valid) continue;
        const double here = magnitudeOf(point.comparison.outcome(route).at(Question::deflection, loadCase)).value;
        if (point.at == at) return here;
        if (before && before->at < at && at < point.at && before->at > 0) {
            const double there =
                magnitudeOf(before->comparison.outcome(route).at(Question::deflection, loadCase)).value;
            if (!(here > 0 && there > 0)) return 0;
            return there * std::pow(here / there, std::log(at / before->at) / std::log(point.at / before->at));
        }
        before = &point;
    }
    return 0;
}

/// A coarse curve moved as a whole so that it runs through the final figure at the present value: what one coarse grid
/// misses hardly changes along the curve.
Sweep throughFinalFigure(Sweep sweep, const Comparison& final) {
    for (const RouteKind route : {RouteKind::printed, RouteKind::machined})
        for (std::size_t i = 0; i < final.part.loadCaseCount(); ++i) {
            const double coarse = deflectionAt(sweep, route, i, sweep.variable.current);
            if (!(coarse > 0)) continue;
            const double factor = magnitudeOf(final.outcome(route).at(Question::deflection, i)).value / coarse;
            if (!(factor > 0.5 && factor < 2)) continue;  // then the two are not of one part
            for (SweepPoint& point : sweep.points) {
                if (!point.valid) continue;
                Figure& f = point.comparison.outcome(route).at(Question::deflection, i);
                f = f.times(factor);
            }
        }
    return sweep;
}

}  // namespace

void fillPlot(PageContent& page, const Sweep& asComputed, const Comparison& comparison) {
    const bool isMoved = comparison.fidelity == Fidelity::standard;
    const Sweep whatIf = isMoved ? throughFinalFigure(asComputed, comparison) : asComputed;
    const std::size_t shown = comparison.worstCase;
    page.plotAxis = axisText(whatIf.variable);
    page.plotAxisY = isMoved ? "mm, coarse, moved to the final figure" : "mm, coarse grid";
    page.plotLimit = comparison.part.loadCaseAt(shown).deflectionLimit_mm;
    page.plotHere = whatIf.variable.current;
    for (const SweepPoint& point : whatIf.points) {
        if (!point.valid) continue;
        page.plotX.push_back(point.at);
        page.plotPrinted.push_back(magnitudeOf(point.comparison.printed.at(Question::deflection, shown)));
        page.plotMachined.push_back(magnitudeOf(point.comparison.machined.at(Question::deflection, shown)));
    }
    const std::vector<Crossing> found = crossings(whatIf, Question::deflection);
    for (const Crossing& c : found)
        page.plotCrossings.push_back(c.text);
    if (page.plotCrossings.empty()) page.plotCrossings.emplace_back("no crossing in this range");
    if (page.plotX.empty()) {
        page.plotTitle = "the part cannot be built anywhere in this range";
        return;
    }
    const std::string finding =
        findingOf(RouteKind::printed, whatIf, found) + "; " + findingOf(RouteKind::machined, whatIf, found);
    page.plotTitle =
        comparison.part.loadCaseCount() > 1
            ? "Deflection, drawn for " + comparison.part.loadCaseAt(shown).name + "; over all load cases: " + finding
            : "Deflection: " + finding;
}

const Variable& pageVariable(const std::vector<Variable>& variables, const Part& part) {
    const auto isAlike = [&](const std::string& key) {
        const auto p = part.printedDimensions.find(key), m = part.machinedDimensions.find(key);
        const bool hasP = p != part.printedDimensions.end(), hasM = m != part.machinedDimensions.end();
        return hasP == hasM && (!hasP || p->second == m->second);
    };
    for (const Variable& v : variables)
        if (v.unit == Unit::millimetre && v.name.find('.') == std::string::npos && v.name != "limit" && isAlike(v.name))
            return v;
    for (const Variable& v : variables)
        if (v.name == "load") return v;
    return variables.front();
}

PageSweepRange pageSweepRange(const Variable& v) {
    return {std::max(v.minimum, v.current * 0.5), std::min(v.maximum, v.current * 2.0)};
}

}  // namespace waybench
