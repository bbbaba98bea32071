#pragma once
#include <string>
#include <vector>

#include "core/comparison/evaluator.h"
#include "core/fault/input_fault.h"

namespace waybench {

/// Where one route's deflection meets its limit: in the asked range, or a little beside it. Window and command line
/// both ask here and say it in the same words.
struct SolvedLimit {
    RouteKind route = RouteKind::printed;
    std::optional<Sized> sized;       ///< empty: nowhere in the searched range, untouched, or at fault
    double from = 0, to = 0;          ///< asked
    double least = 0, most = 0;       ///< searched: wider than asked where a length needed it
    bool holdsInRange = false;        ///< over the whole asked range
    bool isUntouched = false;         ///< the variable belongs to the other route alone
    std::optional<InputFault> fault;  ///< why it could not be solved

    /// The value lies outside the asked range.
    bool isBeside() const { return sized && (sized->at < from || sized->at > to); }
};

/// solveForLimit in the range; a length that meets its limit throughout it, or nowhere in it, is looked for from an
/// eighth of the start to twice the end too, inside the variable's own range. Faults of solving are kept in the answer.
/// @throws Cancelled
SolvedLimit solveInOrBeside(const Part& part, const std::filesystem::path& folder, const Shop& shop,
                            const std::string& tariff, const Variable& variable, RouteKind route, double from,
                            double to, Fidelity fidelity, const Task& task);
SolvedLimit solveInOrBesideBy(const Evaluator& evaluate, const Part& part, const Variable& variable, RouteKind route,
                              double from, double to, Fidelity fidelity, const Task& task);

/// "printed holds by its value from 18.1 mm, beyond this range"; the number is rounded to the side that holds.
std::string wordsOf(const SolvedLimit& solved, const Variable& variable);

/// The route's crossing with its limit moves to the solved-for place, which is nearer the truth than the line between
/// two points, and is said anew; so no place is said twice with two numbers. Crossings must be of the deflection.
void takeSolved(std::vector<Crossing>& found, const SolvedLimit& solved, const Variable& variable);

}  // namespace waybench
