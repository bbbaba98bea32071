#include <algorithm>
#include <cmath>

#include "core/comparison/judgement.h"
#include "core/comparison/ranking.h"
#include "core/comparison/wording.h"
#include "core/quantity/quantity_text.h"

namespace waybench {

namespace {

struct Side {
    RouteKind route;
    const RouteOutcome& outcome;
    const std::vector<Requirement>& requirements;
};

std::string percent(double share) {
    return shortNumber(100 * share) + " %";
}

/// Statics is linear here: deflection and stress follow the load in proportion.
std::string remedyFor(const Side& side, const Requirement& r, const Part& part) {
    const std::string noun = nounOf(side.route);
    const LoadCase& loadCase = part.loadCaseAt(r.loadCase);
    const std::string under = part.loadCaseCount() > 1 ? " under '" + loadCase.name + "'" : "";
    if (r.key == "deflection") {
        const Figure size = magnitudeOf(side.outcome.at(Question::deflection, r.loadCase));
        if (!(size.high > 0)) return {};
        const double excess = size.high / std::max(loadCase.deflectionLimit_mm, 1e-9);
        std::string text = noun + " would hold" + under + " with " + shortNumber(1.005 * size.high, 3) +
                           " mm allowed, or about " + percent(1 / excess) +
                           " of the load; the what-if shows which thickness would do";
        if (r.standing == Standing::uncertain)
            text = "a measured deflection or modulus would narrow the band, for the value itself holds; else " + text;
        return text;
    }
    if (r.key == "strength") {
        const double share = side.outcome.at(Question::strength_margin, r.loadCase).low / loadCase.strengthFactor;
        return share > 0 ? noun + " would be strong enough" + under + " with about " + percent(share) + " of the load"
                         : std::string();
    }
    if (r.key == "temperature")
        return noun + " would hold" + under + " up to " +
               describeValue(Figure::exact(std::round(loadCase.temperature_celsius +
                                                      side.outcome.at(Question::temperature_margin, r.loadCase).low),
                                           Unit::celsius)) +
               ", or in a material that stands more heat";
    std::string text = noun + " " + r.text;
    while (text.back() == '.')
        text.pop_back();
    return text;
}

/// The requirement that would give way first as the load grows, and by how much the load may grow.
std::string nextLimit(const Side& side, const Part& part) {
    double byDeflection = INFINITY, byStrength = INFINITY;
    for (std::size_t i = 0; i < part.loadCaseCount(); ++i) {
        const LoadCase& loadCase = part.loadCaseAt(i);
        const Figure size = magnitudeOf(side.outcome.at(Question::deflection, i));
        if (size.high > 0) byDeflection = std::min(byDeflection, loadCase.deflectionLimit_mm / size.high);
        if (loadCase.strengthFactor > 0)
            byStrength =
                std::min(byStrength, side.outcome.at(Question::strength_margin, i).low / loadCase.strengthFactor);
    }
    const double growth = std::min(byDeflection, byStrength);
    if (!std::isfinite(growth)) return {};
    const std::string what = byDeflection <= byStrength ? "deflection" : "strength";
    return what + " is the next limit of " + nounOf(side.route) + ": the load may grow " +
           (growth >= 2 ? "to " + shortNumber(growth) + " times itself" : "by " + percent(growth - 1)) +
           " before its unfavourable bound meets it";
}

std::string heatLeft(const Side& side, const Part& part) {
    constexpr double kWorthSaying_K = 20;
    double margin = INFINITY;
    for (std::size_t i = 0; i < part.loadCaseCount(); ++i)
        margin = std::min(margin, side.outcome.at(Question::temperature_margin, i).low);
    if (!(margin < kWorthSaying_K)) return {};
    return nounOf(side.route) + std::string(" may get no more than ") +
           describeValue(Figure::exact(std::floor(margin), Unit::kelvin)) + " warmer than the load case says";
}

/// The single weight whose change is smallest that turns the ranking.
std::string weightThatTurns(const Comparison& c) {
    const Ranking ranking = rankingOf(c);
    if (ranking.weightSum <= 0 || ranking.isBalanced()) return {};
    const double sum = ranking.balance * ranking.weightSum;
    const LedgerRow* turning = nullptr;
    double turningWeight = 0, smallestChange = 0;
    for (const LedgerRow& row : c.ledger) {
        const double advantage = advantageOf(row);
        if (advantage == 0) continue;
        const double weight = weightOf(c.part, row.question);
        const double turned = weight - sum / advantage;
        if (turned < 0 || turned > 1) continue;
        const double change = std::fabs(turned - weight);
        if (turning && change >= smallestChange) continue;
        turning = &row;
        turningWeight = turned;
        smallestChange = change;
    }
    if (!turning) return "no weight on its own turns the ranking";
    return "the ranking turns when '" + turning->title + "' weighs " + shortNumber(turningWeight) + " instead of " +
           shortNumber(weightOf(c.part, turning->question));
}

/// A route that does not hold but would be preferred is worth mending.
std::string worthMending(const Comparison& c, RouteKind failing) {
    const auto& requirements = failing == RouteKind::printed ? c.printedRequirements : c.machinedRequirements;
    for (const Requirement& r : requirements)
        if (r.standing != Standing::passes && (r.key == "fits_machine" || r.key == "can_be_made")) return {};
    const Ranking ranking = rankingOf(c);
    const double balance = failing == RouteKind::printed ? ranking.balance : -ranking.balance;
    const auto& ahead = failing == RouteKind::printed ? ranking.printedAhead : ranking.machinedAhead;
    if (balance < Ranking::kBalanced || ahead.empty()) return {};
    return std::string("made to hold, ") + nounOf(failing) + " would be preferred under these weights (" +
           ahead.front()->aheadText + ")";
}

}  // namespace

std::vector<std::string> whatWouldChange(const Comparison& c, const Verdict& verdict) {
    std::vector<std::string> lines;
    const auto add = [&](std::string line) {
        if (!line.empty()) lines.push_back(std::move(line));
    };
    const Side printedSide{RouteKind::printed, c.printed, c.printedRequirements};
    const Side machinedSide{RouteKind::machined, c.machined, c.machinedRequirements};
    for (const Side* side : {&printedSide, &machinedSide})
        for (const Requirement& r : side->requirements)
            if (r.standing != Standing::passes) add(remedyFor(*side, r, c.part));
    const bool printedHolds = allPass(c.printedRequirements), machinedHolds = allPass(c.machinedRequirements);
    if (verdict.choice != Choice::neither) {
        const Side& chosen = verdict.choice == Choice::printed ? printedSide : machinedSide;
        add(nextLimit(chosen, c.part));
        add(heatLeft(chosen, c.part));
        if (printedHolds != machinedHolds) add(worthMending(c, otherThan(chosen.route)));
    }
    if (printedHolds && machinedHolds) add(weightThatTurns(c));
    return lines;
}

}  // namespace waybench
