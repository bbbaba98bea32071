#include <algorithm>
#include <array>
#include <string_view>

#include "core/comparison/judgement.h"
#include "core/comparison/wording.h"
#include "core/quantity/quantity_text.h"

namespace waybench {

namespace {

constexpr double kLargestFactor = 1e6;  // stands for "no capacity at all"
constexpr double kAbsoluteZero_C = -273.15;

double factorOf(double demand, double capacity) {
    return capacity > 0 ? std::clamp(demand / capacity, 0.0, kLargestFactor) : kLargestFactor;
}

std::string standingText(Standing standing, double factor) {
    switch (standing) {
        case Standing::passes:
            return "holds";
        case Standing::uncertain:
            return "cannot be said: the value holds, its unfavourable bound does not";
        case Standing::fails:
            break;
    }
    return "fails " + byHowMuch(std::max(1.0, factor));
}

Requirement finished(std::string key, const std::string& subject, Standing standing, double factor) {
    Requirement r;
    r.key = std::move(key);
    r.standing = standing;
    r.factor = factor;
    r.text = subject + ": " + standingText(standing, factor);
    return r;
}

Requirement deflectionRequirement(const RouteOutcome& outcome, const LoadCase& loadCase) {
    const Figure size = magnitudeOf(outcome.at(Question::deflection));
    const double limit = loadCase.deflectionLimit_mm;
    const Standing standing = size.high <= limit    ? Standing::passes
                              : size.value <= limit ? Standing::uncertain
                                                    : Standing::fails;
    return finished("deflection",
                    "deflection " + describe(size) + " against " +
                        describeValue(Figure::exact(limit, Unit::millimetre)) + " allowed",
                    standing, factorOf(size.value, limit));
}

Requirement strengthRequirement(const RouteOutcome& outcome, const LoadCase& loadCase) {
    const Figure& margin = outcome.at(Question::strength_margin);
    const double needed = loadCase.strengthFactor;
    const Standing standing = margin.low >= needed     ? Standing::passes
                              : margin.value >= needed ? Standing::uncertain
                                                       : Standing::fails;
    return finished("strength",
                    "strength margin " + describe(margin) + " against " + shortNumber(needed, 3) + " required",
                    standing, factorOf(needed, margin.value));
}

Requirement temperatureRequirement(const RouteOutcome& outcome, const LoadCase& loadCase) {
    const Figure& margin = outcome.at(Question::temperature_margin);
    const Standing standing = margin.low >= 0     ? Standing::passes
                              : margin.value >= 0 ? Standing::uncertain
                                                  : Standing::fails;
    const double demand = loadCase.temperature_celsius - kAbsoluteZero_C;
    Requirement r = finished("temperature",
                             "service at " + describeValue(Figure::exact(loadCase.temperature_celsius, Unit::celsius)) +
                                 ", " + describe(margin) + " below the material's limit",
                             standing, factorOf(demand, demand + margin.value));
    if (standing == Standing::fails)
        r.text = "service at " + describeValue(Figure::exact(loadCase.temperature_celsius, Unit::celsius)) + " is " +
                 describeValue(margin.times(-1)) + " above the material's limit: fails";
    return r;
}

bool saysTooLarge(const std::string& code) {
    using namespace std::string_view_literals;
    constexpr std::array kWords{"too_large"sv, "travel"sv, "machine"sv, "volume"sv, "fit"sv, "bed"sv};
    return std::any_of(kWords.begin(), kWords.end(),
                       [&](std::string_view word) { return code.find(word) != code.npos; });
}

/// Blocking warnings are requirements a route cannot meet at all; the first one speaks.
Requirement blockingRequirement(const RouteOutcome& outcome, bool aboutSize) {
    Requirement r;
    r.key = aboutSize ? "fits_machine" : "can_be_made";
    r.text = aboutSize ? "fits the machine: holds" : "can be made this way: holds";
    for (const RouteWarning& warning : outcome.warnings) {
        if (warning.severity != Severity::blocking || saysTooLarge(warning.code) != aboutSize) continue;
        r.standing = Standing::fails;
        r.factor = kLargestFactor;
        r.text = (aboutSize ? "does not fit the machine: " : "cannot be made this way: ") + warning.text;
        break;
    }
    if (!aboutSize && r.standing == Standing::passes && !outcome.feasible &&
        blockingRequirement(outcome, true).standing == Standing::passes) {
        r.standing = Standing::fails;
        r.factor = kLargestFactor;
        r.text = "cannot be made this way";
    }
    return r;
}

}  // namespace

std::vector<Requirement> requirementsOf(const RouteOutcome& outcome, const LoadCase& loadCase) {
    return {deflectionRequirement(outcome, loadCase), strengthRequirement(outcome, loadCase),
            temperatureRequirement(outcome, loadCase), blockingRequirement(outcome, true),
            blockingRequirement(outcome, false)};
}

bool allPass(const std::vector<Requirement>& requirements) {
    return std::all_of(requirements.begin(), requirements.end(),
                       [](const Requirement& r) { return r.standing == Standing::passes; });
}

bool anyFails(const std::vector<Requirement>& requirements) {
    return std::any_of(requirements.begin(), requirements.end(),
                       [](const Requirement& r) { return r.standing == Standing::fails; });
}

const char* nameOf(Standing standing) {
    switch (standing) {
        case Standing::passes:
            return "passes";
        case Standing::uncertain:
            return "uncertain";
        case Standing::fails:
            break;
    }
    return "fails";
}

}  // namespace waybench
