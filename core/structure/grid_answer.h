#pragma once
#include <optional>

#include "core/structure/problem.h"
#include "core/structure/resolution.h"
#include "core/structure/structure.h"

namespace waybench::statics {

/// In the energy norm; the deflection of the loaded face is right to the square of it.
inline constexpr double kTolerance = 5e-4, kDraftTolerance = 2e-3;

/// What all grids share.
struct Question {
    const Body& body;
    const StrengthLaw& strength;
    const BoundLoadCase& loads;
    const Problem& problem;
    const Mat3& rotation;
    int layerAxis;
};

/// Equilibrium on one grid, or on two nested ones.
struct Grids {
    Plan plan;
    std::optional<double> coarsestDeflection_mm;
    double frequency_Hz = 0, workThen_Nmm = 0;  ///< of the first coarse grid tried
    Equilibrium coarse, fine;
    const Equilibrium& finest() const { return plan.hasFine ? fine : coarse; }
};

/// A gap narrower than a cell acts as closed on this grid.
bool closesGaps(const Equilibrium& equilibrium);

/// mm, with the band the grids' difference gives; a draft's by rule of thumb.
Figure deflectionOf(const Grids& grids, const Question& question);

/// Everything the grids say, in part axes. @throws Cancelled
StructureAnswer answerFrom(const Grids& grids, const Question& question, const Task& task);

}  // namespace waybench::statics
