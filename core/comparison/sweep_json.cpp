#include "core/comparison/json_text.h"
#include "core/comparison/selection_check.h"
#include "core/comparison/solved_limit.h"

namespace waybench {

namespace {

constexpr int kDigits = 9;

double rounded(double value) {
    return roundedToDigits(value, kDigits);
}

Json figureJson(const Figure& f) {
    return {
        {"value", rounded(f.value)}, {"low", rounded(f.low)}, {"high", rounded(f.high)}, {"unit", symbolOf(f.unit)}};
}

Json routeJson(const RouteOutcome& outcome) {
    Json json = {{"feasible", outcome.feasible}};
    for (const QuestionText& q : questions())
        json[q.key] = figureJson(outcome.at(q.question));
    return json;
}

Json pointJson(const SweepPoint& point) {
    Json json = {{"at", rounded(point.at)}, {"valid", point.valid}};
    if (!point.valid) {
        json["why"] = point.why;
        return json;
    }
    json["verdict"] = nameOf(point.comparison.verdict.choice);
    json["printed"] = routeJson(point.comparison.printed);
    json["machined"] = routeJson(point.comparison.machined);
    return json;
}

Json solvedJson(const SolvedLimit& solved, const Variable& variable) {
    const std::string text = wordsOf(solved, variable);
    if (solved.fault) return {{"fault", solved.fault->code()}, {"text", text}};
    if (!solved.sized) return nullptr;
    return {{"at", rounded(solved.sized->at)},
            {"holds_throughout", solved.sized->holdsThroughout},
            {"beside_range", solved.isBeside()},
            {"deflection", figureJson(solved.sized->deflection)},
            {"text", text}};
}

}  // namespace

std::string sweepJson(const Sweep& sweep, const SolvedLimit& printed, const SolvedLimit& machined) {
    Json points = Json::array(), crossed = Json::array();
    for (const SweepPoint& point : sweep.points)
        points.push_back(pointJson(point));
    for (const QuestionText& q : questions()) {
        std::vector<Crossing> found = crossings(sweep, q.question);
        if (q.question == Question::deflection)
            for (const SolvedLimit* solved : {&printed, &machined})
                takeSolved(found, *solved, sweep.variable);
        for (const Crossing& c : found)
            crossed.push_back({{"question", q.key},
                               {"at", rounded(c.at)},
                               {"low", rounded(c.low)},
                               {"high", rounded(c.high)},
                               {"text", c.text}});
    }
    Json shown = nullptr;  // there is nothing to tell apart
    for (const SweepPoint& point : sweep.points)
        if (point.valid && point.comparison.part.loadCaseCount() > 1)
            shown = point.comparison.part.loadCaseAt(sweep.shownCase).name;
    return jsonText(
        {{"schema", "waybench.sweep"},
         {"version", 1},
         {"variable", {{"name", sweep.variable.name}, {"unit", symbolOf(sweep.variable.unit)}}},
         {"load_case_shown", std::move(shown)},
         {"points", std::move(points)},
         {"crossings", std::move(crossed)},
         {"notes", changedSelections(sweep)},
         {"solved",
          {{"printed", solvedJson(printed, sweep.variable)}, {"machined", solvedJson(machined, sweep.variable)}}}});
}

}  // namespace waybench
