#include "core/comparison/ranking.h"

#include <algorithm>
#include <cmath>

#include "core/comparison/judgement.h"

namespace waybench {

Ranking rankingOf(const Comparison& comparison) {
    Ranking ranking;
    double sum = 0;
    for (const LedgerRow& row : comparison.ledger) {
        if (row.isFurther) continue;
        const double weight = weightOf(comparison.part, row.question);
        const double advantage = advantageOf(row);
        ranking.weightSum += weight;
        sum += weight * advantage;
        if (weight <= 0 || advantage == 0) continue;
        (advantage > 0 ? ranking.printedAhead : ranking.machinedAhead).push_back(&row);
    }
    if (ranking.weightSum > 0) ranking.balance = sum / ranking.weightSum;
    const auto heavier = [&](const LedgerRow* a, const LedgerRow* b) {
        return weightOf(comparison.part, a->question) * std::fabs(advantageOf(*a)) >
               weightOf(comparison.part, b->question) * std::fabs(advantageOf(*b));
    };
    std::stable_sort(ranking.printedAhead.begin(), ranking.printedAhead.end(), heavier);
    std::stable_sort(ranking.machinedAhead.begin(), ranking.machinedAhead.end(), heavier);
    return ranking;
}

}  // namespace waybench
