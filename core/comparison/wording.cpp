#include "core/comparison/wording.h"

#include <algorithm>
#include <cmath>

#include "core/comparison/json_text.h"

namespace waybench {

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
