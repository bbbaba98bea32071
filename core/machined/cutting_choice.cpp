#include "core/machined/cutting_choice.h"

#include <algorithm>
#include <cmath>
#include <stdexcept>

#include "core/machined/cutting_mechanics.h"
#include "core/machined/drilling.h"
#include "core/machined/tool_stiffness.h"

namespace waybench::machined {
namespace {

constexpr double kPi = 3.14159265358979323846;
constexpr double kRadialShare = 0.7;        // Fr/Ft with thin chips, machined-route.md 2.2
constexpr double kThinnestChip_mm = 0.004;  // below it the edge rubs (3.2, common practice)
constexpr double kFinishTolerance_mm = 0.1;
constexpr double kThinnestDepth_mm = 0.02;
constexpr double kLargestThinning = 2;

double allowedStress(const Tool& tool) {
    return tool.cutterMaterial == "carbide" ? 500 : 250;
}

double widthOf(CutKind kind, const StockMaterial& material, double diameter, double allowance) {
    switch (kind) {
        case CutKind::slot:
            return diameter;
        case CutKind::clearing:
            return (isMetal(material.group) ? 0.4 : 0.5) * diameter;
        case CutKind::finishing:
            return std::clamp(allowance, 0.02, 0.5 * diameter);
        case CutKind::facing:
            return 0.7 * diameter;
    }
    return diameter;
}

/// Engagement the loads are reckoned with: the first ring of a clearing pass is a full slot.
double loadWidthOf(CutKind kind, double diameter, double width) {
    return kind == CutKind::clearing ? diameter : width;
}

struct Speed {
    double spindle = 0;
    std::string binding;
    bool tooFast = false;
};

Speed speedFor(const Mill& mill, double ceiling_m_per_min, double diameter) {
    const double wanted = spindleSpeed(ceiling_m_per_min, diameter);
    if (wanted > mill.spindleHigh.value) return {mill.spindleHigh.value, "top spindle speed", false};
    if (wanted < mill.spindleLow.value) return {mill.spindleLow.value, "slowest spindle speed", true};
    return {wanted, "cutting speed of the material", false};
}

/// Feed per tooth and spindle speed under the feed limit: the chip is kept above the lower end of its window by
/// turning slower before it is made thinner.
void limitFeed(CuttingData& data, const Mill& mill, const Tool& tool, double thinnest) {
    const double limit = 60 * mill.feedLimit.value;
    if (tableFeed(data.feedPerTooth_mm, tool.teeth, data.spindle_per_min) <= limit) return;
    data.binding = "feed limit of the mill";
    data.feedPerTooth_mm =
        std::max(limit / (tool.teeth * data.spindle_per_min), std::min(thinnest, data.feedPerTooth_mm));
    data.spindle_per_min = std::max(mill.spindleLow.value, limit / (tool.teeth * data.feedPerTooth_mm));
    data.feedPerTooth_mm = std::min(data.feedPerTooth_mm, limit / (tool.teeth * data.spindle_per_min));
}

struct Limit {
    double depth;
    std::string name;
};

}  // namespace

const char* nameOf(CutKind kind) {
    switch (kind) {
        case CutKind::slot:
            return "slot";
        case CutKind::clearing:
            return "clearing";
        case CutKind::finishing:
            return "finishing";
        case CutKind::facing:
            return "facing";
    }
    return "";
}

Figure chipLoadAt(const StockMaterial& material, double diameter_mm) {
    const auto& rows = material.chipLoads;
    if (rows.empty()) throw std::logic_error("chipLoadAt: material without chip loads: " + material.key);
    if (diameter_mm <= rows.front().toolDiameter_mm)
        return rows.front().chipLoad.times(diameter_mm / rows.front().toolDiameter_mm);
    if (diameter_mm >= rows.back().toolDiameter_mm) return rows.back().chipLoad;
    std::size_t i = 1;
    while (rows[i].toolDiameter_mm < diameter_mm)
        ++i;
    const ChipLoadRow &a = rows[i - 1], &b = rows[i];
    const double t = (diameter_mm - a.toolDiameter_mm) / (b.toolDiameter_mm - a.toolDiameter_mm);
    return sumShared({a.chipLoad.times(1 - t), b.chipLoad.times(t)});
}

double usableTorque_Nmm(const Mill& mill) {
    return mill.usableTorqueShare.value * torqueOf(mill.spindlePower.value, mill.spindleHigh.value);
}

double usablePower_W(const Mill& mill, double spindle_per_min) {
    const double byTorque = usableTorque_Nmm(mill) / 1000 * 2 * kPi * spindle_per_min / 60;
    return std::min(mill.usablePowerShare.value * mill.spindlePower.value, byTorque);
}

CuttingData chooseMilling(const StockMaterial& material, const Mill& mill, const Tool& tool, CutKind kind,
                          double allowance_mm) {
    const double d = tool.diameter_mm;
    CuttingData data;
    const Speed speed = speedFor(mill, material.cuttingSpeed_m_per_min.value, d);
    data.spindle_per_min = speed.spindle;
    data.tooFast = speed.tooFast;
    data.binding = speed.binding;
    data.width_mm = widthOf(kind, material, d, allowance_mm);
    const double loadWidth = loadWidthOf(kind, d, data.width_mm);
    const Figure chip = chipLoadAt(material, d);
    const double thinning = std::min(kLargestThinning, chipThinningFactor(loadWidth / d));
    data.feedPerTooth_mm = chip.value * thinning;
    limitFeed(data, mill, tool, std::max(chip.low, kThinnestChip_mm) * thinning);
    const double feed = tableFeed(data.feedPerTooth_mm, tool.teeth, data.spindle_per_min);
    data.feed_mm_s = feed / 60;
    data.plungeFeed_mm_s = 0.3 * data.feed_mm_s;
    data.meanChip_mm = meanChipSide(data.feedPerTooth_mm, loadWidth, d);
    data.maximumChip_mm = maximumChip(data.feedPerTooth_mm, loadWidth, d);
    data.pressure = cuttingPressure(material, data.meanChip_mm);

    const double teethIn = std::max(1.0, tool.teeth * engagementAngle(loadWidth, d) / (2 * kPi));
    const Figure peak =
        cuttingPressure(material, data.maximumChip_mm).times(data.maximumChip_mm * teethIn);  // N per mm
    const double resultant = std::hypot(1.0, kRadialShare);
    const double power_per_mm = cuttingPower(1, loadWidth, feed, data.pressure.value);
    const double stiffness = stiffnessAtTip(tool, mill);
    const double allowedDeflection =
        kind == CutKind::finishing ? kFinishTolerance_mm / 3 : std::max(0.05, allowance_mm / 2);
    const double stress_per_mm = bendingStress(peak.value * resultant, d, tool.stickOut_mm);
    const double ratio =
        kind == CutKind::finishing || kind == CutKind::facing ? 0 : std::max(0.01, material.slotDepthRatio.value) * d;
    const Limit limits[] = {
        {kind == CutKind::finishing ? tool.fluteLength_mm
         : kind == CutKind::facing  ? std::min(0.5, 0.1 * d + 0.1)
                                    : std::min(ratio, tool.fluteLength_mm),
         kind == CutKind::finishing ? "flute length" : "step-down ratio of the material"},
        {mill.usablePowerShare.value * mill.spindlePower.value / power_per_mm, "usable spindle power"},
        {usableTorque_Nmm(mill) / torqueOf(power_per_mm, data.spindle_per_min), "usable spindle torque"},
        {allowedDeflection * stiffness / (kRadialShare * peak.value), "deflection of tool and mill"},
        {allowedStress(tool) / stress_per_mm, "bending stress of the tool"}};
    const Limit* tightest = &limits[0];
    for (const Limit& limit : limits)
        if (limit.depth < tightest->depth) tightest = &limit;
    data.binding = tightest->name + "; speed: " + data.binding;
    data.depth_mm = tightest->depth;
    if (data.depth_mm < kThinnestDepth_mm) {
        data.depth_mm = kThinnestDepth_mm;
        data.withinLimits = false;
    }
    data.force_N = peak.in(Unit::newton, resultant * data.depth_mm);
    data.power_W = data.pressure.in(Unit::watt, cuttingPower(data.depth_mm, loadWidth, feed, 1.0));
    data.torque_Nmm = torqueOf(data.power_W.value, data.spindle_per_min);
    data.deflection_mm = kRadialShare * peak.value * data.depth_mm / stiffness;
    data.stress_MPa = stress_per_mm * data.depth_mm;
    return data;
}

CuttingData chooseDrilling(const StockMaterial& material, const Mill& mill, const Tool& tool, double depth_mm) {
    const double d = tool.diameter_mm, deep = depth_mm / d;
    const double slower = deep > 6 ? 0.62 : deep > 5 ? 0.7 : deep > 4 ? 0.8 : deep > 3 ? 0.9 : 1.0;
    const double thinner = deep > 5 ? 0.8 : deep > 3 ? 0.9 : 1.0;
    CuttingData data;
    const Speed speed = speedFor(mill, material.drillingSpeed_m_per_min.value * slower, d);
    data.spindle_per_min = speed.spindle;
    // between the ceiling and its upper end a drill turns a little too fast, and lasts
    data.tooFast =
        speed.tooFast && mill.spindleLow.value > spindleSpeed(material.drillingSpeed_m_per_min.high * slower, d);
    data.binding = speed.binding;
    data.feedPerTooth_mm = 0.012 * d * thinner;
    data.depth_mm = depth_mm;
    data.width_mm = d;
    const auto loadAt = [&](double feed) {
        return drillKienzle(d, feed, material.kc11.value, material.mc.value, tool.pointAngle_deg);
    };
    for (int i = 0; i < 40; ++i) {
        const double power = loadAt(data.feedPerTooth_mm).torque_Nm * 2 * kPi * data.spindle_per_min / 60;
        if (power <= usablePower_W(mill, data.spindle_per_min) &&
            data.feedPerTooth_mm * data.spindle_per_min <= 60 * mill.feedLimit.value)
            break;
        data.feedPerTooth_mm *= 0.85;
        data.binding = "usable spindle power or torque, or feed limit";
        data.withinLimits = i < 39;
    }
    const DrillLoad load = loadAt(data.feedPerTooth_mm);
    data.feed_mm_s = data.plungeFeed_mm_s = data.feedPerTooth_mm * data.spindle_per_min / 60;
    data.meanChip_mm = data.maximumChip_mm = load.chip_mm;
    data.pressure = Figure::relative(load.pressure_N_per_mm2, 0.4, 0.6, Unit::megapascal, Origin::computed,
                                     "Kienzle, torque rules agree within a factor 2");
    data.force_N = Figure::bounded(1.7 * load.thrust_N, load.thrust_N, 3.4 * load.thrust_N, Unit::newton,
                                   Origin::computed, "lips plus 40 to 100 % chisel edge; rules differ by 3.4");
    data.torque_Nmm = 1000 * load.torque_Nm;
    data.power_W =
        data.pressure.in(Unit::watt, load.torque_Nm * 2 * kPi * data.spindle_per_min / 60 / load.pressure_N_per_mm2);
    return data;
}

}  // namespace waybench::machined
