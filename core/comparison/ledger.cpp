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

bool isAlike(const Figure& a, const Figure& b) {
    return a.value == b.value && a.low == b.low && a.high == b.high;
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

std::vector<LedgerRow> ledgerOf(const RouteOutcome& printed, const RouteOutcome& machined, const Part& part,
                                std::size_t loadCase) {
    std::vector<LedgerRow> rows;
    const auto rowOf = [&](const QuestionText& text, std::size_t index) {
        const bool hangs = hangsOnLoads(text.question);
        const LoadCase& of = part.loadCaseAt(index);
        LedgerRow row;
        row.question = text.question;
        row.key = text.key;
        row.title = text.title;
        row.meaning = text.meaning;
        if (hangs && part.loadCaseCount() > 1) {
            row.title += ", " + of.name;
            row.meaning += index == loadCase ? " Load case '" + of.name + "', the one shown of several."
                                             : " Load case '" + of.name + "'.";
        }
        row.loadCase = hangs ? index : 0;
        row.isFurther = hangs && index != loadCase;
        row.unit = text.unit;
        row.printed = printed.at(text.question, index);
        row.machined = machined.at(text.question, index);
        row.printedWorking = printed.workingOf(text.question, index);
        row.machinedWorking = machined.workingOf(text.question, index);
        setLimit(row, of);
        if (row.isFurther)
            row.ahead = LedgerRow::Ahead::not_ranked;
        else
            setAhead(row, text, printed.feasible && machined.feasible);
        return row;
    };
    for (const QuestionText& text : questions()) {
        rows.push_back(rowOf(text, loadCase));
        if (!rows.back().limit) continue;
        const LedgerRow shown = rows.back();
        for (std::size_t i = 0; i < part.loadCaseCount(); ++i) {
            if (i == loadCase) continue;
            LedgerRow further = rowOf(text, i);
            const bool saysNothingNew = isAlike(further.printed, shown.printed) &&
                                        isAlike(further.machined, shown.machined) && further.limit == shown.limit;
            if (!saysNothingNew) rows.push_back(std::move(further));
        }
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
