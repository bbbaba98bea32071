#include <algorithm>
#include <cmath>

#include "core/comparison/judgement.h"
#include "core/comparison/ranking.h"
#include "core/comparison/wording.h"
#include "core/quantity/quantity_text.h"

namespace waybench {

namespace {

const std::vector<Requirement>& requirementsOf(const Comparison& c, RouteKind route) {
    return route == RouteKind::printed ? c.printedRequirements : c.machinedRequirements;
}

/// The requirement that speaks for a route that does not hold: that it cannot be made at all, else the worst failing
/// one, else the first uncertain one. nullptr when all hold.
const Requirement* worstOf(const std::vector<Requirement>& requirements) {
    const Requirement* worst = nullptr;
    for (const Requirement& r : requirements) {
        if (r.standing == Standing::passes) continue;
        const bool isWorse = !worst || (r.standing == Standing::fails && worst->standing == Standing::uncertain) ||
                             (r.standing == worst->standing && r.factor >= worst->factor);
        if (isWorse) worst = &r;
    }
    return worst;
}

std::string valueText(double value, Unit unit) {
    return describeValue(Figure::exact(value, unit));
}

/// "cannot be made this way: At (1 2 3) mm ...: split it." with the warning's text cut before its remedy, fit to stand
/// inside a sentence.
std::string withoutRemedy(const std::string& text) {
    const auto colon = text.find(": ");
    if (colon == std::string::npos) return text;
    std::string statement = text.substr(colon + 2);
    for (const char* end : {": ", "; ", ". "})
        statement = statement.substr(0, statement.find(end));
    while (!statement.empty() && (statement.back() == '.' || statement.back() == ' '))
        statement.pop_back();
    const auto isUpper = [](char c) { return c >= 'A' && c <= 'Z'; };
    if (statement.size() > 1 && isUpper(statement[0]) && !isUpper(statement[1]))
        statement[0] = static_cast<char>(statement[0] - 'A' + 'a');
    return text.substr(0, colon + 2) + statement;
}

std::string failureClause(const Comparison& c, RouteKind route, const Requirement& r) {
    const std::string noun = nounOf(route);
    const RouteOutcome& outcome = c.outcome(route);
    const LoadCase& loadCase = c.part.loadCaseAt(r.loadCase);
    const std::string under = c.part.loadCaseCount() > 1 ? " under '" + loadCase.name + "'" : "";
    const bool isUncertain = r.standing == Standing::uncertain;
    if (r.key == "deflection") {
        const Figure size = magnitudeOf(outcome.at(Question::deflection, r.loadCase));
        const std::string limit = valueText(loadCase.deflectionLimit_mm, Unit::millimetre);
        if (isUncertain)
            return noun + under + " may bend more than the " + limit +
                   " allowed: " + describe(size, loadCase.deflectionLimit_mm);
        const auto& structure = outcome.cases.empty() ? outcome.structure : outcome.cases.at(r.loadCase).structure;
        const bool isBeyond = structure && structure->isBeyondLinear;
        return noun + under + " bends " + describe(size, loadCase.deflectionLimit_mm) + " where " + limit +
               " is allowed, too much " + byHowMuch(r.factor) +
               (isBeyond ? ", far beyond what linear statics can say (are sizes and loads in the units meant?)" : "");
    }
    if (r.key == "strength") {
        const std::string needed = shortNumber(loadCase.strengthFactor, 3);
        const std::string margin = describe(outcome.at(Question::strength_margin, r.loadCase), loadCase.strengthFactor);
        if (isUncertain)
            return noun + "'s strength margin" + under + " may fall below the " + needed + " required: " + margin;
        return noun + "'s strength margin" + under + " is " + margin + " where " + needed +
               " is required, too little " + byHowMuch(r.factor);
    }
    if (r.key == "temperature") return noun + ": " + withoutRemedy(r.text);
    return noun + " " + withoutRemedy(r.text);
}

/// A part that breaks is told so even where another requirement fails by more.
std::string breakingClause(const Comparison& c, RouteKind route, const Requirement& told) {
    if (told.key != "deflection") return "";
    const Requirement* breaks = nullptr;
    for (const Requirement& r : requirementsOf(c, route))
        if (r.key == "strength" && r.standing == Standing::fails && (!breaks || r.factor > breaks->factor)) breaks = &r;
    if (!breaks) return "";
    const LoadCase& loadCase = c.part.loadCaseAt(breaks->loadCase);
    const Figure& margin = c.outcome(route).at(Question::strength_margin, breaks->loadCase);
    return ", and its strength margin" + (c.part.loadCaseCount() > 1 ? " under '" + loadCase.name + "'" : "") + " is " +
           describe(margin, loadCase.strengthFactor) + " where " + shortNumber(loadCase.strengthFactor, 3) +
           " is required";
}

/// How sure it is that the other route does not hold.
std::string surenessOfFailure(const Comparison& c, RouteKind failing, const Requirement& r) {
    const RouteOutcome& outcome = c.outcome(failing);
    const std::string noun = nounOf(failing);
    if (r.standing == Standing::uncertain) return noun + " might hold too, its bounds do not show it";
    if (r.key == "fits_machine" || r.key == "can_be_made") return "this does not hang on any bound";
    const LoadCase& loadCase = c.part.loadCaseAt(r.loadCase);
    bool favourableFails = true;
    if (r.key == "deflection")
        favourableFails = magnitudeOf(outcome.at(Question::deflection, r.loadCase)).low > loadCase.deflectionLimit_mm;
    else if (r.key == "strength")
        favourableFails = outcome.at(Question::strength_margin, r.loadCase).high < loadCase.strengthFactor;
    else if (r.key == "temperature")
        favourableFails = outcome.at(Question::temperature_margin, r.loadCase).high < 0;
    return favourableFails ? "this is clear, as even the favourable bound of " + noun + " fails"
                           : "this is likely but not certain, as the favourable bound of " + noun + " would hold";
}

std::string holdingClause(const Comparison& c, RouteKind route) {
    const std::size_t worst = worstDemand(c.outcome(route), c.part, Question::deflection).loadCase;
    const LoadCase& loadCase = c.part.loadCaseAt(worst);
    const Figure size = magnitudeOf(c.outcome(route).at(Question::deflection, worst));
    return std::string(nounOf(route)) + " holds every requirement, its deflection " +
           describe(size, loadCase.deflectionLimit_mm) + " against " +
           valueText(loadCase.deflectionLimit_mm, Unit::millimetre) +
           (c.part.loadCaseCount() > 1 ? " in the worst load case, '" + loadCase.name + "'" : "");
}

std::string imperative(RouteKind route) {
    return route == RouteKind::printed ? "Print it" : "Machine it";
}

std::string gerund(RouteKind route) {
    return route == RouteKind::printed ? "printing" : "machining";
}

/// "cheaper by a factor of 2.1" from "printed, cheaper by a factor of 2.1"
std::string advantageText(const LedgerRow& row) {
    const auto cut = row.aheadText.find(", ");
    return cut == std::string::npos ? row.aheadText : row.aheadText.substr(cut + 2);
}

std::string advantagesText(const std::vector<const LedgerRow*>& rows, std::size_t most) {
    std::string text;
    const std::size_t count = std::min(most, rows.size());
    for (std::size_t i = 0; i < count; ++i)
        text += (i == 0 ? "" : i + 1 == count ? " and " : ", ") + advantageText(*rows[i]);
    return text;
}

std::string surenessOfRanking(double balance) {
    constexpr double kClear = 0.25, kNarrow = 0.08;  // shares of the largest possible advantage; our own choice
    const double size = std::fabs(balance);
    return size >= kClear ? "a clear lead" : size >= kNarrow ? "a moderate lead" : "a narrow lead";
}

/// Cheaper on the values; at equal cost the one that binds a person less, then the print.
RouteKind cheaperOf(const Comparison& c) {
    for (const Question question : {Question::cost, Question::hands_on_time, Question::elapsed_time}) {
        const double p = c.printed.at(question).value, m = c.machined.at(question).value;
        if (p != m) return p < m ? RouteKind::printed : RouteKind::machined;
    }
    return RouteKind::printed;
}

Choice choiceOf(RouteKind route) {
    return route == RouteKind::printed ? Choice::printed : Choice::machined;
}

void decideByRequirements(const Comparison& c, RouteKind holding, Verdict& verdict) {
    const RouteKind failing = otherThan(holding);
    const Requirement& worst = *worstOf(requirementsOf(c, failing));
    verdict.choice = choiceOf(holding);
    verdict.sentence = imperative(holding) + ": " + failureClause(c, failing, worst) +
                       breakingClause(c, failing, worst) + ", while " + holdingClause(c, holding) + "; " +
                       surenessOfFailure(c, failing, worst) + ".";
}

void decideByRanking(const Comparison& c, Verdict& verdict) {
    const Ranking ranking = rankingOf(c);
    verdict.printedScore = 0.5 + 0.5 * ranking.balance;
    verdict.machinedScore = 1 - verdict.printedScore;
    if (ranking.isBalanced()) {
        const RouteKind cheaper = cheaperOf(c);
        const bool noneDiffers = ranking.printedAhead.empty() && ranking.machinedAhead.empty();
        const bool costsDiffer = !bandsOverlap(c.printed.at(Question::cost), c.machined.at(Question::cost));
        verdict.choice = choiceOf(cheaper);
        verdict.sentence = "Either way will do, both hold every requirement and " +
                           std::string(noneDiffers ? "no ranked figure differs beyond its bounds"
                                                   : "their advantages balance under these weights") +
                           ": " + (cheaper == RouteKind::printed ? "print it" : "machine it") + ", the cheaper one (" +
                           describeValue(c.outcome(cheaper).at(Question::cost)) + " against " +
                           describeValue(c.outcome(otherThan(cheaper)).at(Question::cost)) +
                           (costsDiffer ? ")." : ", a difference within the bounds).");
        return;
    }
    const RouteKind ahead = ranking.balance > 0 ? RouteKind::printed : RouteKind::machined;
    const auto& mine = ahead == RouteKind::printed ? ranking.printedAhead : ranking.machinedAhead;
    const auto& theirs = ahead == RouteKind::printed ? ranking.machinedAhead : ranking.printedAhead;
    verdict.choice = choiceOf(ahead);
    verdict.sentence = imperative(ahead) + ": both ways hold every requirement, and " + gerund(ahead) + " is " +
                       advantagesText(mine, 2);
    if (!theirs.empty())
        verdict.sentence += ", though " + gerund(otherThan(ahead)) + " is " + advantagesText(theirs, 1);
    if (theirs.empty()) verdict.sentence += ", and behind on nothing that counts";
    verdict.sentence += "; under these weights " + surenessOfRanking(ranking.balance) + ".";
}

void decideAgainstBoth(const Comparison& c, Verdict& verdict) {
    verdict.choice = Choice::neither;
    const Requirement& p = *worstOf(c.printedRequirements);
    const Requirement& m = *worstOf(c.machinedRequirements);
    verdict.sentence = "Neither way as it stands: " + failureClause(c, RouteKind::printed, p) +
                       breakingClause(c, RouteKind::printed, p) + ", and " + failureClause(c, RouteKind::machined, m) +
                       breakingClause(c, RouteKind::machined, m) + ".";
}

void addReasons(const Comparison& c, Verdict& verdict) {
    if (c.part.loadCaseCount() > 1)
        verdict.reasons.push_back("worst of " + std::to_string(c.part.loadCaseCount()) + " load cases: '" +
                                  c.part.loadCaseAt(c.worstCase).name + "'");
    for (const RouteKind route : {RouteKind::printed, RouteKind::machined})
        for (const Requirement& r : requirementsOf(c, route))
            if (r.standing != Standing::passes || r.key == "deflection")
                verdict.reasons.push_back(std::string(nameOf(route)) + ": " + r.text);
    const Ranking ranking = rankingOf(c);
    constexpr std::size_t kMost = 3;
    for (const auto* rows : {&ranking.printedAhead, &ranking.machinedAhead})
        for (std::size_t i = 0; i < std::min(kMost, rows->size()); ++i)
            verdict.reasons.push_back((*rows)[i]->title + ": " + (*rows)[i]->aheadText);
}

}  // namespace

Verdict verdictOf(const Comparison& c) {
    Verdict verdict;
    const bool printedHolds = allPass(c.printedRequirements), machinedHolds = allPass(c.machinedRequirements);
    if (printedHolds && machinedHolds)
        decideByRanking(c, verdict);
    else if (printedHolds || machinedHolds)
        decideByRequirements(c, printedHolds ? RouteKind::printed : RouteKind::machined, verdict);
    else
        decideAgainstBoth(c, verdict);
    verdict.decisionRule =
        "A requirement passes only if the unfavourable bound passes. Deflection must hold at its upper bound, margins "
        "at "
        "their lower; a value that holds while its bound does not is uncertain, not passed. A route is ahead on a row "
        "only where the two bands do not touch. Requirements come first; only between routes that pass them all do "
        "the weights decide, each row by the logarithm of its ratio, a factor of ten counting fully.";
    if (c.part.loadCaseCount() > 1)
        verdict.decisionRule +=
            " Every load case must hold; figures that hang on the loads are those of one load case for both routes, "
            "the one with the greatest demand over capacity on the values.";
    addReasons(c, verdict);
    verdict.wouldChange = whatWouldChange(c, verdict);
    if (verdict.choice == Choice::neither && !verdict.wouldChange.empty())
        verdict.sentence += " What would help: " + verdict.wouldChange.front() + ".";
    return verdict;
}

const char* nameOf(Choice choice) {
    switch (choice) {
        case Choice::printed:
            return "printed";
        case Choice::machined:
            return "machined";
        case Choice::neither:
            break;
    }
    return "neither";
}

void judge(Comparison& c) {
    std::size_t worst = 0;
    double most = -1;
    for (const RouteKind route : {RouteKind::printed, RouteKind::machined})
        for (const Question question : {Question::deflection, Question::strength_margin})
            if (const WorstDemand d = worstDemand(c.outcome(route), c.part, question); d.demand > most) {
                worst = d.loadCase;
                most = d.demand;
            }
    c.worstCase = worst;
    judgeShowing(c, worst);
}

void judgeShowing(Comparison& c, std::size_t loadCase) {
    showCase(c.printed, loadCase);
    showCase(c.machined, loadCase);
    c.printedRequirements = requirementsOf(c.printed, c.part);
    c.machinedRequirements = requirementsOf(c.machined, c.part);
    c.ledger = ledgerOf(c.printed, c.machined, c.part, loadCase);
    c.verdict = verdictOf(c);
}

}  // namespace waybench
