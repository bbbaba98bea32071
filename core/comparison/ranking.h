#pragma once
#include <vector>

#include "core/comparison/comparison.h"

namespace waybench {

/// The weighted ranking of two routes that both hold (judgement.md 7.1: requirements veto before any sum).
struct Ranking {
    /// Sum of weight times advantage over the sum of weights, -1 (machined) to 1 (printed).
    double balance = 0;
    double weightSum = 0;
    /// Rows with a weight and a difference, largest weighted advantage first (ties in ledger order).
    std::vector<const LedgerRow*> printedAhead, machinedAhead;
    /// Below this the advantages count as balanced.
    static constexpr double kBalanced = 0.02;
    bool isBalanced() const { return balance < kBalanced && balance > -kBalanced; }
};
/// Points into comparison.ledger.
Ranking rankingOf(const Comparison& comparison);

}  // namespace waybench
