#include "core/comparison/wording.h"

#include <algorithm>
#include <cmath>

#include "core/comparison/json_text.h"

namespace waybench {

namespace {

constexpr int kPlaceDigits = 3;

/// Up or down to a count of significant digits; noise of the last bits does not count as lying beside a round number.
double roundedToSide(double value, int digits, bool up) {
    const double nearest = roundedToDigits(value, digits);
    const double noise = 1e-9 * std::fabs(value);
    if (up ? nearest >= value - noise : nearest <= value + noise) return nearest;
    const double step = std::pow(10.0, std::floor(std::log10(std::fabs(value))) - digits + 1);
    return roundedToDigits(nearest + (up ? step : -step), digits);
}

std::string placeText(const Variable& variable, double said) {
    const std::string symbol(variable.unit == Unit::none ? "" : symbolOf(variable.unit));
    const std::string number = numberText(said) + (symbol.empty() ? "" : " " + symbol);
    return variable.name == "load" && variable.unit == Unit::none ? number + " times the load" : number;
}

}  // namespace

const char* nounOf(RouteKind route) {
    return route == RouteKind::printed ? "the print" : "the machined part";
}

RouteKind otherThan(RouteKind route) {
    return route == RouteKind::printed ? RouteKind::machined : RouteKind::printed;
}

std::string comparativeOf(Question question) {
    switch (question) {
        case Question::deflection:
        case Question::deflection_max:
        case Question::stiffness:
            return "stiffer";
        case Question::strength_margin:
            return "stronger";
        case Question::temperature_margin:
            return "safer against heat";
        case Question::mass:
            return "lighter";
        case Question::machine_time:
            return "shorter on the machine";
        case Question::hands_on_time:
            return "less hands-on";
        case Question::elapsed_time:
            return "quicker";
        case Question::process_energy:
            return "less energy";
        case Question::embodied_energy:
            return "less embodied energy";
        case Question::carbon:
            return "less carbon";
        case Question::cost:
            return "cheaper";
        case Question::stock:
            return "less stock";
        case Question::waste:
            return "less waste";
        case Question::accuracy:
        case Question::hole_accuracy:
            return "closer to size";
        case Question::setups:
            return "fewer setups";
    }
    return "ahead";
}

std::string shortNumber(double value, int digits) {
    return numberText(roundedToDigits(value, digits));
}

std::string placeOn(const Variable& variable, double at) {
    return placeText(variable, roundedToDigits(at, kPlaceDigits));
}

std::string holdingPlaceOn(const Variable& variable, double at, bool holdsAbove) {
    constexpr int kMostDigits = 9;
    for (int digits = kPlaceDigits; digits < kMostDigits; ++digits) {
        const double said = roundedToSide(at, digits, holdsAbove);
        if (said >= variable.minimum && said <= variable.maximum) return placeText(variable, said);
    }
    return placeText(variable, roundedToDigits(at, kMostDigits));
}

std::string byHowMuch(double ratio) {
    constexpr double kFactorFrom = 1.5, kLargestSaid = 1000;
    if (!(ratio <= kLargestSaid)) return "by a factor of more than 1000";
    if (ratio >= kFactorFrom) return "by a factor of " + shortNumber(ratio);
    return "by " + shortNumber(100 * (1 - 1 / ratio)) + " %";
}

Figure magnitudeOf(const Figure& figure) {
    Figure size = figure;
    size.value = std::fabs(figure.value);
    const double a = std::fabs(figure.low), b = std::fabs(figure.high);
    size.low = figure.low <= 0 && figure.high >= 0 ? 0 : std::min(a, b);
    size.high = std::max(a, b);
    return size;
}

bool bandsOverlap(const Figure& a, const Figure& b) {
    return a.low <= b.high && b.low <= a.high;
}

}  // namespace waybench
