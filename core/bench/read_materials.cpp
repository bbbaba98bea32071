#include "core/bench/shop_readers.h"

namespace waybench {

using namespace catalogue;

namespace {

StockGroup stockGroup(CatalogueEntry& entry) {
    const std::string name = entry.text("group");
    std::vector<std::string> known;
    for (StockGroup group : {StockGroup::aluminium, StockGroup::brass, StockGroup::steel, StockGroup::stainless,
                             StockGroup::polymer, StockGroup::panel, StockGroup::laminate}) {
        if (name == nameOf(group)) return group;
        known.push_back(nameOf(group));
    }
    const std::string near = catalogue::nearestName(name, known);
    entry.refuse("resource_group_unknown", "group", "group '" + name + "' is not known",
                 "write '" + (near.empty() ? known.front() : near) + "'");
}

}  // namespace

PrintingMaterial readPrintingMaterial(CatalogueEntry entry) {
    PrintingMaterial m;
    m.key = entry.text("key");
    m.title = entry.text("title");
    m.needsEnclosure = entry.flag("needs_enclosure");
    m.absorbsMoisture = entry.flag("absorbs_moisture");
    m.isAbrasive = entry.flag("is_abrasive");
    m.isSemicrystalline = entry.flag("is_semicrystalline");
    m.density_g_per_cm3 = entry.figure("density", kGramPerCm3);
    m.modulusInLayer = entry.figure("modulus_in_layer", kMegapascal);
    m.poissonRatio = entry.figure("poisson_ratio", kRatio, {0, 0.499});
    m.modulusRatioAcross = entry.figure("modulus_ratio_across", kRatio, {0.01, 2});
    m.strengthInLayer = entry.figure("strength_in_layer", kMegapascal);
    m.strengthRatioAcross = entry.figure("strength_ratio_across", kRatio, {0.01, 2});
    m.serviceTemperature = entry.figure("service_temperature", kCelsius);
    m.glassTransition = entry.figure("glass_transition", kCelsius, {24, 400});
    m.deflectionTemperature = entry.figure("deflection_temperature", kCelsius, {24, 400});
    m.expansion_per_K = entry.figure("expansion", kPerKelvin, {0, 1e-3});
    m.specificHeat_J_per_gK = entry.figure("specific_heat", {"J/gK"});
    m.fusionHeat_J_per_g = entry.figure("fusion_heat", {"J/g"}, kNotNegative);
    m.creepFactor = entry.figure("creep_factor", kRatio, {0, 10});
    m.creepExponent = entry.figure("creep_exponent", kRatio, {0.01, 1});
    m.fatigueRatio1e6 = entry.optionalFigure("fatigue_ratio_1e6", kRatio, kPositiveShare);
    m.nozzleTemperature = entry.figure("nozzle_temperature", kCelsius);
    m.bedTemperature = entry.figure("bed_temperature", kCelsius);
    m.flowFactor = entry.figure("flow_factor", kRatio, {0.05, 2});
    m.minimumLayerTime = entry.figure("minimum_layer_time", kSecond, kNotNegative);
    m.shrinkage = entry.figure("shrinkage", kRatio, {0, 0.1});
    m.embodied_MJ_per_kg = entry.figure("embodied_energy", kMegajoulePerKg);
    m.carbon_kg_per_kg = entry.figure("carbon", kKgPerKg);
    m.price_per_kg = entry.figure("price", kMoneyPerKg, kNotNegative);
    m.cautions = entry.texts("cautions");
    entry.finish();
    return m;
}

StockMaterial readStockMaterial(CatalogueEntry entry) {
    StockMaterial m;
    m.key = entry.text("key");
    m.title = entry.text("title");
    m.group = stockGroup(entry);
    m.blockedOnLightMachines = entry.flag("blocked_on_light_machines");
    m.density_g_per_cm3 = entry.figure("density", kGramPerCm3);
    m.modulus = entry.figure("modulus", kMegapascal);
    m.poissonRatio = entry.figure("poisson_ratio", kRatio, {0, 0.499});
    m.yieldStrength = entry.figure("yield_strength", kMegapascal);
    m.shearStrength = entry.optionalFigure("shear_strength", kMegapascal);
    m.fatigueAmplitude = entry.optionalFigure("fatigue_amplitude", kMegapascal);
    m.expansion_per_K = entry.figure("expansion", kPerKelvin, {0, 1e-3});
    m.serviceTemperature = entry.figure("service_temperature", kCelsius);
    m.creepRatio1000h = entry.optionalFigure("creep_ratio_1000h", kRatio, kPositiveShare);
    m.kc11 = entry.figure("kc11", kMegapascal);
    m.mc = entry.figure("mc", kRatio, kShare);
    m.edgeKtc = entry.optionalFigure("edge_ktc", kMegapascal);
    m.edgeKte = entry.optionalFigure("edge_kte", kNewtonPerMillimetre);
    if (m.edgeKtc.has_value() != m.edgeKte.has_value())
        entry.refuse("resource_key_missing", m.edgeKtc ? "edge_kte" : "edge_ktc",
                     "the edge-force model needs both of its figures", "add the other one, or remove both");
    m.cuttingSpeed_m_per_min = entry.figure("cutting_speed", {"m/min"});
    m.drillingSpeed_m_per_min = entry.figure("drilling_speed", {"m/min"});
    for (CatalogueEntry& row : entry.entries("chip_loads")) {
        ChipLoadRow load;
        load.toolDiameter_mm = row.number("tool_diameter");
        load.chipLoad = row.ownFigure(kMillimetre);
        row.finish();
        if (!m.chipLoads.empty() && load.toolDiameter_mm <= m.chipLoads.back().toolDiameter_mm)
            row.refuse("resource_order_wrong", "tool_diameter", "tool diameters must ascend", "sort the rows");
        m.chipLoads.push_back(load);
    }
    m.slotDepthRatio = entry.figure("slot_depth_ratio", kRatio, {0.001, 5});
    m.sideEngagementRatio = entry.figure("side_engagement_ratio", kRatio, kPositiveShare);
    m.embodied_MJ_per_kg = entry.figure("embodied_energy", kMegajoulePerKg);
    m.carbon_kg_per_kg = entry.figure("carbon", kKgPerKg);
    m.price_per_kg = entry.figure("price", kMoneyPerKg, kNotNegative);
    m.cautions = entry.texts("cautions");
    entry.finish();
    return m;
}

StockPiece readStockPiece(CatalogueEntry entry) {
    StockPiece piece;
    piece.key = entry.text("key");
    piece.title = entry.text("title");
    piece.material = entry.text("material");
    piece.size_mm = entry.triple("size");
    piece.isOffcut = entry.flag("is_offcut");
    piece.source = entry.sourceKeys("source");
    entry.finish();
    return piece;
}

Tariff readTariff(CatalogueEntry entry) {
    Tariff tariff;
    tariff.key = entry.text("key");
    tariff.title = entry.text("title");
    tariff.currency = entry.text("currency");
    tariff.date = entry.text("date");
    tariff.electricity_per_kWh = entry.figure("electricity", {"EUR/kWh", Unit::money}, kNotNegative);
    tariff.labour_per_h = entry.figure("labour", kMoneyPerHour, kNotNegative);
    tariff.carbon_kg_per_kWh = entry.figure("carbon", {"kg/kWh"}, kNotNegative);
    tariff.primaryEnergyFactor = entry.figure("primary_energy", kRatio, {1, 10});
    entry.finish();
    return tariff;
}

}  // namespace waybench
