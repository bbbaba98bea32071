#include "core/comparison/part_json.h"

namespace waybench {

namespace {

void addSelector(Json& entry, const FaceSelector& selector) {
    switch (selector.kind) {
        case FaceSelector::Kind::name:
            entry["face"] = selector.name;
            break;
        case FaceSelector::Kind::box:
            entry["box"] = Json::array({vectorJson(selector.box.low), vectorJson(selector.box.high)});
            break;
        case FaceSelector::Kind::point:
            entry["point"] = vectorJson(selector.point);
            entry["normal"] = vectorJson(selector.normal);
            break;
    }
}

Json loadJson(const Load& load) {
    Json entry = Json::object();
    entry["kind"] = nameOf(load.kind);
    addSelector(entry, load.face);
    switch (load.kind) {
        case LoadKind::force:
        case LoadKind::bearing:
            entry["force_N"] = vectorJson(load.vector);
            break;
        case LoadKind::moment:
            entry["moment_Nmm"] = vectorJson(load.vector);
            break;
        case LoadKind::pressure:
            entry["pressure_MPa"] = load.pressure_MPa;
            break;
    }
    return entry;
}

}  // namespace

Json vectorJson(const Vec3& v) {
    return Json::array({v.x(), v.y(), v.z()});
}

Json dimensionsJson(const DimensionValues& values) {
    Json out = Json::object();
    for (const auto& [key, value] : values)
        out[key] = value;
    return out;
}

Json selectorJson(const FaceSelector& selector) {
    Json entry = Json::object();
    addSelector(entry, selector);
    return entry;
}

Json shapeJson(const Shape& shape) {
    Json out = Json::object();
    switch (shape.kind) {
        case ShapeKind::family:
            out["family"] = shape.family;
            out["dimensions"] = dimensionsJson(shape.dimensions);
            break;
        case ShapeKind::drawing:
            out["drawing"] = shape.file.generic_string();
            for (const Dimension& d : dimensionsOf(shape))
                out[d.key + "_mm"] = dimensionValue(shape, d);
            break;
        case ShapeKind::surface:
            out["surface"] = shape.file.generic_string();
            break;
    }
    if (shape.kind != ShapeKind::family && shape.fileUnit_mm != 0) out["unit_mm"] = shape.fileUnit_mm;
    return out;
}

Json loadCaseJson(const LoadCase& loadCase) {
    Json out = Json::object();
    out["name"] = loadCase.name;
    out["holds"] = Json::array();
    for (const Hold& hold : loadCase.holds) {
        Json entry = selectorJson(hold.face);
        if (hold.kind != HoldKind::fixed) entry["kind"] = nameOf(hold.kind);
        if (hold.headDiameter_mm != 0) entry["head_diameter_mm"] = hold.headDiameter_mm;
        out["holds"].push_back(std::move(entry));
    }
    out["loads"] = Json::array();
    for (const Load& load : loadCase.loads)
        out["loads"].push_back(loadJson(load));
    if (!loadCase.gravity.isZero()) out["gravity"] = vectorJson(loadCase.gravity);
    for (const AttachedMass& mass : loadCase.masses) {
        Json entry = selectorJson(mass.face);
        entry["mass_g"] = mass.mass_g;
        out["masses"].push_back(std::move(entry));
    }
    out["measured"] = selectorJson(loadCase.measuredFace);
    out["measured"]["direction"] = vectorJson(loadCase.measuredDirection);
    out["deflection_limit_mm"] = loadCase.deflectionLimit_mm;
    out["strength_factor"] = loadCase.strengthFactor;
    out["temperature_C"] = loadCase.temperature_celsius;
    out["duration"] = nameOf(loadCase.duration);
    if (loadCase.duration_h != 0) out["duration_h"] = loadCase.duration_h;
    if (loadCase.cycles != 0) out["cycles"] = loadCase.cycles;
    out["load_spread"] = loadCase.loadSpread;
    return out;
}

Json recipeJson(const printed::Recipe& recipe) {
    Json out = Json::object();
    out["material"] = recipe.material;
    out["printer"] = recipe.printer;
    out["layer_thickness_mm"] = recipe.layerThickness_mm;
    out["first_layer_thickness_mm"] = recipe.firstLayerThickness_mm;
    out["bead_width_mm"] = recipe.beadWidth_mm;
    out["walls"] = recipe.walls;
    out["skins_below"] = recipe.skinsBelow;
    out["skins_above"] = recipe.skinsAbove;
    out["infill"] = nameOf(recipe.infill);
    out["infill_share"] = recipe.infillShare;
    out["up"] = nameOf(recipe.up);
    out["lean_x_deg"] = recipe.leanX_deg;
    out["lean_y_deg"] = recipe.leanY_deg;
    out["supports"] = recipe.supports;
    out["overhang_limit_deg"] = recipe.overhangLimit_deg;
    out["brim_reach_mm"] = recipe.brimReach_mm;
    return out;
}

Json planJson(const machined::Plan& plan) {
    Json out = Json::object();
    out["material"] = plan.material;
    out["mill"] = plan.mill;
    out["stock_margin_mm"] = plan.stockMargin_mm;
    out["finish_allowance_mm"] = plan.finishAllowance_mm;
    out["smallest_tool_mm"] = plan.smallestTool_mm;
    out["tabs"] = plan.tabs;
    out["surface_levelling"] = plan.surfaceLevelling;
    out["holding"] = plan.holding;
    out["holding_turned"] = plan.holdingTurned;
    out["clamps"] = plan.clamps;
    return out;
}

}  // namespace waybench
