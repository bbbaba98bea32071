#include "core/report/page_content.h"

#include <algorithm>
#include <cctype>
#include <cmath>
#include <set>

#include "core/quantity/quantity_text.h"
#include "core/report/content_hash.h"
#include "core/report/page_plot_content.h"
#include "core/report/program_version.h"

namespace waybench {

namespace {

std::string withUnit(const std::string& number, const DisplayUnit& unit) {
    return unit.symbol.empty() ? number : number + " " + unit.symbol;
}

/// Value and bounds in a unit both routes share, so that the row can be read across.
std::string figureText(const Figure& figure, const DisplayUnit& unit, std::optional<double> limit) {
    if (limit) *limit *= unit.scale;
    const RoundedFigure rounded = roundByBand(figure.times(unit.scale), limit);
    const std::string text = withUnit(rounded.value, unit);
    if (rounded.low == rounded.value && rounded.high == rounded.value) return text;
    return text + " (" + rounded.low + " to " + rounded.high + ")";
}

std::string limitText(const LedgerRow& row, const DisplayUnit& unit) {
    if (!row.limit) return {};
    const Figure limit = Figure::exact(*row.limit * unit.scale, row.unit);
    return (row.limitIsUpper ? "at most " : "at least ") + withUnit(roundByBand(limit).value, unit);
}

/// On the page the worst load case is named once; rows of others stand below its own by name.
std::string pageTitle(const LedgerRow& row, const Part& part) {
    return row.isFurther ? "– " + part.loadCaseAt(row.loadCase).name : textOf(row.question).title;
}

PageRow pageRow(const LedgerRow& row, const Part& part) {
    const DisplayUnit unit = displayUnitForPair(row.unit, row.printed.value, row.machined.value);
    PageRow out;
    out.title = pageTitle(row, part);
    out.printed = figureText(row.printed, unit, row.limit);
    out.machined = figureText(row.machined, unit, row.limit);
    out.limit = limitText(row, unit);
    out.ahead = row.aheadText;
    out.printedFigure = row.printed;
    out.machinedFigure = row.machined;
    out.aheadRoute = row.ahead;
    return out;
}

/// Rows that decide first, so that a page too short for all cuts those that only repeat another.
std::vector<PageRow> pageRows(const Comparison& comparison) {
    std::vector<PageRow> rows;
    for (const bool decides : {true, false})
        for (const LedgerRow& row : comparison.ledger)
            if ((row.limit || textOf(row.question).isRanked) == decides) rows.push_back(pageRow(row, comparison.part));
    return rows;
}

std::string vectorText(const Vec3& v) {
    return "(" + describeValue(Figure::exact(v.x(), Unit::none)) + ", " +
           describeValue(Figure::exact(v.y(), Unit::none)) + ", " + describeValue(Figure::exact(v.z(), Unit::none)) +
           ")";
}

std::string loadText(const Load& load) {
    std::string text = nameOf(load.kind);
    switch (load.kind) {
        case LoadKind::force:
        case LoadKind::bearing:
            text += " " + vectorText(load.vector) + " N";
            break;
        case LoadKind::moment:
            text += " " + vectorText(load.vector) + " N mm";
            break;
        case LoadKind::pressure:
            text += " " + describeValue(Figure::exact(load.pressure_MPa, Unit::megapascal));
            break;
    }
    return text + " on " + load.face.text();
}

std::string conditionsText(const LoadCase& loadCase) {
    std::string text = "at " + describeValue(Figure::exact(loadCase.temperature_celsius, Unit::celsius)) + ", load ";
    switch (loadCase.duration) {
        case Duration::brief:
            text += "brief";
            break;
        case Duration::hours:
            text += "for " + describeValue(Figure::exact(loadCase.duration_h, Unit::hour));
            break;
        case Duration::cyclic:
            text += "repeated " + describeValue(Figure::exact(loadCase.cycles, Unit::none)) + " times";
            break;
    }
    return text + ", known to " + describeValue(Figure::exact(100 * loadCase.loadSpread, Unit::none)) + " %";
}

std::string standingWord(const Requirement& r) {
    switch (r.standing) {
        case Standing::passes:
            return "holds";
        case Standing::uncertain:
            return "uncertain";
        case Standing::fails:
            break;
    }
    return "fails";
}

std::string demandText(const std::string& key, const LoadCase& loadCase) {
    if (key == "deflection")
        return "deflection at most " + describeValue(Figure::exact(loadCase.deflectionLimit_mm, Unit::millimetre));
    if (key == "strength")
        return "strength margin at least " + describeValue(Figure::exact(loadCase.strengthFactor, Unit::none));
    if (key == "temperature") return "within the material's temperature";
    if (key == "fits_machine") return "fits the machine";
    return "can be made";
}

std::string commaJoined(const std::vector<std::string>& words) {
    std::string all;
    for (const std::string& word : words)
        all += (all.empty() ? "" : ", ") + word;
    return all;
}

std::string holdText(const Hold& hold) {
    std::string text = hold.face.text();
    if (hold.kind != HoldKind::fixed) text = std::string(nameOf(hold.kind)) + " " + text;
    if (hold.kind == HoldKind::bolted && hold.headDiameter_mm > 0)
        text += ", head " + describeValue(Figure::exact(hold.headDiameter_mm, Unit::millimetre));
    return text;
}

/// What loads, where it is measured, what holds: a line each.
void addLoadCase(const LoadCase& loadCase, std::vector<std::string>& lines) {
    std::vector<std::string> loads, holds;
    for (const Load& load : loadCase.loads)
        loads.push_back(loadText(load));
    if (!loadCase.gravity.isZero()) loads.emplace_back("own weight");
    lines.push_back(loadCase.name + ": " + commaJoined(loads) + "; " + conditionsText(loadCase));
    for (const Hold& hold : loadCase.holds)
        holds.push_back(holdText(hold));
    lines.push_back("measured: " + loadCase.measuredFace.text() + " along " + vectorText(loadCase.measuredDirection));
    lines.push_back("held: " + commaJoined(holds));
}

/// What decides first: a line for each demand on which the routes differ or one is not sure to hold, one for the rest.
std::vector<std::string> requirementLines(const Comparison& c) {
    std::vector<std::string> lines, held;
    if (c.part.loadCaseCount() > 1)
        lines.push_back("worst load case, shown here: " + c.part.loadCaseAt(c.worstCase).name);
    for (std::size_t i = 0; i < c.printedRequirements.size() && i < c.machinedRequirements.size(); ++i) {
        const Requirement &p = c.printedRequirements[i], &m = c.machinedRequirements[i];
        std::string demand = demandText(p.key, c.part.loadCaseAt(p.loadCase));
        if (p.hangsOnLoads() && c.part.loadCaseCount() > 1) demand += " under " + c.part.loadCaseAt(p.loadCase).name;
        if (p.standing == Standing::passes && m.standing == Standing::passes)
            held.push_back(demand);
        else if (p.standing == m.standing)
            lines.push_back(demand + ": both " + (p.standing == Standing::fails ? "fail" : "uncertain"));
        else
            lines.push_back(demand + ": printed " + standingWord(p) + ", machined " + standingWord(m));
    }
    if (!held.empty()) lines.push_back("both hold: " + commaJoined(held));
    for (std::size_t i = 0; i < c.part.loadCaseCount(); ++i)
        addLoadCase(c.part.loadCaseAt(i), lines);
    return lines;
}

std::string sizeText(const Solid& solid) {
    const Vec3 size = boundsOf(solid.mesh).size();
    std::string text;
    for (int axis = 0; axis < 3; ++axis)
        text += (axis > 0 ? " x " : "") + plainNumber(std::round(100 * size[axis]) / 100);
    return text + " mm";
}

/// Where the shape comes from, how large it is, and in what the routes' shapes differ.
std::string shapeText(const Comparison& c) {
    std::string text = c.part.shape.kind == ShapeKind::family ? "shape family " + c.part.shape.family
                                                              : "from " + c.part.shape.file.filename().generic_string();
    const std::string printed = c.printed.solid ? sizeText(*c.printed.solid) : "";
    const std::string machined = c.machined.solid ? sizeText(*c.machined.solid) : "";
    if (printed == machined || printed.empty() || machined.empty())
        text += ", " + (printed.empty() ? machined : printed);
    else
        text += ", printed " + printed + ", machined " + machined;
    for (const Dimension& d : dimensionsOf(c.part.shape)) {
        const double p = dimensionValue(c.part.shape, d, c.part.printedDimensions),
                     m = dimensionValue(c.part.shape, d, c.part.machinedDimensions);
        if (p != m)
            text += "; " + d.label + " printed " + describeValue(Figure::exact(p, d.unit)) + ", machined " +
                    describeValue(Figure::exact(m, d.unit));
    }
    return text;
}

/// Worst first; within a severity the printed ones first.
std::vector<std::string> riskLines(const Comparison& c) {
    std::vector<std::string> lines;
    for (const Severity severity : {Severity::blocking, Severity::caution, Severity::note})
        for (const RouteOutcome* route : {&c.printed, &c.machined})
            for (const RouteWarning& warning : route->warnings)
                if (warning.severity == severity)
                    lines.push_back(std::string(nameOf(route->kind)) + ": " + warning.text);
    return lines;
}

std::string originMark(Origin origin) {
    return origin == Origin::typed ? ", typed" : origin == Origin::measured ? ", measured" : "";
}

/// Each route ranks its own by influence; the two lists are merged in turn.
std::vector<std::pair<std::string, std::string>> assumptionLines(const Comparison& c) {
    std::vector<std::pair<std::string, std::string>> lines;
    const std::size_t most = std::max(c.printed.assumptions.size(), c.machined.assumptions.size());
    for (std::size_t i = 0; i < most; ++i)
        for (const RouteOutcome* route : {&c.printed, &c.machined}) {
            if (i >= route->assumptions.size()) continue;
            const Assumption& a = route->assumptions[i];
            std::string value = describeInput(a.figure) + originMark(a.figure.origin);
            if (!a.effectOn.empty()) value += ", moves " + a.effectOn;
            lines.emplace_back(std::string(nameOf(route->kind)) + ", " + a.name, std::move(value));
        }
    return lines;
}

std::vector<std::string> cautionLines(const Comparison& c) {
    std::vector<std::string> lines;
    for (const RouteOutcome* route : {&c.printed, &c.machined})
        for (const std::string& caution : route->cautions)
            if (std::find(lines.begin(), lines.end(), caution) == lines.end()) lines.push_back(caution);
    lines.emplace_back(
        "The machines' manuals, material safety data sheets, local codes and licensed practice come before this page; "
        "an estimate does not replace a test where a failing part can hurt someone.");
    return lines;
}

/// Words of a note that are keys of the source table.
void collectKeys(const std::string& note, const Shop& shop, std::set<std::string>& keys) {
    std::string word;
    const auto end = [&] {
        if (shop.sources.count(word)) keys.insert(word);
        word.clear();
    };
    for (const char c : note) {
        if (std::isalnum(static_cast<unsigned char>(c)) || c == '-' || c == '_')
            word += c;
        else
            end();
    }
    end();
}

std::vector<std::string> sourceLines(const Comparison& c, const Shop& shop) {
    std::set<std::string> keys;
    for (const RouteOutcome* route : {&c.printed, &c.machined}) {
        for (const auto& [question, figure] : route->figures)
            collectKeys(figure.note, shop, keys);
        for (const auto& [question, working] : route->workings)
            collectKeys(working, shop, keys);
        for (const auto& [name, figure] : route->details)
            collectKeys(figure.note, shop, keys);
        for (const Assumption& assumption : route->assumptions)
            collectKeys(assumption.figure.note, shop, keys);
    }
    std::vector<std::string> lines;
    for (const std::string& key : keys)
        lines.push_back(key + ": " + shop.sources.at(key).text);
    return lines;
}

std::string firstSentence(const std::string& text) {
    const auto cut = text.find(". ");
    return cut == std::string::npos ? text : text.substr(0, cut + 1);
}

void fillTitleBlock(PageContent& page, const Project& project, const Comparison& c) {
    page.title = c.part.name + ": print or machine";
    page.projectTitle = project.title;
    page.partName = c.part.name;
    page.shape = shapeText(c);
    page.identification = project.identification;
    page.author = project.author;
    page.date = project.date;
    page.documentType = "Comparison of two ways to make a part";
    page.sheet = "1 of 1";
    page.programVersion = kProgramVersion;
    page.fileHash = contentHash(projectJson(project));
}

}  // namespace

PageContent pageContent(const Project& project, const Comparison& comparison, const Sweep* whatIf, const Shop& shop) {
    PageContent page;
    fillTitleBlock(page, project, comparison);
    page.isDraft = comparison.fidelity == Fidelity::draft;
    page.verdict = comparison.verdict.sentence;
    page.reasons = comparison.verdict.reasons;
    page.wouldChange = comparison.verdict.wouldChange;
    page.requirement = requirementLines(comparison);
    page.risks = riskLines(comparison);
    page.cautions = cautionLines(comparison);
    page.sources = sourceLines(comparison, shop);
    page.printedRecipe = comparison.printed.recipe;
    page.machinedRecipe = comparison.machined.recipe;
    page.rows = pageRows(comparison);
    page.assumptions = assumptionLines(comparison);
    page.decisionRule = firstSentence(comparison.verdict.decisionRule);
    page.bandMeaning = "In brackets: bounds by sources, load spread and model, not a statistical interval.";
    if (whatIf) fillPlot(page, *whatIf, comparison);
    return page;
}

}  // namespace waybench
