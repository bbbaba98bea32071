#pragma once
#include <optional>
#include <string>
#include <vector>

#include "core/bench/shop.h"
#include "core/comparison/part.h"
#include "core/route/outcome.h"

namespace waybench {

/// upper bound passes / bounds straddle the limit / value side fails
enum class Standing { passes, uncertain, fails };
const char* nameOf(Standing standing);

/// A hard requirement held against one route.
struct Requirement {
    std::string key;   ///< "deflection", "strength", "temperature", "fits_machine", "can_be_made"
    std::string text;  ///< "deflection 0.21 mm (0.18 to 0.26) against 0.10 mm: fails by a factor of 2.1"
    Standing standing = Standing::passes;
    double factor = 1;         ///< demand over capacity on the value: > 1 fails
    std::size_t loadCase = 0;  ///< which it is about; 0 where it does not hang on the loads

    bool hangsOnLoads() const { return key == "deflection" || key == "strength" || key == "temperature"; }
};

/// One line of the ledger: the question, both answers, the limit, who is ahead.
struct LedgerRow {
    Question question;
    std::string key, title, meaning;
    Unit unit;
    Figure printed, machined;
    std::optional<double> limit;
    bool limitIsUpper = true;
    enum class Ahead { printed, machined, no_difference, not_ranked } ahead = Ahead::no_difference;
    std::string aheadText;  ///< "machined, 5.2 times stiffer" or "no difference"
    std::string printedWorking, machinedWorking;
    std::size_t loadCase = 0;  ///< whose figures these are, both routes'; 0 where they do not hang on the loads
    bool isFurther = false;    ///< of another load case than the worst: shown, limited, not ranked
};

enum class Choice { printed, machined, neither };
const char* nameOf(Choice choice);

struct Verdict {
    Choice choice = Choice::neither;
    std::string sentence;
    std::vector<std::string> reasons;
    std::vector<std::string> wouldChange;        ///< what would turn it
    std::string decisionRule;                    ///< how bands were used
    double printedScore = 0, machinedScore = 0;  ///< ranking by weights, 0..1, both feasible only
};

struct Comparison {
    Part part;
    Fidelity fidelity = Fidelity::standard;
    RouteOutcome printed, machined;
    std::vector<Requirement> printedRequirements, machinedRequirements;
    std::vector<LedgerRow> ledger;
    Verdict verdict;
    /// The load case with the greatest demand over capacity over both routes, on the values. Its figures stand in both
    /// outcomes, in the ledger's ranked rows and in the views, so that like is compared with like.
    std::size_t worstCase = 0;

    const RouteOutcome& outcome(RouteKind route) const { return route == RouteKind::printed ? printed : machined; }
    RouteOutcome& outcome(RouteKind route) { return route == RouteKind::printed ? printed : machined; }
};

/// The whole comparison of one part. @param folder base of relative file paths
/// @throws InputFault, Cancelled
Comparison compare(const Part& part, const std::filesystem::path& folder, const Shop& shop, const std::string& tariff,
                   Fidelity fidelity, const Task& task);
/// Worst load case, ledger and verdict from two outcomes, without computing them again (weights changed).
void judge(Comparison& comparison);
/// The same with the load case to be shown given, worst or not: points of one curve are of one load case.
void judgeShowing(Comparison& comparison, std::size_t loadCase);

/// The document of resources/schema/comparison.schema.json; keys ordered, no clock, no path: same input, same bytes.
std::string comparisonJson(const Comparison& comparison);

}  // namespace waybench
