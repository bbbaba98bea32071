#pragma once
#include <optional>
#include <string>
#include <vector>

#include "core/quantity/figure.h"

namespace waybench {

enum class StockGroup { aluminium, brass, steel, stainless, polymer, panel, laminate };
const char* nameOf(StockGroup group);

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
    Figure yieldStrength;             ///< MPa, minimum; ultimate for brittle ones
    std::optional<Figure> shearStrength;
    std::optional<Figure> fatigueAmplitude;  ///< MPa at long life
    Figure expansion_per_K;
    Figure serviceTemperature;        ///< degC
    std::optional<Figure> creepRatio1000h;  ///< E(1000 h)/E0 for polymers
    Figure kc11, mc;                  ///< Kienzle, N/mm2 and -
    std::optional<Figure> edgeKtc, edgeKte;  ///< edge-force model, N/mm2 and N/mm
    Figure cuttingSpeed_m_per_min;    ///< ceiling, end mills
    Figure drillingSpeed_m_per_min;
    std::vector<ChipLoadRow> chipLoads;      ///< ascending diameter
    Figure slotDepthRatio;            ///< ap/D in a full slot
    Figure sideEngagementRatio;       ///< ae/D roughing
    Figure embodied_MJ_per_kg, carbon_kg_per_kg;
    Figure price_per_kg;
    bool blockedOnLightMachines = false;
    std::vector<std::string> cautions;
};

}  // namespace waybench
