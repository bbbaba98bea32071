#include <algorithm>
#include <cmath>

#include "core/accuracy/accuracy_budget.h"
#include "core/machined/machining_evaluation.h"
#include "core/machined/tool_stiffness.h"

namespace waybench::machined {
namespace {

constexpr double kRoomSwing_K = 5;  // between cutting and use (common practice, no source)

Figure practice(double value, double low, double high) {
    return Figure::bounded(value, low, high, Unit::millimetre, Origin::defaulted, "common practice, no source");
}

/// Radial deflection at the last pass; a published coefficient set may be off by a factor 2 either way (2.1).
Figure finishingDeflection(const MachiningEvaluation& e) {
    double worst = 0;
    for (const Operation& o : e.work.operations)
        if (o.kind == OperationKind::finishing || o.kind == OperationKind::outline_finish)
            worst = std::max(worst, o.cutting.deflection_mm);
    if (worst <= 0)
        for (const Operation& o : e.work.operations)
            worst = std::max(worst, o.kind == OperationKind::drilling ? 0 : o.cutting.deflection_mm);
    return Figure::bounded(worst, worst / 2, worst * 2, Unit::millimetre);
}

std::string listed(const std::vector<AccuracyTerm>& terms) {
    std::string text;
    for (const AccuracyTerm& t : terms)
        text += (text.empty() ? "" : ", ") + t.name + " " + shown(t.deviation.value, 2);
    return text;
}

}  // namespace

void addAccuracyFigures(const MachiningEvaluation& e, RouteOutcome& outcome) {
    const double length = e.size_mm.maxCoeff();
    std::vector<AccuracyTerm> terms{
        {"positioning", e.mill.positioning},
        {"squareness", squarenessDeviation(e.mill.squareness_mm_per_m, length)},
        {"tool runout", e.mill.runout},
        {"deflection of the last pass", finishingDeflection(e)},
        {"warmth", thermalGrowth(e.material.expansion_per_K, length, kRoomSwing_K)},
        {"tool diameter", practice(0.02, 0.01, 0.03)},
        {"zero", practice(0.02, 0.01, 0.03)},
    };
    if (e.clampings > 1) terms.push_back({"turning over", practice(0.07, 0.05, 0.1)});
    outcome.figures[Question::accuracy] = rootSumSquare(terms);
    outcome.workings[Question::accuracy] = "root of the sum of squares over " + shown(length) +
                                           " mm: " + listed(terms) + " mm [" + e.mill.positioning.note +
                                           "; machined-route 8.3]";

    if (e.work.helicalHoles > 0) {
        const std::vector<AccuracyTerm> hole{{"positioning", e.mill.positioning},
                                             {"tool runout", e.mill.runout},
                                             {"tool diameter", practice(0.02, 0.01, 0.03)},
                                             {"roundness", practice(0.03, 0.02, 0.05)}};
        outcome.figures[Question::hole_accuracy] = rootSumSquare(hole);
        outcome.workings[Question::hole_accuracy] =
            "bores by helix: " + listed(hole) + " mm, root of the sum of squares [machined-route 8.3]";
    } else {
        outcome.figures[Question::hole_accuracy] = practice(0.05, 0.02, 0.1);
        outcome.workings[Question::hole_accuracy] =
            std::string(e.work.drilledHoles > 0 ? "drilled holes come"
                                                : "no round hole in the part; a drilled one would come") +
            " 0.02 to 0.1 mm oversize [machined-route 8.3, common practice]";
    }
    outcome.figures[Question::setups] = Figure::exact(e.clampings, Unit::none);
    std::string from;
    for (const Direction d : e.access.directions)
        from += (from.empty() ? "" : ", ") + std::string(nameOf(d));
    outcome.workings[Question::setups] =
        "fewest of the six directions that reach everything: " + from +
        (e.clampings > static_cast<int>(e.access.directions.size()) ? "; one more to cut a deep outline from below"
                                                                    : "");
}

}  // namespace waybench::machined
