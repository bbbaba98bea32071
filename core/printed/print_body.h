#pragma once
#include "core/loadcase/load_case.h"
#include "core/material/printing_material.h"
#include "core/printed/recipe.h"
#include "core/structure/body.h"

namespace waybench::printed {

/// The elastic body a recipe lays, in part axes: walls and skins of printed solid, infill by the pattern's law, all
/// transversely isotropic about the build direction. Wall thickness = walls x bead spacing, skins = layers x height:
/// the same recipe the layers are laid by. G_xz = 0.8 G_xy (printed-route.md 1.3, common practice, no source).
/// @param factor on every modulus, for temperature and duration (modulusFactor)
Body bodyOf(const Recipe& recipe, const PrintingMaterial& material, const Solid& solid, double factor);

/// How much of the short-term strength a load case leaves, 0 to 1, and why.
struct StrengthFactor {
    Figure figure = Figure::exact(1, Unit::none);  ///< value with its bounds
    double value = 1;
    std::string reason;  ///< for the working, empty when 1
    bool hasFatigueFigure = true;
};
/// Sustained: from 1 at 0.1 h down to 0.25 at 1000 h on the logarithm of time (the quarter rule of
/// printed-route.md 1.5, common practice; the way between is ours). Cyclic: S-N line of slope set by the ratio at 1e6
/// cycles, from 1 at 1e3 cycles. Heat: the same factor as on the brief modulus.
StrengthFactor strengthFactor(const PrintingMaterial& material, const LoadCase& loadCase, const Figure& heatFactor);

/// In-layer and across-layer strength. Shear across layers: the weaker of the tension across and 0.577 of the strength
/// in the layer (von Mises). The infill carries stress in proportion to its modulus.
/// @param acrossRatio strength across the layers over that in the layer
StrengthLaw strengthOf(const Recipe& recipe, const PrintingMaterial& material, const Figure& acrossRatio,
                       const StrengthFactor& factor);

/// Share of the part's membrane stiffness that the infill carries, 0..1, from the volumes of shell and infill space.
double infillStiffnessShare(const Recipe& recipe, double shell_mm3, double infillSpace_mm3);

}  // namespace waybench::printed
