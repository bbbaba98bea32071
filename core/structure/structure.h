#pragma once
#include <optional>
#include <vector>

#include "core/loadcase/load_case.h"
#include "core/progress/task.h"
#include "core/quantity/figure.h"
#include "core/structure/body.h"

namespace waybench {

/// draft: everything coarse and quick. curve: the structure as in a draft, all else in full; what a curve is made of
/// between its full answers. standard: everything in full.
enum class Fidelity { draft, curve, standard };

struct Resolution {
    Fidelity fidelity = Fidelity::standard;
    std::size_t cellBudget = 400000;  ///< active cells on the finest grid
    double spacing_mm = 0;            ///< 0 = by the resolution rule of structural-solver.md section 9
    /// Strength margin from which on a stress averaged over larger cells will do; 0: strength does not matter.
    double comfortableMargin = 0;
};

/// What the structure does under its loads. Bounds cover discretisation and the seats of bolts; material and load
/// spread are the route's.
struct StructureAnswer {
    Figure
        deflection;  ///< mm, mean over the measured face along the measured direction, sign kept positive when along it
    Figure deflectionMax;                  ///< mm, largest displacement magnitude on the surface
    std::optional<Figure> firstFrequency;  ///< Hz, with what is attached; where density or mass is known, not in drafts
    Figure strengthMargin;                 ///< -, strength over averaged stress at the worst place
    Vec3 weakestPlace = Vec3::Zero();
    Vec3 reaction = Vec3::Zero();  ///< N, sum at the holds
    double strainEnergy_Nmm = 0;   ///< stored in body and holds
    double work_Nmm = 0;           ///< of the slowly applied loads, half of load times displacement; equals the former
    std::vector<Vec3> displacement_mm;  ///< per mesh vertex of the solid
    std::vector<double> stress_MPa;     ///< per mesh vertex, averaged von Mises
    std::vector<double> utilisation;    ///< per mesh vertex, 1/margin
    std::size_t unknowns = 0;
    int iterations = 0;
    double seconds = 0;
    double spacing_mm = 0;
    bool isBeyondLinear = false;        ///< moves by more than a twentieth of its length
    bool budgetBinds = false;           ///< the grid is coarser than the rule asks
    std::vector<std::string> cautions;  ///< the figures may be far off, and why
    std::vector<std::string> notes;     ///< what the band does not cover
};

/// Standard fidelity first tries grids of some ten thousand cells, and takes their answer where the two agree within 2
/// % and the strength margin is comfortable; else it goes to the grids the resolution rule asks for.
///
/// Linear statics on a regular grid (structural-solver.md): incompatible-mode bricks, cut cells integrated over the
/// material part, penalty supports, conjugate gradients with a float multigrid inside and double outside, two nested
/// grids with extrapolation (draft: one coarse grid, band from the errors measured on a set of parts). Runs in the
/// calling thread; the answer depends on nothing but the arguments.
/// @throws InputFault "body_free" when the holds do not stop every rigid motion, "load_on_nothing",
///         "solver_stalled", "body_too_thin_for_grid"; Cancelled
StructureAnswer solveStructure(const Body& body, const StrengthLaw& strength, const BoundLoadCase& loads,
                               const Resolution& resolution, const Task& task);

}  // namespace waybench
