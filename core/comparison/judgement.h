#pragma once
#include <string>
#include <vector>

#include "core/comparison/comparison.h"

namespace waybench {

/// The steps of judge(), each by itself.

/// Hard requirements of one route, in the order deflection, strength, temperature (each once per load case),
/// fits_machine, can_be_made.
///
/// Rule ("passes only if the upper bound passes", a guarded acceptance in the sense of judgement.md 2.5, JCGM 106): the
/// unfavourable bound must hold; the value alone within the limit is "uncertain"; the value beyond it "fails".
std::vector<Requirement> requirementsOf(const RouteOutcome& outcome, const Part& part);
/// How far the worst load case exceeds (> 1) what the question may have: deflection over its limit, required over
/// present margin. For other questions than these two 0.
struct WorstDemand {
    std::size_t loadCase = 0;
    double demand = 0;
};
WorstDemand worstDemand(const RouteOutcome& outcome, const Part& part, Question question);
bool allPass(const std::vector<Requirement>& requirements);
bool anyFails(const std::vector<Requirement>& requirements);

/// All rows in the order of questions(), those that hang on the loads of the load case given. With several load cases
/// the deflection, strength and temperature of the others follow behind their row, named and not ranked, where they
/// differ. A route is ahead only where the bands do not touch.
std::vector<LedgerRow> ledgerOf(const RouteOutcome& printed, const RouteOutcome& machined, const Part& part,
                                std::size_t loadCase = 0);

/// Logarithmic advantage of the printed route on a row, -1 to 1; 0 where the bands touch; 1 at a factor of ten.
double advantageOf(const LedgerRow& row);
/// Weight of a question for this part: the part's own, else the standard one.
double weightOf(const Part& part, Question question);

/// Requirements and ledger must be filled.
Verdict verdictOf(const Comparison& comparison);

/// What would turn the verdict: margins to the next limit, remedies for what fails, weights.
std::vector<std::string> whatWouldChange(const Comparison& comparison, const Verdict& verdict);

}  // namespace waybench
