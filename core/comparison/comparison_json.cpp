#include "core/comparison/comparison.h"
#include "core/comparison/part_json.h"
#include "core/comparison/wording.h"

namespace waybench {

namespace {

constexpr int kDigits = 9;

Json numberJson(double value) {
    return roundedToDigits(value, kDigits);
}

Json figureJson(const Figure& figure) {
    Json out = Json::object();
    out["value"] = numberJson(figure.value);
    out["low"] = numberJson(figure.low);
    out["high"] = numberJson(figure.high);
    out["unit"] = symbolOf(figure.unit);
    out["origin"] = nameOf(figure.origin);
    out["note"] = figure.note;
    return out;
}

Json textsJson(const std::vector<std::string>& texts) {
    Json out = Json::array();
    for (const std::string& text : texts)
        out.push_back(text);
    return out;
}

Json stepJson(const Step& step) {
    Json out = Json::object();
    out["name"] = step.name;
    out["seconds"] = numberJson(step.seconds);
    out["machine_seconds"] = numberJson(step.machine_seconds);
    out["hands_on_seconds"] = numberJson(step.hands_on_seconds);
    return out;
}

Json warningJson(const RouteWarning& warning) {
    Json out = Json::object();
    out["code"] = warning.code;
    out["severity"] = nameOf(warning.severity);
    out["text"] = warning.text;
    return out;
}

Json requirementJson(const Requirement& requirement, const Part& part) {
    Json out = Json::object();
    out["key"] = requirement.key;
    if (requirement.hangsOnLoads() && part.loadCaseCount() > 1)
        out["load_case"] = part.loadCaseAt(requirement.loadCase).name;
    out["standing"] = nameOf(requirement.standing);
    out["factor"] = numberJson(requirement.factor);
    out["text"] = requirement.text;
    return out;
}

/// Per load case what hangs on it, and how far it goes.
Json caseAnswerJson(const CaseAnswer& answer) {
    Json out = Json::object();
    out["name"] = answer.loadCase.name;
    for (const QuestionText& question : questions())
        if (hangsOnLoads(question.question)) out[question.key] = figureJson(answer.figures.at(question.question));
    out["deflection_limit"] =
        figureJson(Figure::exact(answer.loadCase.deflectionLimit_mm, Unit::millimetre, Origin::typed, "required"));
    out["strength_factor"] = numberJson(answer.loadCase.strengthFactor);
    out["demand"] = numberJson(demandOf(answer));
    return out;
}

Json routeJson(const RouteOutcome& outcome, const std::vector<Requirement>& requirements, const Part& part,
               Json settings) {
    Json out = Json::object();
    out["feasible"] = outcome.feasible;
    out["recipe"] = outcome.recipe;
    out["settings"] = std::move(settings);
    for (const QuestionText& question : questions())
        out[question.key] = figureJson(outcome.at(question.question));
    out["requirements"] = Json::array();
    for (const Requirement& r : requirements)
        out["requirements"].push_back(requirementJson(r, part));
    if (!outcome.cases.empty()) {
        out["load_cases"] = Json::array();
        for (const CaseAnswer& answer : outcome.cases)
            out["load_cases"].push_back(caseAnswerJson(answer));
    }
    out["steps"] = Json::array();
    for (const Step& step : outcome.steps)
        out["steps"].push_back(stepJson(step));
    out["warnings"] = Json::array();
    for (const RouteWarning& warning : outcome.warnings)
        out["warnings"].push_back(warningJson(warning));
    out["assumptions"] = Json::array();
    for (const Assumption& assumption : outcome.assumptions) {
        Json entry = Json::object();
        entry["name"] = assumption.name;
        entry["figure"] = figureJson(assumption.figure);
        entry["effect_on"] = assumption.effectOn;
        out["assumptions"].push_back(std::move(entry));
    }
    out["details"] = Json::array();
    for (const auto& [name, figure] : outcome.details) {
        Json entry = Json::object();
        entry["name"] = name;
        entry["figure"] = figureJson(figure);
        out["details"].push_back(std::move(entry));
    }
    if (!outcome.summary.empty()) {
        out["summary"] = Json::object();
        for (const SummaryGroup& group : outcome.summary)
            for (const auto& [key, figure] : group.figures)
                out["summary"][group.key][key] = figureJson(figure);
    }
    out["workings"] = Json::object();
    for (const QuestionText& question : questions())
        if (const auto it = outcome.workings.find(question.question); it != outcome.workings.end())
            out["workings"][question.key] = it->second;
    out["cautions"] = textsJson(outcome.cautions);
    return out;
}

/// What the route is really made to: its own dimension, else the shape's, else the standard.
Json routeDimensionsJson(const Shape& shape, const DimensionValues& overrides) {
    Json out = Json::object();
    for (const Dimension& d : dimensionsOf(shape))
        out[d.key] = numberJson(dimensionValue(shape, d, overrides));
    return out;
}

Json partJson(const Part& part) {
    Json out = Json::object();
    out["name"] = part.name;
    out["note"] = part.note;
    out["shape"] = shapeJson(part.shape);
    out["dimensions"] = Json::object();
    out["dimensions"]["printed"] = routeDimensionsJson(part.shape, part.printedDimensions);
    out["dimensions"]["machined"] = routeDimensionsJson(part.shape, part.machinedDimensions);
    return out;
}

const char* nameOf(LedgerRow::Ahead ahead) {
    switch (ahead) {
        case LedgerRow::Ahead::printed:
            return "printed";
        case LedgerRow::Ahead::machined:
            return "machined";
        case LedgerRow::Ahead::no_difference:
            return "no_difference";
        case LedgerRow::Ahead::not_ranked:
            break;
    }
    return "not_ranked";
}

/// As in the project file, but the limit is a figure like every other one in this document.
Json statedLoadCaseJson(const LoadCase& loadCase) {
    Json out = Json::object();
    const Json written = loadCaseJson(loadCase);
    for (const auto& [key, value] : written.items()) {
        if (key == "deflection_limit_mm")
            out["deflection_limit"] =
                figureJson(Figure::exact(loadCase.deflectionLimit_mm, Unit::millimetre, Origin::typed, "required"));
        else
            out[key] = value;
    }
    return out;
}

Json ledgerJson(const Comparison& c) {
    Json out = Json::array();
    for (const LedgerRow& row : c.ledger) {
        Json entry = Json::object();
        entry["key"] = row.key;
        if (hangsOnLoads(row.question) && c.part.loadCaseCount() > 1)
            entry["load_case"] = c.part.loadCaseAt(row.loadCase).name;
        entry["title"] = row.title;
        entry["meaning"] = row.meaning;
        entry["ahead"] = nameOf(row.ahead);
        entry["ahead_text"] = row.aheadText;
        if (row.limit) {
            entry["limit"] = numberJson(*row.limit);
            entry["limit_is_upper"] = row.limitIsUpper;
        }
        out.push_back(std::move(entry));
    }
    return out;
}

Json verdictJson(const Verdict& verdict) {
    Json out = Json::object();
    out["choice"] = nameOf(verdict.choice);
    out["sentence"] = verdict.sentence;
    out["reasons"] = textsJson(verdict.reasons);
    out["would_change"] = textsJson(verdict.wouldChange);
    out["decision_rule"] = verdict.decisionRule;
    out["printed_score"] = numberJson(verdict.printedScore);
    out["machined_score"] = numberJson(verdict.machinedScore);
    return out;
}

}  // namespace

std::string comparisonJson(const Comparison& c) {
    Json out = Json::object();
    out["schema"] = "waybench.comparison";
    out["version"] = 1;
    out["fidelity"] = c.fidelity == Fidelity::draft ? "draft" : "standard";
    out["part"] = partJson(c.part);
    out["load_case"] = statedLoadCaseJson(c.part.loadCase);
    if (c.part.loadCaseCount() > 1) {
        out["further_load_cases"] = Json::array();
        for (const LoadCase& further : c.part.furtherLoadCases)
            out["further_load_cases"].push_back(statedLoadCaseJson(further));
        out["worst_load_case"] = c.part.loadCaseAt(c.worstCase).name;
    }
    out["routes"] = Json::object();
    out["routes"]["printed"] = routeJson(c.printed, c.printedRequirements, c.part, recipeJson(c.part.recipe));
    out["routes"]["machined"] = routeJson(c.machined, c.machinedRequirements, c.part, planJson(c.part.plan));
    out["ledger"] = ledgerJson(c);
    out["verdict"] = verdictJson(c.verdict);
    return jsonText(out);
}

}  // namespace waybench
