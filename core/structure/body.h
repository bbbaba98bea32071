#pragma once
#include <optional>

#include "core/geometry/solid.h"
#include "core/material/elastic_law.h"

namespace waybench {

/// What the inside of a printed solid is made of: walls along the sides, skins above and below, infill within.
/// The printed route makes this from the very recipe it lays its layers by.
struct ShellAndInfill {
    double wallThickness_mm = 0;                ///< measured normal to the build direction
    double skinBelow_mm = 0, skinAbove_mm = 0;  ///< measured along the build direction
    Vec3 buildDirection = Vec3::UnitZ();
    ElasticLaw infillLaw;                ///< in part axes
    double infillDensity_g_per_mm3 = 0;  ///< of the infill with its voids
};

/// An elastic body. Homogeneous when inside is empty: then `law` everywhere; else `law` is that of walls and skins.
struct Body {
    const Solid* solid = nullptr;  ///< not owned, outlives the body
    ElasticLaw law;                ///< in part axes
    std::optional<ShellAndInfill> inside;
    std::optional<Vec3> layerNormal;  ///< of a body layered all through without an inside; along a principal axis
    double density_g_per_mm3 = 0;  ///< of the solid material; 0: own weight and frequency are not asked for
};

/// Layer strength of a print or yield of a metal, for the strength margin.
struct StrengthLaw {
    double inLayer_MPa = 0;            ///< isotropic: yield
    std::optional<double> across_MPa;  ///< tension across layers; empty = isotropic
    std::optional<double> shearAcross_MPa;
    double averagingLength_mm = 2;  ///< stress is averaged over a ball of this diameter (judgement.md 4.2)
    double infillFactor = 1;        ///< strength of the infill relative to solid
};

}  // namespace waybench
