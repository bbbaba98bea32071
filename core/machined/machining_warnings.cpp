#include <algorithm>
#include <cmath>

#include "core/machined/cutting_mechanics.h"
#include "core/machined/machining_evaluation.h"
#include "core/machined/outline_cut.h"

namespace waybench::machined {
namespace {

constexpr double kBlockingShare = 0.10;       // of its pocket: more than corners, the pocket itself is not made
constexpr double kDeepPocket_D = 4;           // economical to 3 D, slow to 6 D (S71, S72)
constexpr double kBlockingSliceShare = 0.02;  // of all that is removed, for curved spaces cut in slices
constexpr double kUntoldShare = 0.005;        // of what is removed; less is the simulation's grid
constexpr double kThinWall_mm = 1.0;          // light machines, Al and brass (common practice, no source)

class Warnings {
public:
    explicit Warnings(RouteOutcome& outcome) : outcome_(outcome) {}
    void add(const char* code, Severity severity, std::string text) {
        outcome_.warnings.push_back({code, severity, std::move(text)});
    }

private:
    RouteOutcome& outcome_;
};

void warnUndercut(const MachiningEvaluation& e, Warnings& out) {
    if (e.access.hidden.empty()) return;
    const HiddenSpace& first = e.access.hidden.front();
    const Vec3 size = first.bounds.size();
    out.add("undercut", Severity::blocking,
            "No tool direction reaches " + shown(e.access.hidden_mm3) + " mm³ of empty space" +
                (e.access.hidden.size() > 1 ? " in " + std::to_string(e.access.hidden.size()) + " places, the largest"
                                            : "") +
                " around " + placeText(first.centre) + ", " + shown(size.x()) + " x " + shown(size.y()) + " x " +
                shown(size.z()) + " mm: split the part there, or print it. Figures are those of the part as drawn.");
}

/// Same kind of leftover at one place over several slices of depth is told once.
void warnLeftovers(const MachiningEvaluation& e, Warnings& out) {
    const Leftover *deep = nullptr, *narrow = nullptr, *corner = nullptr;
    double deepVolume = 0, narrowVolume = 0, cornerVolume = 0, stays = 0;
    double sharpest = 1e9, roundest = 0;
    int corners = 0;
    const auto take = [](const Leftover*& best, const Leftover& l) {
        if (!best || l.volume_mm3 > best->volume_mm3) best = &l;
    };
    double slices = 0;
    for (const Leftover& l : e.work.leftovers)
        if (l.isSlice && l.cornerRadius_mm <= 0) slices += l.share;
    for (const Leftover& l : e.work.leftovers) {
        const bool blocks =
            l.isSlice ? l.cornerRadius_mm <= 0 && slices > kBlockingSliceShare : l.share > kBlockingShare;
        if (blocks && l.tooDeep) {
            take(deep, l);
            deepVolume += l.volume_mm3;
        } else if (blocks) {
            take(narrow, l);
            narrowVolume += l.volume_mm3;
        } else if (l.cornerRadius_mm > 0) {
            corners += l.isSlice ? 0 : 1;
            roundest = std::max(roundest, l.cornerRadius_mm);
            sharpest = std::min(sharpest, l.cornerRadius_mm);
            cornerVolume += l.volume_mm3;
            if (!corner || l.cornerRadius_mm > corner->cornerRadius_mm) corner = &l;
        } else {
            stays += l.volume_mm3;
        }
    }
    double longest = 0, thinnest = 1e9;
    for (const Tool* t : e.workshop.endMills) {
        longest = std::max(longest, t->stickOut_mm);
        thinnest = std::min(thinnest, t->diameter_mm);
    }
    if (deep)
        out.add("tool_too_short", Severity::blocking,
                "At " + placeText(deep->place) + " the cut is " + shown(deep->depth_mm) +
                    " mm deep and no cutter that fits is long enough (longest on the rack reaches " + shown(longest) +
                    " mm); " + shown(deepVolume) +
                    " mm³ stay: make it shallower or wider, split the part, or print it.");
    if (narrow)
        out.add("too_narrow", Severity::blocking,
                "At " + placeText(narrow->place) + " no cutter that reaches " + shown(narrow->depth_mm) +
                    " mm down fits in (thinnest on the rack " + shown(thinnest) + " mm); " + shown(narrowVolume) +
                    " mm³ stay: widen it, or print it.");
    if (stays > 1)
        out.add("left_standing", Severity::caution,
                shown(stays) + " mm³ stay in the thin ends of curved or narrow places no cutter enters: file them.");
    if (corner)
        out.add("corner_radius", Severity::caution,
                (corners > 1    ? std::to_string(corners) + " inner corners keep"
                 : corners == 1 ? std::string("1 inner corner keeps")
                                : std::string("Corners in curved places keep")) +
                    " the cutter's radius of " +
                    (roundest - sharpest > 0.01 ? shown(sharpest) + " to " : std::string()) + shown(roundest) +
                    " mm, for one at " + placeText(corner->place) + " (" + shown(cornerVolume) +
                    " mm³ in all): round them in the drawing, or relieve them where something square goes in.");
}

/// Thin walls: what vanishes when each slab's section is opened by half the limit.
void warnThinWalls(const MachiningEvaluation& e, Warnings& out) {
    double worst_mm2 = 0, height = 0;
    Vec3 place = Vec3::Zero();
    const bool metal = isMetal(e.material.group);
    const double limit = metal ? kThinWall_mm : 1.5;
    for (const Slab& slab : e.setUps.front().slabs) {
        if (!slab.isPrismatic) continue;
        const Region opened = offsetBy(offsetBy(slab.section, -limit / 2), 1.1 * limit / 2);
        const Region thin = offsetBy(differenceOf(slab.section, opened), -0.1);
        for (const Region& island : islandsOf(thin)) {
            const double area = areaOf(island);
            if (area <= worst_mm2 || perimeterOf(island) < 8 * limit) continue;
            worst_mm2 = area;
            height = slab.top_mm - slab.bottom_mm;
            const Vec2 p = island.front().front();
            place = rotationToUp(e.setUps.front().direction).transpose() *
                    Vec3(p.x(), p.y(), 0.5 * (slab.top_mm + slab.bottom_mm));
        }
    }
    if (worst_mm2 > 0)
        out.add("thin_wall", Severity::caution,
                "A wall thinner than " + shown(limit) + " mm, " + shown(height) + " mm high, near " + placeText(place) +
                    " will spring away from the cutter: thicken it, or take lighter last passes from both sides.");
}

void warnSize(const MachiningEvaluation& e, Warnings& out) {
    for (std::size_t i = 0; i < e.setUps.size(); ++i) {
        const SetUp& s = e.setUps[i];
        const Vec3 size = boundsOf(s.mesh).size();
        double tool = 0;
        for (const Operation& o : e.work.operations)
            if (o.kind == OperationKind::outline) tool = std::max(tool, o.tool->diameter_mm);
        const double a = std::max(size.x(), size.y()) + tool, b = std::min(size.x(), size.y()) + tool;
        const double ta = std::max(e.mill.travel_mm.x(), e.mill.travel_mm.y());
        const double tb = std::min(e.mill.travel_mm.x(), e.mill.travel_mm.y());
        if (a <= ta && b <= tb && size.z() + 5 <= e.mill.travel_mm.z()) continue;
        out.add("larger_than_travel", Severity::blocking,
                "Seen from " + std::string(nameOf(s.direction)) + " the tool must cover " + shown(a, 4) + " x " +
                    shown(b, 4) + " x " + shown(size.z() + 5, 4) + " mm, the mill travels " + shown(ta, 4) + " x " +
                    shown(tb, 4) + " x " + shown(e.mill.travel_mm.z(), 4) +
                    " mm: take a larger mill, or split the part.");
        return;
    }
}

void warnCutting(const MachiningEvaluation& e, Warnings& out) {
    bool tooFast = false;
    const Operation *deep = nullptr, *over = nullptr;
    for (const Operation& o : e.work.operations) {
        if (o.cutting.tooFast) tooFast = true;
        if (!o.cutting.withinLimits) over = &o;
        const bool inside = o.kind == OperationKind::pocket || o.kind == OperationKind::rest;
        if (inside && o.reach_mm > kDeepPocket_D * o.tool->diameter_mm && (!deep || o.reach_mm > deep->reach_mm))
            deep = &o;
    }
    if (e.workshop.endMills.empty())
        out.add("no_tool", Severity::blocking,
                "The rack has no end mill the plan allows: lower the smallest end mill.");
    if (tooFast)
        out.add("spindle_too_fast", Severity::caution,
                "The spindle's slowest speed of " + shown(e.mill.spindleLow.value, 5) +
                    " 1/min is above the cutting-speed ceiling of " + e.material.title +
                    " for some tools: they wear quickly; use a slower spindle.");
    if (over)
        out.add("cut_over_limits", Severity::blocking,
                "Even the thinnest cut with " + over->tool->title +
                    " goes over the usable power, torque or tool stress: take another tool or mill.");
    if (deep)
        out.add("deep_pocket", Severity::caution,
                std::string(nameOf(deep->kind)) + " goes " + shown(deep->reach_mm) + " mm deep with a " +
                    shown(deep->tool->diameter_mm) + " mm cutter, more than 4 D: slow, and it may chatter.");
}

std::string heldBy(const HoldingCheck& c) {
    const Workholding& m = *c.work.method;
    return m.kind == WorkholdingKind::clamps ? std::to_string(c.work.clamps) + " " + m.title : m.title;
}

/// How far the hold falls short, and what would do.
std::string shortfallText(const HoldingCheck& c) {
    const bool byTorque = c.way != WayLoose::lifts && c.load.sideways_N <= 0;
    const std::string unit = byTorque ? " N mm" : " N";
    const double largest = c.load.sideways_N > 0      ? c.load.sideways_N
                           : c.way == WayLoose::lifts ? std::abs(c.load.lift_N)
                                                      : std::abs(c.load.torque_Nmm);
    std::string text = "it " + std::string(wordOf(c.way)) + " at " + shown(c.safety.value, 2) + " times (" +
                       shown(c.safety.low, 2) + " to " + shown(c.safety.high, 2) + ") the largest load of \"" +
                       nameOf(c.kind) + ", " + c.tool->title + "\", " + shown(largest, 2) + unit +
                       ": 2.5 times is asked, and never less than once";
    if (c.clampsNeeded > 0) text += "; " + std::to_string(c.clampsNeeded) + " such clamps hold";
    if (c.forceNeeded_N > 0)
        text += std::string(c.clampsNeeded > 0 ? ", or " : "; ") + shown(c.forceNeeded_N, 2) + " N " +
                (c.work.method->kind == WorkholdingKind::clamps ? "on each" : "of the vice") +
                (c.clampsNeeded > 0 ? "" : " would hold");
    if (c.work.method->kind == WorkholdingKind::area) text += "; hold it by clamps or a vice, or cut lighter";
    return text;
}

/// How far the cutters of the first set-up go beyond the part, mm.
double cutBeyond(const MachiningEvaluation& e) {
    const Box3 box = boundsOf(e.setUps.front().mesh);
    double beyond = 0;
    for (const Operation& o : e.work.operations) {
        if (o.setUp != 0) continue;
        for (const auto& place : o.passes)
            for (const Pass& pass : place)
                for (const Vec2& p : pass.points) {
                    const Vec2 out = (box.low.head<2>() - p).cwiseMax(p - box.high.head<2>());
                    beyond = std::max(beyond, out.maxCoeff() + 0.5 * o.tool->diameter_mm);
                }
    }
    return beyond;
}

void warnRoom(const MachiningEvaluation& e, Warnings& out) {
    const Workholding& method = *e.holding.front().work.method;
    const double room = e.margin_mm();
    const double beyond = cutBeyond(e), wanted = method.foot_mm + beyond + 1;
    if (method.kind == WorkholdingKind::clamps && beyond > 0 && room < wanted - 1e-6)
        out.add("no_room_for_clamps", Severity::caution,
                "The blank leaves " + shown(room) + " mm around the part; clamps that reach " + shown(method.foot_mm) +
                    " mm over it and cutters that go " + shown(beyond) + " mm beyond the part want " + shown(wanted) +
                    " mm: take a larger stock margin, or hold it by tape or vacuum.");
    for (const HoldingCheck& c : e.holding)
        if (!goesIn(c.work))
            out.add("vice_too_small", Severity::blocking,
                    "Set-up " + std::to_string(c.setUp + 1) + ": the work is " +
                        shown((c.work.high - c.work.low).minCoeff()) + " mm across and " + c.work.method->title +
                        " opens " + shown(c.work.method->opening_mm) + " mm: hold it another way.");
}

void warnOutline(const MachiningEvaluation& e, Warnings& out) {
    if (!e.cutsOut()) return;
    const Workholding& method = *e.holding.front().work.method;
    const TabCheck& t = e.tabs;
    if (method.kind == WorkholdingKind::vice && t.web_mm < kLeastWeb_mm)
        out.add("cutter_meets_jaws", Severity::blocking,
                "Cut out of a blank with so little margin in " + method.title +
                    ", the cutter meets the jaws: leave a larger stock margin, or hold it another way.");
    const bool areaHolds = method.kind == WorkholdingKind::area && method.holdsPartItself;
    if (e.work.tabs == 0 && !areaHolds) {
        out.add("part_comes_loose", Severity::blocking,
                "Nothing holds the part when its outline is cut through, as " + method.title +
                    " hold the blank around it: keep tabs, or hold the part itself by tape or vacuum.");
        return;
    }
    if (e.work.tabs == 0) {
        out.add("holding", Severity::caution,
                "Without tabs " + method.title +
                    " alone holds the part when the outline is cut through: make the last pass light.");
        return;
    }
    const std::string sizes =
        std::to_string(t.tabs) + " tabs " + shown(t.width_mm) + " mm wide and " + shown(t.height_mm) + " mm high";
    if (t.web_mm < kLeastWeb_mm) {
        out.add("tabs_on_nothing", areaHolds ? Severity::caution : Severity::blocking,
                "Outside the cutter's slot " + shown(std::max(0.0, t.web_mm), 2) +
                    " mm of the blank stay, too little for tabs to hang on: leave a stock margin of at least " +
                    shown(std::ceil(e.plan.stockMargin_mm - t.web_mm + kLeastWeb_mm)) + " mm.");
    } else if (!t.isStrengthKnown) {
        out.add("tabs_unknown", Severity::caution,
                "What tabs carry in " + e.material.title +
                    " is not on file (it parts between its layers): leave thick ones, or hold the part by tape or "
                    "vacuum.");
    } else {
        const bool isWeak = t.safety() < kHoldingAsked;
        out.add(isWeak ? "tabs_weak" : "holding", t.safety() < 1 && !areaHolds ? Severity::blocking : Severity::caution,
                sizes + " carry " + shown(t.carries_N, 2) + " N against up to " + shown(t.force_N, 2) + " N" +
                    (isWeak ? ", less than 2.5 times: cut lighter, or leave more of them."
                            : ": keep them off corners and datum faces; the last pass is the moment it comes loose."));
    }
}

void warnHolding(const MachiningEvaluation& e, Warnings& out) {
    for (const HoldingCheck& c : e.holding) {
        if (c.holds()) continue;
        const std::string where = e.holding.size() > 1 ? "Set-up " + std::to_string(c.setUp + 1) + ": held" : "Held";
        out.add(c.safety.value < 1 ? "work_moves" : "holding_weak",
                c.safety.value < 1 ? Severity::blocking : Severity::caution,
                where + " by " + heldBy(c) + ", " + shortfallText(c) + ".");
    }
    warnRoom(e, out);
    warnOutline(e, out);
}

/// What the simulation of the paths found.
void warnProof(const MachiningEvaluation& e, Warnings& out) {
    if (!e.proof) return;
    const RemovalProof& proof = *e.proof;
    if (!proof.gouges.empty()) {
        const Gouge& g = proof.gouges.front();
        out.add("gouge", Severity::blocking,
                "Carried out in a simulation, \"" + g.by + "\" cuts " + shown(g.depth_mm, 2) +
                    " mm into the part near " + placeText(g.place) +
                    ": the plan does not make this shape; change the shape there, or print it.");
    }
    if (e.cutsOut() && !proof.isFreed)
        out.add("not_cut_free", Severity::blocking,
                "Carried out in a simulation, the outline is not cut through all around: no cutter reaches down there. "
                "Make the part flatter, split it, or print it.");
    double said = e.access.hidden_mm3;
    for (const Leftover& l : e.work.leftovers)
        said += l.volume_mm3;
    if (const double more = proof.leftover_mm3 - said; more > kUntoldShare * proof.asked_mm3)
        out.add("left_untold", Severity::caution,
                "Carried out in a simulation, " + shown(more, 2) + " mm³ more stand than the plan says, most near " +
                    placeText(proof.largestLeftover) + ": look there before using the part.");
    if (proof.looseCores > 0)
        out.add("loose_core", Severity::caution,
                (proof.looseCores > 1 ? std::to_string(proof.looseCores) + " cores of windows come loose"
                                      : std::string("The core of a window comes loose")) +
                    " when cut round and can jam the cutter: tape it down first.");
}

void warnHeat(const MachiningEvaluation& e, const MachinedCase& c, Warnings& out) {
    if (c.isTooHot)
        out.add("too_hot", Severity::blocking,
                caseHeading(c.loadCase(), e.cases.size()) + e.material.title + " is not used above " +
                    shown(e.material.serviceTemperature.value) + " °C under load and the load case has " +
                    shown(c.loadCase().temperature_celsius) +
                    " °C: choose another stock. Stiffness is that at the service temperature.");
}

void warnStructure(const MachiningEvaluation& e, const MachinedCase& c, Warnings& out) {
    const std::string heading = caseHeading(c.loadCase(), e.cases.size());
    for (const std::string& caution : c.structure->cautions)
        out.add("structure", Severity::caution, heading + caution);
    for (const std::string& note : c.structure->notes)
        out.add("structure", Severity::note, heading + note);
    if (c.loadCase().duration == Duration::cyclic && !e.material.fatigueAmplitude)
        out.add("no_fatigue_data", Severity::caution,
                heading + "No fatigue strength is on file for " + e.material.title +
                    ": the margin is reckoned with 0.3 of the static strength (common practice, no source).");
}

}  // namespace

void addWarnings(const MachiningEvaluation& e, RouteOutcome& outcome) {
    Warnings out(outcome);
    if (e.material.blockedOnLightMachines)
        out.add("material_blocked", Severity::blocking,
                e.material.title +
                    " is not for light machines: wear, breakage and chatter; choose another stock, or have "
                    "it made outside. The figures go as far as they can.");
    for (const MachinedCase& c : e.cases)
        warnHeat(e, c, out);
    warnUndercut(e, out);
    warnLeftovers(e, out);
    warnSize(e, out);
    if (e.stock.isAssumed)
        out.add("no_stock", Severity::blocking,
                "No piece of " + e.material.title + " on the shelf holds the part: " + e.stock.missing +
                    ". The figures assume a block of that size is bought.");
    warnCutting(e, out);
    warnThinWalls(e, out);
    warnHolding(e, out);
    warnProof(e, out);
    for (const MachinedCase& c : e.cases)
        warnStructure(e, c, out);
    if (e.work.needsTurnForOutline)
        out.add(
            "deep_outline", Severity::note,
            "The outline is deeper than any cutter is long: it is cut half from either side, which leaves a witness "
            "line of the turning-over error.");
    if (std::any_of(e.work.operations.begin(), e.work.operations.end(),
                    [](const Operation& o) { return o.kind == OperationKind::surface; }))
        out.add("stepped_surface", Severity::caution,
                "Curved or sloping surfaces are cut in levels of 0.1 mm with a flat end mill and keep that step: file "
                "them, or cut them with a ball-nosed cutter.");
}

}  // namespace waybench::machined
