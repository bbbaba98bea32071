#include <algorithm>
#include <array>
#include <cmath>
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

/// One route's answer about one load case.
struct Case {
    const RouteOutcome& outcome;
    const LoadCase& loadCase;
    std::size_t index = 0, count = 1;

    const Figure& at(Question question) const { return outcome.at(question, index); }
    /// " under 'emergency stop'" where there are several.
    std::string under() const { return count > 1 ? " under '" + loadCase.name + "'" : std::string(); }
};

Requirement finished(const Case& c, std::string key, const std::string& subject, Standing standing, double factor) {
    Requirement r;
    r.key = std::move(key);
    r.loadCase = c.index;
    r.standing = standing;
    r.factor = factor;
    r.text = subject + ": " + standingText(standing, factor);
    return r;
}

Requirement deflectionRequirement(const Case& c) {
    const Figure size = magnitudeOf(c.at(Question::deflection));
    const double limit = c.loadCase.deflectionLimit_mm;
    const Standing standing = size.high <= limit    ? Standing::passes
                              : size.value <= limit ? Standing::uncertain
                                                    : Standing::fails;
    return finished(c, "deflection",
                    "deflection" + c.under() + " " + describe(size, limit) + " against " +
                        describeValue(Figure::exact(limit, Unit::millimetre)) + " allowed",
                    standing, factorOf(size.value, limit));
}

Requirement strengthRequirement(const Case& c) {
    const Figure& margin = c.at(Question::strength_margin);
    const double needed = c.loadCase.strengthFactor;
    const Standing standing = margin.low >= needed     ? Standing::passes
                              : margin.value >= needed ? Standing::uncertain
                                                       : Standing::fails;
    return finished(c, "strength",
                    "strength margin" + c.under() + " " + describe(margin, needed) + " against " +
                        shortNumber(needed, 3) + " required",
                    standing, factorOf(needed, margin.value));
}

/// Which requirement a blocking warning is about, by its stable code.
enum class Subject { temperature, size, making };
Subject subjectOf(const std::string& code) {
    using namespace std::string_view_literals;
    constexpr std::array kSizeWords{"too_large"sv, "too_long"sv, "too_tall"sv, "too_wide"sv, "travel"sv, "not_fit"sv};
    if (code.find("temperature") != code.npos) return Subject::temperature;
    const bool isSize = std::any_of(kSizeWords.begin(), kSizeWords.end(),
                                    [&](std::string_view word) { return code.find(word) != code.npos; });
    return isSize ? Subject::size : Subject::making;
}

const RouteWarning* firstBlocking(const RouteOutcome& outcome, Subject subject, const std::string& heading = {}) {
    for (const RouteWarning& warning : outcome.warnings)
        if (warning.severity == Severity::blocking && subjectOf(warning.code) == subject &&
            warning.text.compare(0, heading.size(), heading) == 0)
            return &warning;
    return nullptr;
}

void failOn(Requirement& r, const std::string& text) {
    r.standing = Standing::fails;
    r.factor = kLargestFactor;
    r.text = text;
}

Requirement sizeRequirement(const RouteOutcome& outcome) {
    Requirement r;
    r.key = "fits_machine";
    r.text = "fits the machine: holds";
    if (const RouteWarning* warning = firstBlocking(outcome, Subject::size))
        failOn(r, "does not fit the machine: " + warning->text);
    return r;
}

Requirement makingRequirement(const RouteOutcome& outcome) {
    Requirement r;
    r.key = "can_be_made";
    r.text = "can be made this way: holds";
    if (const RouteWarning* warning = firstBlocking(outcome, Subject::making))
        failOn(r, "cannot be made this way: " + warning->text);
    return r;
}

Requirement temperatureRequirement(const Case& c) {
    const Figure& margin = c.at(Question::temperature_margin);
    const LoadCase& loadCase = c.loadCase;
    const Standing standing = margin.low >= 0     ? Standing::passes
                              : margin.value >= 0 ? Standing::uncertain
                                                  : Standing::fails;
    const double demand = loadCase.temperature_celsius - kAbsoluteZero_C;
    Requirement r = finished(c, "temperature",
                             "service" + c.under() + " at " +
                                 describeValue(Figure::exact(loadCase.temperature_celsius, Unit::celsius)) + ", " +
                                 describe(margin, 0.0) + " below the material's limit",
                             standing, factorOf(demand, demand + margin.value));
    if (standing == Standing::fails)
        r.text = "service" + c.under() + " at " +
                 describeValue(Figure::exact(loadCase.temperature_celsius, Unit::celsius)) + " is " +
                 describeValue(margin.times(-1)) + " above the material's limit: fails";
    const RouteWarning* warning = firstBlocking(c.outcome, Subject::temperature, caseHeading(loadCase, c.count));
    if (warning && r.standing != Standing::fails) {
        r.standing = Standing::fails;
        r.factor = std::max(1.0, r.factor);
        r.text = "temperature fails: " + warning->text;
    }
    return r;
}

}  // namespace

std::vector<Requirement> requirementsOf(const RouteOutcome& outcome, const Part& part) {
    std::vector<Requirement> all;
    for (const auto& requirement : {deflectionRequirement, strengthRequirement, temperatureRequirement})
        for (std::size_t i = 0; i < part.loadCaseCount(); ++i)
            all.push_back(requirement({outcome, part.loadCaseAt(i), i, part.loadCaseCount()}));
    all.push_back(sizeRequirement(outcome));
    all.push_back(makingRequirement(outcome));
    return all;
}

WorstDemand worstDemand(const RouteOutcome& outcome, const Part& part, Question question) {
    WorstDemand worst;
    for (std::size_t i = 0; i < part.loadCaseCount(); ++i) {
        const LoadCase& loadCase = part.loadCaseAt(i);
        const double value = outcome.at(question, i).value;
        const double demand = question == Question::deflection ? factorOf(std::fabs(value), loadCase.deflectionLimit_mm)
                              : question == Question::strength_margin ? factorOf(loadCase.strengthFactor, value)
                                                                      : 0;
        if (i == 0 || demand > worst.demand) worst = {i, demand};
    }
    return worst;
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
