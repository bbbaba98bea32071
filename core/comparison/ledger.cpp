#include <algorithm>
#include <cmath>

#include "core/comparison/judgement.h"
#include "core/comparison/wording.h"

namespace waybench {

namespace {

/// Larger over smaller; infinite when the smaller is not positive.
double ratioOf(double a, double b) {
    const double larger = std::max(a, b), smaller = std::min(a, b);
    return smaller > 0 ? larger / smaller : INFINITY;
}

bool countsBySize(Question question) {
    return question == Question::deflection || question == Question::deflection_max;
}

std::string workingOf(const RouteOutcome& outcome, Question question) {
    const auto it = outcome.workings.find(question);
    return it == outcome.workings.end() ? std::string() : it->second;
}

void setLimit(LedgerRow& row, const LoadCase& loadCase) {
    switch (row.question) {
        case Question::deflection:
            row.limit = loadCase.deflectionLimit_mm;
            break;
        case Question::strength_margin:
            row.limit = loadCase.strengthFactor;
            row.limitIsUpper = false;
            break;
        case Question::temperature_margin:
            row.limit = 0.0;
            row.limitIsUpper = false;
            break;
        default:
            break;
    }
}

void setAhead(LedgerRow& row, const QuestionText& text, bool bothCanBeMade) {
    if (!text.isRanked) {
        row.ahead = LedgerRow::Ahead::not_ranked;
        return;
    }
    if (!bothCanBeMade) {
        row.ahead = LedgerRow::Ahead::not_ranked;
        row.aheadText = "not ranked: one way cannot be made";
        return;
    }
    const Figure p = countsBySize(row.question) ? magnitudeOf(row.printed) : row.printed;
    const Figure m = countsBySize(row.question) ? magnitudeOf(row.machined) : row.machined;
    if (bandsOverlap(p, m)) {
        row.ahead = LedgerRow::Ahead::no_difference;
        row.aheadText = "no difference";
        return;
    }
    const bool printedAhead = (p.value < m.value) == text.smallerIsBetter;
    row.ahead = printedAhead ? LedgerRow::Ahead::printed : LedgerRow::Ahead::machined;
    row.aheadText = std::string(printedAhead ? "printed, " : "machined, ") + comparativeOf(row.question);
    const double ratio = ratioOf(p.value, m.value);
    if (std::isfinite(ratio)) row.aheadText += " " + byHowMuch(ratio);
}

}  // namespace

std::vector<LedgerRow> ledgerOf(const RouteOutcome& printed, const RouteOutcome& machined, const LoadCase& loadCase) {
    std::vector<LedgerRow> rows;
    for (const QuestionText& text : questions()) {
        LedgerRow row;
        row.question = text.question;
        row.key = text.key;
        row.title = text.title;
        row.meaning = text.meaning;
        row.unit = text.unit;
        row.printed = printed.at(text.question);
        row.machined = machined.at(text.question);
        row.printedWorking = workingOf(printed, text.question);
        row.machinedWorking = workingOf(machined, text.question);
        setLimit(row, loadCase);
        setAhead(row, text, printed.feasible && machined.feasible);
        rows.push_back(std::move(row));
    }
    return rows;
}

double advantageOf(const LedgerRow& row) {
    constexpr double kFullAdvantage = 10;  // a factor of ten counts fully, more does not count more
    if (row.ahead != LedgerRow::Ahead::printed && row.ahead != LedgerRow::Ahead::machined) return 0;
    const bool bySize = countsBySize(row.question);
    const double ratio = ratioOf(bySize ? std::fabs(row.printed.value) : row.printed.value,
                                 bySize ? std::fabs(row.machined.value) : row.machined.value);
    const double size = std::isfinite(ratio) ? std::min(1.0, std::log(ratio) / std::log(kFullAdvantage)) : 1.0;
    return row.ahead == LedgerRow::Ahead::printed ? size : -size;
}

double weightOf(const Part& part, Question question) {
    const QuestionText& text = textOf(question);
    if (!text.isRanked) return 0;
    const auto it = part.weights.find(text.key);
    return it == part.weights.end() ? text.standardWeight : it->second;
}

}  // namespace waybench
