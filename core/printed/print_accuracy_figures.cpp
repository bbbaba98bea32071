#include <algorithm>
#include <cmath>

#include "core/accuracy/accuracy_budget.h"
#include "core/printed/print_evaluation.h"

namespace waybench::printed {
namespace {

// Sideways holes: the crown sags, 0.2 to 0.5 mm undersize (printed-route.md 5, common practice).
constexpr double kSideways_mm = 0.35, kSidewaysLow_mm = 0.2, kSidewaysHigh_mm = 0.5;
// Share of the shrinkage that scaling the model does not take out (common practice, no source).
constexpr double kShrinkageLeft = 0.2;

}  // namespace

void addAccuracyFigures(const PrintEvaluation& e, RouteOutcome& outcome) {
    const double length = e.job.size_mm.maxCoeff();
    const double longer = std::max(1.0, length / 100);  // printer's figure holds up to 100 mm
    const double shrunk = kShrinkageLeft * length;
    const Figure& tuned = e.printer.accuracy;
    const AccuracyTerm terms[] = {{"printer", tuned.in(Unit::millimetre, longer)},
                                  {"shrinkage left", e.material.shrinkage.in(Unit::millimetre, shrunk)}};
    outcome.figures[Question::accuracy] = rootSumSquare(terms);
    outcome.workings[Question::accuracy] =
        "+/- hypot(" + shown(tuned.value) + " mm per 100 mm, " + shown(100 * kShrinkageLeft) + " % of the shrinkage " +
        shown(100 * e.material.shrinkage.value) + " %) over " + shown(length, 4) + " mm [" + tuned.note + "]";

    double smallest = 0, sideways = 0;
    const Vec3 up = upwardOf(e.recipe);
    for (const Face& f : e.part.solid->faces) {
        if (f.kind != SurfaceKind::cylinder || !f.isHollow || !f.isFullTurn) continue;
        const double diameter = 2 * f.radius_mm;
        if (smallest == 0 || diameter < smallest) smallest = diameter;
        if (std::abs(f.direction.dot(up)) < 0.9 && (sideways == 0 || diameter < sideways)) sideways = diameter;
    }
    const Figure& upright = e.printer.holeUndersize;
    const bool lies = sideways > 0;
    outcome.figures[Question::hole_accuracy] = Figure::bounded(
        lies ? std::max(kSideways_mm, upright.value) : upright.value,
        lies ? std::max(kSidewaysLow_mm, upright.low) : upright.low,
        lies ? std::max(kSidewaysHigh_mm, upright.high) : upright.high, Unit::millimetre, Origin::table, upright.note);
    outcome.workings[Question::hole_accuracy] =
        (smallest == 0 ? std::string("no round hole in the part; a hole through the layers would be undersize by this")
         : lies        ? "hole of " + shown(sideways) + " mm lies in the layers: its crown sags"
                       : "hole of " + shown(smallest) + " mm stands through the layers: undersize on the diameter") +
        " [" + upright.note + "]";

    outcome.figures[Question::setups] = Figure::exact(1, Unit::none);
    outcome.workings[Question::setups] = "one print";
}

}  // namespace waybench::printed
