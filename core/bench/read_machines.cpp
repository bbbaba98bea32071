#include "core/bench/shop_readers.h"

namespace waybench {

using namespace catalogue;

const char* nameOf(ToolKind kind) {
    switch (kind) {
        case ToolKind::end_mill:
            return "end_mill";
        case ToolKind::drill:
            return "drill";
        case ToolKind::reamer:
            return "reamer";
        case ToolKind::chamfer:
            return "chamfer";
    }
    return "";
}

const char* nameOf(WorkholdingKind kind) {
    switch (kind) {
        case WorkholdingKind::clamps:
            return "clamps";
        case WorkholdingKind::vice:
            return "vice";
        case WorkholdingKind::area:
            return "area";
    }
    return "";
}

Printer readPrinter(CatalogueEntry entry) {
    Printer p;
    p.key = entry.text("key");
    p.title = entry.text("title");
    p.travel_mm = entry.triple("travel");
    p.isEnclosed = entry.flag("is_enclosed");
    p.nozzleDiameter = entry.figure("nozzle_diameter", kMillimetre, {0.05, 5});
    p.flowLimit_mm3_s = entry.figure("flow_limit", {"mm3/s"});
    p.speedOuterContour = entry.figure("outer_contour_speed", kMillimetrePerSecond);
    p.speedInnerContour = entry.figure("inner_contour_speed", kMillimetrePerSecond);
    p.speedSolidFill = entry.figure("solid_fill_speed", kMillimetrePerSecond);
    p.speedInfill = entry.figure("infill_speed", kMillimetrePerSecond);
    p.speedTravel = entry.figure("travel_speed", kMillimetrePerSecond);
    p.speedFirstLayer = entry.figure("first_layer_speed", kMillimetrePerSecond);
    p.speedSupport = entry.figure("support_speed", kMillimetrePerSecond);
    p.speedBridge = entry.figure("bridge_speed", kMillimetrePerSecond);
    p.accelerationWall_mm_s2 = entry.figure("wall_acceleration", kMillimetrePerSecond2);
    p.accelerationOther_mm_s2 = entry.figure("other_acceleration", kMillimetrePerSecond2);
    p.accelerationTravel_mm_s2 = entry.figure("travel_acceleration", kMillimetrePerSecond2);
    p.cornerSpeed = entry.figure("corner_speed", kMillimetrePerSecond);
    p.layerChange = entry.figure("layer_change", kSecond, kNotNegative);
    p.retractAndPrime = entry.figure("retract_and_prime", kSecond, kNotNegative);
    p.homingAndProbing = entry.figure("homing_and_probing", kSecond, kNotNegative);
    p.nozzleHeatUp = entry.figure("nozzle_heat_up", kSecond, kNotNegative);
    p.bedArea_mm2 = entry.figure("bed_area", {"mm2", Unit::square_millimetre});
    p.bedHeatCapacity_J_per_K = entry.figure("bed_heat_capacity", {"J/K"});
    p.bedPower = entry.figure("bed_power", kWatt);
    p.bedLoss_W_per_m2K = entry.figure("bed_loss", {"W/m2K"});
    p.nozzleHoldPower = entry.figure("nozzle_hold_power", kWatt, kNotNegative);
    p.electronicsPower = entry.figure("electronics_power", kWatt, kNotNegative);
    p.supplyEfficiency = entry.figure("supply_efficiency", kRatio, {0.1, 1});
    p.maximumBed = entry.figure("maximum_bed", kCelsius);
    p.maximumNozzle = entry.figure("maximum_nozzle", kCelsius);
    p.accuracy = entry.figure("accuracy", kMillimetre);
    p.holeUndersize = entry.figure("hole_undersize", kMillimetre, kNotNegative);
    p.hourRate = entry.figure("hour_rate", kMoneyPerHour, kNotNegative);
    p.handsOnStart = entry.figure("hands_on_start", kSecond, kNotNegative);
    p.handsOnRemove = entry.figure("hands_on_remove", kSecond, kNotNegative);
    p.priming = entry.figure("priming", kGram, kNotNegative);
    p.failureShare = entry.figure("failure_share", kRatio, {0, 0.95});
    entry.finish();
    return p;
}

Mill readMill(CatalogueEntry entry) {
    Mill m;
    m.key = entry.text("key");
    m.title = entry.text("title");
    m.travel_mm = entry.triple("travel");
    m.levellingPoints = entry.count("levelling_points");
    m.spindleLow = entry.figure("spindle_low", kPerMinute);
    m.spindleHigh = entry.figure("spindle_high", kPerMinute);
    if (m.spindleLow.value > m.spindleHigh.value)
        entry.refuse("resource_bounds_unordered", "spindle_low", "it lies above spindle_high", "swap them");
    m.spindlePower = entry.figure("spindle_power", kWatt);
    m.usablePowerShare = entry.figure("usable_power_share", kRatio, kPositiveShare);
    m.usableTorqueShare = entry.figure("usable_torque_share", kRatio, kPositiveShare);
    m.spindleEfficiency = entry.figure("spindle_efficiency", kRatio, kPositiveShare);
    m.rapid = entry.figure("rapid", kMillimetrePerSecond);
    m.rapidVertical = entry.figure("rapid_vertical", kMillimetrePerSecond);
    m.acceleration_mm_s2 = entry.figure("acceleration", kMillimetrePerSecond2);
    m.accelerationVertical_mm_s2 = entry.figure("acceleration_vertical", kMillimetrePerSecond2);
    m.cornerDeviation = entry.figure("corner_deviation", kMillimetre);
    m.feedLimit = entry.figure("feed_limit", kMillimetrePerSecond);
    m.stiffness_N_per_um = entry.figure("stiffness", {"N/um"});
    m.holderStiffness_N_per_um = entry.figure("holder_stiffness", {"N/um"});
    m.positioning = entry.figure("positioning", kMillimetre, kNotNegative);
    m.squareness_mm_per_m = entry.figure("squareness", {"mm/m"}, kNotNegative);
    m.runout = entry.figure("runout", kMillimetre, kNotNegative);
    m.controllerPower = entry.figure("controller_power", kWatt, kNotNegative);
    m.spindleIdlePower = entry.figure("spindle_idle_power", kWatt, kNotNegative);
    m.extractionPower = entry.figure("extraction_power", kWatt, kNotNegative);
    m.toolChange = entry.figure("tool_change", kSecond, kNotNegative);
    m.probing = entry.figure("probing", kSecond, kNotNegative);
    m.levellingPerPoint = entry.figure("levelling_per_point", kSecond, kNotNegative);
    m.setUpClamp = entry.figure("set_up_clamp", kSecond, kNotNegative);
    m.flipAndZero = entry.figure("flip_and_zero", kSecond, kNotNegative);
    m.cleanUp = entry.figure("clean_up", kSecond, kNotNegative);
    m.deburrPerMetre = entry.figure("deburr_per_metre", kSecond, kNotNegative);
    m.inspect = entry.figure("inspect", kSecond, kNotNegative);
    m.tabCutAndFile = entry.figure("tab_cut_and_file", kSecond, kNotNegative);
    m.hourRate = entry.figure("hour_rate", kMoneyPerHour, kNotNegative);
    m.attendance = entry.figure("attendance", kRatio, kShare);
    m.scrapShare = entry.figure("scrap_share", kRatio, {0, 0.95});
    entry.finish();
    return m;
}

Tool readTool(CatalogueEntry entry) {
    Tool tool;
    tool.key = entry.text("key");
    tool.title = entry.text("title");
    const std::string kind = entry.text("kind");
    bool known = false;
    for (ToolKind k : {ToolKind::end_mill, ToolKind::drill, ToolKind::reamer, ToolKind::chamfer})
        if (kind == nameOf(k)) {
            tool.kind = k;
            known = true;
        }
    if (!known)
        entry.refuse("resource_tool_kind_unknown", "kind", "tool kind '" + kind + "' is not known",
                     "write end_mill, drill, reamer or chamfer");
    tool.diameter_mm = entry.number("diameter", {0.05, 100});
    tool.fluteLength_mm = entry.number("flute_length", {0.05, 500});
    tool.stickOut_mm = entry.number("stick_out", {0.05, 500});
    if (tool.stickOut_mm < tool.fluteLength_mm)
        entry.refuse("resource_bounds_unordered", "stick_out", "it is shorter than the flutes", "measure it again");
    tool.teeth = entry.count("teeth");
    if (tool.teeth < 1) entry.refuse("resource_out_of_range", "teeth", "a cutter has at least one tooth", "count them");
    if (tool.kind == ToolKind::drill || tool.kind == ToolKind::chamfer)
        tool.pointAngle_deg = entry.number("point_angle", {20, 180});
    tool.cutterMaterial = entry.text("cutter_material");
    tool.cutterModulus_GPa = entry.figure("cutter_modulus", {"GPa"});
    tool.price = entry.figure("price", kMoney, kNotNegative);
    tool.life_h = entry.figure("life", kHour);
    tool.source = entry.sourceKeys("source");
    entry.finish();
    return tool;
}

Workholding readWorkholding(CatalogueEntry entry) {
    Workholding w;
    w.key = entry.text("key");
    w.title = entry.text("title");
    const std::string kind = entry.text("kind");
    bool known = false;
    for (WorkholdingKind k : {WorkholdingKind::clamps, WorkholdingKind::vice, WorkholdingKind::area})
        if (kind == nameOf(k)) {
            w.kind = k;
            known = true;
        }
    if (!known)
        entry.refuse("resource_holding_kind_unknown", "kind", "kind of holding '" + kind + "' is not known",
                     "write clamps, vice or area");
    if (w.kind == WorkholdingKind::area) {
        w.grip_kPa = entry.figure("grip", kKilopascal);
        w.pull_kPa = entry.figure("pull", kKilopascal);
    } else {
        w.force = entry.figure("force", kNewton);
        w.friction = entry.figure("friction", kRatio, kPositiveShare);
    }
    if (w.kind == WorkholdingKind::vice) {
        w.jaw_mm = entry.number("jaw_width", {1, 1000});
        w.opening_mm = entry.number("opening", {1, 1000});
    }
    if (w.kind == WorkholdingKind::clamps) w.foot_mm = entry.number("foot", {1, 100});
    w.holdsPartItself = entry.flag("holds_part_itself");
    entry.finish();
    return w;
}

}  // namespace waybench
