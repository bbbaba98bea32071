#pragma once
#include <optional>
#include <string>
#include <vector>

#include "core/quantity/figure.h"

namespace waybench {

/// A filament. Every figure comes from resources/materials/printing/*.json with its source in Figure::note.
struct PrintingMaterial {
    std::string key, title;                  ///< "petg", "PETG"
    Figure density_g_per_cm3;                ///< Unit::none, g/cm3
    Figure modulusInLayer, poissonRatio;     ///< MPa, -
    Figure modulusRatioAcross;               ///< E_z / E_xy
    Figure strengthInLayer;                  ///< MPa
    Figure strengthRatioAcross;              ///< sigma_z / sigma_xy
    Figure serviceTemperature;               ///< degC under load
    Figure glassTransition;                  ///< degC
    Figure expansion_per_K;                  ///< Unit::none, 1/K
    Figure specificHeat_J_per_gK, fusionHeat_J_per_g;  ///< Unit::none
    Figure creepFactor, creepExponent;       ///< k, n of J(t) = (1 + k (t/1h)^n)/E0
    std::optional<Figure> fatigueRatio1e6;   ///< allowable stress amplitude at 1e6 cycles over static strength
    Figure nozzleTemperature, bedTemperature;  ///< degC
    Figure flowFactor;                       ///< relative to PLA through the same hot end
    Figure minimumLayerTime;                 ///< s
    Figure shrinkage;                        ///< -, linear on cooling
    Figure embodied_MJ_per_kg, carbon_kg_per_kg;  ///< Unit::none
    Figure price_per_kg;                     ///< money per kg
    std::vector<std::string> cautions;
    bool needsEnclosure = false, absorbsMoisture = false, isAbrasive = false;
};

/// Factor on every modulus for temperature and duration under load (1 = brief at 23 degC), after printed-route.md 1.5
/// (Findley compliance, k doubling per 10 K above 23 degC) and log-linear softening towards the glass transition.
/// @throws InputFault "temperature_too_high" at or above glass transition - 15 K
Figure modulusFactor(const PrintingMaterial& material, double temperature_celsius, double duration_h);

/// Relative modulus E/E_s of an infill pattern at relative density rho, per printed-route.md 2.1.
enum class InfillPattern { lines, grid, triangles, honeycomb, gyroid };
const char* nameOf(InfillPattern pattern);
InfillPattern infillPatternFromName(const std::string& name);  ///< throws InputFault "infill_unknown"
struct InfillModuli {
    double inLayer = 0, across = 0, shear = 0;  ///< over E_s (in layer, across) and over G_s (shear in layer planes)
};
InfillModuli infillModuli(InfillPattern pattern, double share);

}  // namespace waybench
