#pragma once
#include <optional>
#include <string>
#include <vector>

#include "core/quantity/figure.h"

namespace waybench {

enum class StockGroup { aluminium, brass, steel, stainless, polymer, panel, laminate };
const char* nameOf(StockGroup group);
bool isMetal(StockGroup group);

/// Chip load per tooth and engagement limits for one tool diameter, from machined-route.md 3.2 (light machines).
struct ChipLoadRow {
    double toolDiameter_mm = 0;
    Figure chipLoad;  ///< mm per tooth
};

/// A material a plate or bar on the shelf is made of. From resources/materials/stock/*.json.
struct StockMaterial {
    std::string key, title;  ///< "al-6082", "aluminium 6082-T6"
    StockGroup group = StockGroup::aluminium;
    Figure density_g_per_cm3, modulus, poissonRatio;
    Figure yieldStrength;  ///< MPa, minimum; ultimate for brittle ones
    std::optional<Figure> shearStrength;
    std::optional<Figure> fatigueAmplitude;  ///< MPa at long life
    Figure expansion_per_K;
    Figure serviceTemperature;               ///< degC
    std::optional<Figure> creepRatio1000h;   ///< E(1000 h)/E0 for polymers
    Figure kc11, mc;                         ///< Kienzle, N/mm2 and -
    std::optional<Figure> edgeKtc, edgeKte;  ///< edge-force model, N/mm2 and N/mm
    Figure cuttingSpeed_m_per_min;           ///< ceiling, end mills
    Figure drillingSpeed_m_per_min;
    std::vector<ChipLoadRow> chipLoads;  ///< ascending diameter
    Figure slotDepthRatio;               ///< ap/D in a full slot
    Figure sideEngagementRatio;          ///< ae/D roughing
    Figure embodied_MJ_per_kg, carbon_kg_per_kg;
    Figure price_per_kg;
    bool blockedOnLightMachines = false;
    std::vector<std::string> cautions;
};

/// Factor on the modulus for temperature and duration under load (1 = brief at 23 degC).
///
/// Metals fall by 0.05 % per K above 23 degC (from memory), bounds 0 to twice that, and do not creep. Polymers, panels
/// and laminates fall by 0.75 % per K, bounds 0.5 to 1 (machined-route sheet, from memory), and creep so that the
/// modulus ratio at 1000 h is creepRatio1000h: J(t) = 1 + (1/r - 1)(t/1000 h)^(1/3). The exponent is derived from POM,
/// 2400 MPa at 1 h and 1200 MPa at 1000 h on 2700 MPa (data sheet M-S12, read). Below 23 degC no stiffening is claimed.
/// @throws InputFault "temperature_too_high" above the service temperature, "temperature_too_low", "duration_negative"
Figure modulusFactor(const StockMaterial& material, double temperature_celsius, double duration_h);

}  // namespace waybench
