#pragma once
#include <cmath>

#include "core/comparison/comparison.h"
#include "core/comparison/evaluator.h"
#include "core/fault/input_fault.h"

namespace waybench::testing {

/// A route's answer with round figures, made by hand: invented values, no machine and no shape behind them.
inline RouteOutcome fakeOutcome(RouteKind kind) {
    RouteOutcome o;
    o.kind = kind;
    o.recipe = kind == RouteKind::printed ? "invented print" : "invented cut";
    for (const QuestionText& q : questions())
        o.figures[q.question] = Figure::relative(10, 0.1, 0.1, q.unit);
    o.figures[Question::deflection] = Figure::bounded(0.05, 0.04, 0.07, Unit::millimetre);
    o.figures[Question::strength_margin] = Figure::bounded(5, 4, 6, Unit::none);
    o.figures[Question::temperature_margin] = Figure::bounded(40, 35, 45, Unit::kelvin);
    o.figures[Question::mass] = Figure::relative(100, 0.02, 0.02, Unit::gram);
    o.figures[Question::waste] = Figure::relative(20, 0.1, 0.1, Unit::gram);
    o.figures[Question::stock] = Figure::relative(120, 0.02, 0.02, Unit::gram);
    o.steps = {{"prepare", 600, 0, 600}, {"make", 3600, 3600, 60}, {"clean", 300, 0, 300}};
    setTimes(o, 0.1, 0.2, 0.3, 0.5);
    o.warnings = {{"invented", Severity::caution, "an invented caution, nothing to do"}};
    o.assumptions = {{"modulus", Figure::relative(2000, 0.1, 0.1, Unit::megapascal), "deflection"}};
    o.workings[Question::deflection] = "F L^3 / (3 E I), invented numbers";
    o.details = {{"energy while heating", Figure::relative(3, 0.1, 0.1, Unit::watt_hour)}};
    for (const Origin origin : {Origin::defaulted, Origin::table, Origin::computed, Origin::typed, Origin::measured})
        o.details.emplace_back("a figure of this origin", Figure::exact(1, Unit::none, origin));
    o.cautions = {"wear eye protection"};
    return o;
}

inline Part fakePart() {
    Part part;
    part.name = "test plate";
    part.shape.kind = ShapeKind::drawing;
    part.shape.file = "plate.dxf";
    part.shape.dimensions["thickness"] = 8;
    part.loadCase.holds = {{FaceSelector::byName("hole 1")}};
    part.loadCase.loads = {{LoadKind::force, FaceSelector::byName("top"), Vec3(0, 0, -40), 0}};
    part.loadCase.measuredFace = FaceSelector::byName("top");
    part.loadCase.deflectionLimit_mm = 0.1;
    return part;
}

inline Comparison fakeComparison() {
    Comparison c;
    c.part = fakePart();
    c.printed = fakeOutcome(RouteKind::printed);
    c.machined = fakeOutcome(RouteKind::machined);
    return c;
}

inline Variable thickness(double from = 1, double to = 40) {
    return {"thickness", "thickness", Unit::millimetre, from, to, 8, false};
}

/// Bending of a plate strip as a closed form: deflection = load / (k t^3), bounds +-10 %. Machined 27 times stiffer, so
/// that the same deflection takes a third of the thickness (Euler-Bernoulli: I grows with the cube of the thickness).
inline Evaluator cubicLaw(double printedAtOne = 64.0, int* printedCalls = nullptr, int* machinedCalls = nullptr) {
    return [=](const Part& part, RouteKind kind, Fidelity, const Task& task) {
        task.check();
        const bool isPrinted = kind == RouteKind::printed;
        if (isPrinted && printedCalls) ++*printedCalls;
        if (!isPrinted && machinedCalls) ++*machinedCalls;
        const DimensionValues& own = isPrinted ? part.printedDimensions : part.machinedDimensions;
        const double t = own.count("thickness") ? own.at("thickness") : part.shape.dimensions.at("thickness");
        const double load = part.loadCase.loads.at(0).vector.norm() / 40;
        RouteOutcome o = fakeOutcome(kind);
        o.figures[Question::deflection] = Figure::relative(
            load * (isPrinted ? 1 : 1 / 27.0) * printedAtOne / (t * t * t), 0.1, 0.1, Unit::millimetre);
        return o;
    };
}

}  // namespace waybench::testing
