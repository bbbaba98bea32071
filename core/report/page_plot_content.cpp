#include "core/report/page_plot_content.h"

#include <algorithm>
#include <cmath>

#include "core/comparison/wording.h"
#include "core/quantity/quantity_text.h"

namespace waybench {

namespace {

bool allWithin(const std::vector<Figure>& curve, double limit) {
    for (const Figure& f : curve)
        if (f.value > limit) return false;
    return true;
}

bool noneWithin(const std::vector<Figure>& curve, double limit) {
    for (const Figure& f : curve)
        if (f.value <= limit) return false;
    return true;
}

/// Where a route meets its limit, or that it does throughout or nowhere in the range.
std::string findingOf(RouteKind route, const std::vector<Figure>& curve, double limit,
                      const std::vector<Crossing>& found) {
    const std::string name = nameOf(route);
    for (const Crossing& c : found)
        if (c.text.rfind(name + " holds", 0) == 0) return c.text;
    if (allWithin(curve, limit)) return name + " holds throughout";
    if (noneWithin(curve, limit)) return name + " holds nowhere here";
    return name + " undecided";
}

std::string axisText(const Variable& variable) {
    const std::string symbol = displayUnitFor(variable.unit, 1).symbol;
    return symbol.empty() ? variable.label : variable.label + " in " + symbol;
}

}  // namespace

void fillPlot(PageContent& page, const Sweep& whatIf, const Comparison& comparison) {
    page.plotAxis = axisText(whatIf.variable);
    page.plotAxisY = "deflection in mm";
    page.plotLimit = comparison.part.loadCase.deflectionLimit_mm;
    page.plotHere = whatIf.variable.current;
    for (const SweepPoint& point : whatIf.points) {
        if (!point.valid) continue;
        page.plotX.push_back(point.at);
        page.plotPrinted.push_back(magnitudeOf(point.comparison.printed.at(Question::deflection)));
        page.plotMachined.push_back(magnitudeOf(point.comparison.machined.at(Question::deflection)));
    }
    const std::vector<Crossing> found = crossings(whatIf, Question::deflection);
    for (const Crossing& c : found)
        page.plotCrossings.push_back(c.text);
    if (page.plotCrossings.empty()) page.plotCrossings.emplace_back("no crossing in this range");
    if (page.plotX.empty()) {
        page.plotTitle = "the part cannot be built anywhere in this range";
        return;
    }
    page.plotTitle = "Deflection: " + findingOf(RouteKind::printed, page.plotPrinted, page.plotLimit, found) + "; " +
                     findingOf(RouteKind::machined, page.plotMachined, page.plotLimit, found);
}

const Variable& pageVariable(const std::vector<Variable>& variables) {
    for (const Variable& v : variables)
        if (v.unit == Unit::millimetre && v.name.find('.') == std::string::npos && v.name != "limit") return v;
    for (const Variable& v : variables)
        if (v.name == "load") return v;
    return variables.front();
}

PageSweepRange pageSweepRange(const Variable& v) {
    return {std::max(v.minimum, v.current * 0.5), std::min(v.maximum, v.current * 2.0)};
}

}  // namespace waybench
