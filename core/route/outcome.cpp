#include "core/route/outcome.h"

#include <algorithm>
#include <cmath>
#include <stdexcept>

#include "core/quantity/quantity_text.h"

namespace waybench {

namespace {

constexpr double kTimeSlack_s = 0.1;
constexpr double kMassSlack_g = 0.1;

[[noreturn]] void broken(const std::string& what) {
    throw std::logic_error("route outcome: " + what);
}

void checkFigure(const std::string& name, const Figure& f) {
    if (!std::isfinite(f.value) || !std::isfinite(f.low) || !std::isfinite(f.high))
        broken("'" + name + "' is not finite");
    if (f.low > f.value || f.value > f.high) broken("'" + name + "' lies outside its bounds");
}

void checkSum(const RouteOutcome& outcome, Question question, double sum_s) {
    const double figure_s = outcome.at(question).value;
    if (std::abs(figure_s - sum_s) > kTimeSlack_s)
        broken("the steps add up to " + plainNumber(sum_s) + " s, " + textOf(question).key + " is " +
               plainNumber(figure_s) + " s");
}

void checkSteps(const RouteOutcome& outcome) {
    double elapsed = 0, machine = 0, handsOn = 0;
    for (const Step& step : outcome.steps) {
        for (const double part : {step.seconds, step.machine_seconds, step.hands_on_seconds})
            if (!std::isfinite(part) || part < 0) broken("step '" + step.name + "' has a time that is no time");
        elapsed += step.seconds;
        machine += step.machine_seconds;
        handsOn += step.hands_on_seconds;
    }
    checkSum(outcome, Question::elapsed_time, elapsed);
    checkSum(outcome, Question::machine_time, machine);
    checkSum(outcome, Question::hands_on_time, handsOn);
}

}  // namespace

const char* nameOf(Severity severity) {
    switch (severity) {
        case Severity::note:
            return "note";
        case Severity::caution:
            return "caution";
        case Severity::blocking:
            return "blocking";
    }
    return "note";
}

const char* nameOf(RouteKind kind) {
    return kind == RouteKind::printed ? "printed" : "machined";
}

bool hangsOnLoads(Question question) {
    switch (question) {
        case Question::deflection:
        case Question::deflection_max:
        case Question::stiffness:
        case Question::strength_margin:
        case Question::temperature_margin:
            return true;
        default:
            return false;
    }
}

std::string caseHeading(const LoadCase& loadCase, std::size_t count) {
    return count > 1 ? "[" + loadCase.name + "] " : std::string();
}

double demandOf(const CaseAnswer& answer) {
    constexpr double kNone = 1e-9;  // of capacity
    const double deflection = std::abs(answer.figures.at(Question::deflection).value);
    const double margin = answer.figures.at(Question::strength_margin).value;
    return std::max(deflection / std::max(kNone, answer.loadCase.deflectionLimit_mm),
                    answer.loadCase.strengthFactor / std::max(kNone, margin));
}

const Figure& RouteOutcome::at(Question q, std::size_t loadCase) const {
    return cases.empty() || !hangsOnLoads(q) ? figures.at(q) : cases.at(loadCase).figures.at(q);
}

Figure& RouteOutcome::at(Question q, std::size_t loadCase) {
    return cases.empty() || !hangsOnLoads(q) ? figures.at(q) : cases.at(loadCase).figures.at(q);
}

std::string RouteOutcome::workingOf(Question q, std::size_t loadCase) const {
    const auto& of = cases.empty() || !hangsOnLoads(q) ? workings : cases.at(loadCase).workings;
    const auto found = of.find(q);
    return found == of.end() ? std::string() : found->second;
}

std::size_t worstCaseOf(const RouteOutcome& outcome) {
    std::size_t worst = 0;
    for (std::size_t i = 1; i < outcome.cases.size(); ++i)
        if (demandOf(outcome.cases[i]) > demandOf(outcome.cases[worst])) worst = i;
    return worst;
}

std::optional<Figure> naturalFrequency(const RouteOutcome& outcome, std::size_t loadCase) {
    const auto& structure = loadCase < outcome.cases.size() ? outcome.cases[loadCase].structure : outcome.structure;
    if (!structure || !structure->firstFrequency) return {};
    const Figure& stiffness = outcome.at(Question::stiffness, loadCase);
    const Figure& solved = *structure->firstFrequency;
    if (!(stiffness.low > 0)) return solved;
    return solved.widened(1 - std::sqrt(stiffness.low / stiffness.value),
                          std::sqrt(stiffness.high / stiffness.value) - 1);
}

void showCase(RouteOutcome& outcome, std::size_t loadCase) {
    if (outcome.cases.empty()) return;
    const CaseAnswer& shown = outcome.cases.at(loadCase);
    outcome.shownCase = loadCase;
    outcome.structure = shown.structure;
    for (const auto& [question, figure] : shown.figures)
        outcome.figures[question] = figure;
    for (const auto& [question, working] : shown.workings)
        outcome.workings[question] = working;
    constexpr const char* kFrequency = "first natural frequency, with what is attached";
    std::erase_if(outcome.details, [&](const auto& detail) { return detail.first == kFrequency; });
    if (const auto frequency = naturalFrequency(outcome, loadCase))
        outcome.details.insert(outcome.details.begin(), {kFrequency, *frequency});
}

void setTimes(RouteOutcome& outcome, double below, double above, double handsOnBelow, double handsOnAbove) {
    double elapsed = 0, machine = 0, handsOn = 0, bound = 0;
    for (const Step& step : outcome.steps) {
        elapsed += step.seconds;
        machine += step.machine_seconds;
        handsOn += step.hands_on_seconds;
        bound += std::min(step.hands_on_seconds, std::max(0.0, step.seconds - step.machine_seconds));
    }
    const double other = elapsed - bound;
    outcome.figures[Question::machine_time] =
        Figure::relative(machine, below, above, Unit::second, Origin::computed, "sum over the steps");
    outcome.figures[Question::hands_on_time] =
        Figure::relative(handsOn, handsOnBelow, handsOnAbove, Unit::second, Origin::computed, "sum over the steps");
    // A part is not out of hand before the hands are.
    const Figure& hands = outcome.figures[Question::hands_on_time];
    const double low = std::max(hands.low, other * (1 - below) + bound * (1 - handsOnBelow));
    const double high = std::max(hands.high, other * (1 + above) + bound * (1 + handsOnAbove));
    outcome.figures[Question::elapsed_time] = Figure::bounded(elapsed, std::min(elapsed, low), std::max(elapsed, high),
                                                              Unit::second, Origin::computed, "sum over the steps");
}

void checkOutcome(RouteOutcome& outcome) {
    outcome.feasible = std::none_of(outcome.warnings.begin(), outcome.warnings.end(),
                                    [](const RouteWarning& w) { return w.severity == Severity::blocking; });
    for (const QuestionText& text : questions()) {
        const auto found = outcome.figures.find(text.question);
        if (found == outcome.figures.end()) broken("'" + text.key + "' is not answered");
        checkFigure(text.key, found->second);
        if (found->second.unit != text.unit)
            broken("'" + text.key + "' is in " + std::string(symbolOf(found->second.unit)) + " and not in " +
                   std::string(symbolOf(text.unit)));
    }
    for (const auto& [name, figure] : outcome.details)
        checkFigure(name, figure);
    for (const SummaryGroup& group : outcome.summary)
        for (const auto& [key, figure] : group.figures)
            checkFigure(group.key + ", " + key, figure);
    for (const Assumption& assumption : outcome.assumptions)
        checkFigure(assumption.name, assumption.figure);
    for (const CaseAnswer& answer : outcome.cases)
        for (const QuestionText& text : questions()) {
            if (!hangsOnLoads(text.question)) continue;
            const auto found = answer.figures.find(text.question);
            if (found == answer.figures.end())
                broken("'" + text.key + "' is not answered for load case '" + answer.loadCase.name + "'");
            checkFigure(text.key, found->second);
        }
    checkSteps(outcome);
    const double apart =
        outcome.at(Question::stock).value - outcome.at(Question::mass).value - outcome.at(Question::waste).value;
    if (std::abs(apart) > kMassSlack_g)
        broken("stock and the sum of mass and waste differ by " + plainNumber(apart) + " g");
}

}  // namespace waybench
