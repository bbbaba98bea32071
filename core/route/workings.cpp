#include "core/route/workings.h"

#include <charconv>
#include <cmath>

namespace waybench {

std::string shown(double value, int digits) {
    char text[400];
    if (std::abs(value) >= std::pow(10.0, digits)) {
        const double step = std::pow(10.0, std::floor(std::log10(std::abs(value))) + 1 - digits);
        const auto whole =
            std::to_chars(text, text + sizeof text, std::round(value / step) * step, std::chars_format::fixed, 0);
        return {text, whole.ptr};
    }
    const auto end = std::to_chars(text, text + sizeof text, value, std::chars_format::general, digits).ptr;
    return {text, end};
}

std::string placeText(const Vec3& place) {
    const auto r = [](double v) { return shown(std::round(10 * v) / 10 + 0.0, 4); };
    return "(" + r(place.x()) + " " + r(place.y()) + " " + r(place.z()) + ") mm";
}

void addStiffness(double force_N, const StructureAnswer& answer, double below, double above, CaseAnswer& outcome) {
    constexpr double kHardly = 1e-4;  // of the largest displacement
    const double size = std::abs(answer.deflection.value);
    Figure& stiffness = outcome.figures[Question::stiffness];
    std::string& working = outcome.workings[Question::stiffness];
    if (!(force_N > 0) || !(size > kHardly * answer.deflectionMax.value)) {
        stiffness = Figure::exact(0, Unit::newton_per_millimetre).named("not defined for these loads");
        working = force_N > 0 ? "the measured face hardly moves along the measured direction: no stiffness is given"
                              : "no resultant force (moments or balanced loads only): no stiffness is given";
        return;
    }
    const double k = force_N / size;
    stiffness = Figure::bounded(k, k / above, k / below, Unit::newton_per_millimetre, Origin::computed,
                                "force over deflection");
    working = "k = F/d = " + shown(force_N, 4) + " N / " + shown(size) + " mm";
}

void addBill(std::span<const CostTerm> terms, const Figure& lostShare, const std::string& lost, const Tariff& tariff,
             RouteOutcome& outcome) {
    const Figure once = totalCost(terms);
    std::string bill;
    for (const CostTerm& term : terms) {
        bill += (bill.empty() ? "" : " + ") + term.name + " " + shown(term.cost.value);
        outcome.details.emplace_back("cost of " + term.name, term.cost);
    }
    outcome.figures[Question::cost] = withScrap(once, lostShare);
    outcome.workings[Question::cost] = "(" + bill + ") / (1 - " + shown(lostShare.value) + " " + lost + "), " +
                                       tariff.currency + " [" + tariff.title + ", " + tariff.date + "]";
}

}  // namespace waybench
