#pragma once
#include <optional>
#include <string>
#include <vector>

#include "core/quantity/figure.h"

namespace waybench {

/// A filament. Every figure comes from resources/materials/printing/*.json with its source in Figure::note.
struct PrintingMaterial {
    std::string key, title;                            ///< "petg", "PETG"
    Figure density_g_per_cm3;                          ///< Unit::none, g/cm3
    Figure modulusInLayer, poissonRatio;               ///< MPa, -
    Figure modulusRatioAcross;                         ///< E_z / E_xy
    Figure strengthInLayer;                            ///< MPa
    Figure strengthRatioAcross;                        ///< sigma_z / sigma_xy
    Figure serviceTemperature;                         ///< degC under load
    Figure glassTransition;                            ///< degC
    Figure deflectionTemperature;                      ///< degC, ISO 75 at 1.8 MPa: the modulus there is about 900 MPa
    Figure expansion_per_K;                            ///< Unit::none, 1/K
    Figure specificHeat_J_per_gK, fusionHeat_J_per_g;  ///< Unit::none
    Figure creepFactor, creepExponent;                 ///< k, n of J(t) = (1 + k (t/1h)^n)/E0
    std::optional<Figure> fatigueRatio1e6;        ///< allowable stress amplitude at 1e6 cycles over static strength
    Figure nozzleTemperature, bedTemperature;     ///< degC
    Figure flowFactor;                            ///< relative to PLA through the same hot end
    Figure minimumLayerTime;                      ///< s
    Figure shrinkage;                             ///< -, linear on cooling
    Figure embodied_MJ_per_kg, carbon_kg_per_kg;  ///< Unit::none
    Figure price_per_kg;                          ///< money per kg
    std::vector<std::string> cautions;
    bool needsEnclosure = false, absorbsMoisture = false, isAbrasive = false;
    bool isSemicrystalline = false;  ///< carries load above its glass transition
};

/// Factor on every modulus for temperature and duration under load (1 = brief at 23 degC).
///
/// Creep: J(t) = (1 + k (t/1 h)^n)/E0, k doubling per 10 K above 23 degC (Findley form on the compliance; k, n of the
/// material, mostly placeholders; doubling is common practice, no source). Softening: log E falls linearly with T from
/// 23 degC to 900 MPa at the deflection temperature (ISO 75 at 1.8 MPa and 0.2 % strain; common practice, no source).
/// Glassy polymers soften less than this well below the transition: the upper bound takes one fifth of the fall, the
/// lower bound one and three tenths. Linear creep holds to about half the strength (PETG 5 h and 20 h tests, read).
/// Below 23 degC no stiffening is claimed.
/// @param temperature_celsius of the part; @param duration_h hours under load, >= 0
/// @throws InputFault "temperature_too_high" at or above the limit below, "temperature_too_low" under -40 degC,
///         "duration_negative"; both also for values that are not finite
Figure modulusFactor(const PrintingMaterial& material, double temperature_celsius, double duration_h);

/// First temperature at which modulusFactor refuses: glass transition - 15 K; for semicrystalline materials, which
/// carry load above it, the service temperature (common practice, no source).
double temperatureLimit_celsius(const PrintingMaterial& material);

/// Patterns of sparse infill.
enum class InfillPattern { lines, grid, triangles, honeycomb, gyroid };
const char* nameOf(InfillPattern pattern);
InfillPattern infillPatternFromName(const std::string& name);  ///< throws InputFault "infill_unknown"

/// Moduli of an infill relative to the printed solid.
struct InfillModuli {
    double inLayer = 0, across = 0;  ///< over E_s: in the layer; along the build axis
    double shear = 0;                ///< over G_s: between layers (G_xz, G_yz)
    double below = 0, above = 0;     ///< relative bounds of inLayer; the others are no better known
};

/// Relative moduli of an infill pattern at relative density `share` = rho, 0..1.
///
/// Laws of core/material/cellular_law.h. In the layer, lines and grid take the mean of "along the walls" and "at 45
/// degrees", since the load crosses them at no fixed angle; bounds then span a factor 2. Every law is clamped to the
/// Hashin-Shtrikman bound (2D for walls, 3D for gyroid; along the build axis rho itself) and blends linearly to 1
/// between rho 0.6 and 1. 0 gives 0, 1 gives 1.
/// @throws InputFault "infill_share_out_of_range"
InfillModuli infillModuli(InfillPattern pattern, double share);

}  // namespace waybench
