#pragma once
#include <functional>
#include <optional>

#include "core/comparison/comparison.h"

namespace waybench {

/// Something a what-if can vary: a dimension (both routes, or one), a numeric setting, the load, the temperature.
struct Variable {
    std::string name;  ///< "thickness", "printed.infill_share", "machined.thickness", "load", "temperature", "limit"
    std::string label;
    Unit unit = Unit::none;
    double minimum = 0, maximum = 0, current = 0;
    bool isWhole = false;
};
/// All variables of a part, likely ones (thicknesses) first. With several load cases the load and the limit vary in all
/// of them in proportion, the temperature by the same step; values are those of the first.
std::vector<Variable> variablesOf(const Part& part, const Shop& shop);
const Variable& variableNamed(const std::vector<Variable>& all,
                              const std::string& name);  ///< throws "variable_unknown"
/// The part with the variable set. A dimension of both routes replaces what the routes had of their own.
/// @throws InputFault "value_out_of_range", "variable_unknown" and what the settings refuse
Part with(const Part& part, const Variable& variable, double value);

struct SweepPoint {
    double at = 0;
    bool valid = true;  ///< the shape could be built there
    std::string why;    ///< when not
    Comparison comparison;
};
/// A curve crossing: between routes on a question, or of one route with the limit.
struct Crossing {
    Question question;
    double at = 0, low = 0, high = 0;            ///< high < low never; low/high from the bands, clipped to the range
    bool isLowOpen = false, isHighOpen = false;  ///< the bands still touch at the range's end
    std::optional<RouteKind> route;              ///< set when it is one route meeting its limit
    bool holdsAbove = false;                     ///< the route holds above `at`, else below it
    std::string text;                            ///< see wordsOf
};
/// "machined quicker above 7.1 mm (6.2 to 8.3)"; for a limit the decision rule is kept: "printed surely holds from
/// 13.9 mm, by its value from 13 mm".
std::string wordsOf(const Crossing& crossing, const Variable& variable);
struct Sweep {
    Variable variable;
    std::vector<SweepPoint> points;  ///< ascending
    std::size_t shownCase = 0;       ///< load case whose figures all points show: the worst at the first valid one
};
/// Points in an order that shows the whole range early (ends, middle, quarters ...); onPoint is called for each as it
/// is done, from the calling thread. Returns what was finished when cancelled. A place the part cannot be built at, or
/// a route cannot answer, stays as an invalid point with its reason.
/// @throws InputFault "sweep_range", "sweep_points"
Sweep sweep(const Part& part, const std::filesystem::path& folder, const Shop& shop, const std::string& tariff,
            const Variable& variable, double from, double to, int points, Fidelity fidelity, const Task& task,
            const std::function<void(const SweepPoint&)>& onPoint = {});
/// What the question takes of its limit, so that 1 (temperature: 0 K) is where it just holds: the worst of all load
/// cases by the value and, each by itself, by either bound. The load case that fails first by its bound need not be the
/// one that does by its value. Empty for a question without a limit.
std::optional<Figure> worstAgainstLimit(const SweepPoint& point, RouteKind route, Question question);
/// Crossings between the routes on the question and, where the question has a limit, of each route with it, over all
/// load cases.
/// Interpolated between neighbouring valid points on logarithmic axes where all is positive (powers are straight
/// there), else on plain ones. low/high: where the bands of the two curves begin and cease to touch around the
/// crossing.
std::vector<Crossing> crossings(const Sweep& sweep, Question question);
/// Smallest value of the variable at which the route's deflection just meets its limit, with several load cases that of
/// the one that exceeds its own most: at it or up to 0.2 % below,
/// never above; by bracketing on real evaluations of this route alone. Empty when no value of the range does. Where the
/// limit holds over the whole range, its start. Whole-numbered variables: the smallest that holds. Places that cannot
/// be built are passed over. @throws InputFault "sweep_range", "limit_missing", or the first fault when no place can be
/// built; Cancelled
struct Sized {
    double at = 0;
    Figure deflection;
    bool holdsThroughout = false;  ///< the limit already holds at the start of the range; `at` is that start
    bool holdsAbove = true;        ///< the limit holds above `at`, else below it
};
std::optional<Sized> solveForLimit(const Part& part, const std::filesystem::path& folder, const Shop& shop,
                                   const std::string& tariff, const Variable& variable, RouteKind route, double from,
                                   double to, Fidelity fidelity, const Task& task);
struct SolvedLimit;
/// Points, crossings of every ranked question and the solved-for values (null: nowhere; "fault": why not solved);
/// schema-free, same number rules as comparisonJson.
std::string sweepJson(const Sweep& sweep, const SolvedLimit& printed, const SolvedLimit& machined);
std::string sweepCsv(const Sweep& sweep);  ///< RFC 4180, point, units in the header

}  // namespace waybench
