#include <algorithm>
#include <cmath>

#include "core/geometry/orientation.h"
#include "core/machined/machining_evaluation.h"
#include "core/machined/outline_cut.h"
#include "core/quantity/quantity_text.h"
#include "core/report/sheet.h"

namespace waybench {

namespace {

using namespace machined;

std::string whole(double x) {
    return std::to_string(std::lround(x));
}

std::string coordinate(double x) {
    const double rounded = std::round(10 * x) / 10;
    return plainNumber(rounded == 0 ? 0 : rounded);
}

/// Where the axes of a set-up are zero: lower left corner of the part's box, seen along the tool, and its top.
Vec3 zeroOf(const SetUp& s) {
    const Box3 box = boundsOf(s.mesh);
    return {box.low.x(), box.low.y(), box.high.z()};
}

SheetBlock stockBlock(const MachiningEvaluation& e) {
    SheetBlock block;
    block.heading = "Blank";
    block.lines.push_back(e.material.title + ", " + e.stock.text);
    const Vec3& b = e.stock.size_mm;
    const Vec3 part = boundsOf(e.setUps.front().mesh).size();
    block.lines.push_back("Blank " + shown(b.x(), 4) + " x " + shown(b.y(), 4) + " x " + shown(b.z(), 4) +
                          " mm as it lies on the table; part " + shown(part.x(), 4) + " x " + shown(part.y(), 4) +
                          " x " + shown(part.z(), 4) + " mm in its middle");
    block.lines.push_back(e.stock.excess_mm > 0
                              ? "Top is faced by " + shown(e.stock.excess_mm, 2) + " mm, the underside stays as bought"
                              : "Both flat faces stay as bought");
    const double density = e.material.density_g_per_cm3.value / 1000;
    block.lines.push_back("Blank " + shown(e.stock.volume_mm3() * density) + " g, part " + shown(e.part_mm3 * density) +
                          " g, swarf and rest " + shown((e.stock.volume_mm3() - e.part_mm3) * density) + " g");
    if (e.stock.isAssumed) block.lines.push_back("Not on the shelf: " + e.stock.missing);
    return block;
}

SheetDrawing drawingOf(const MachiningEvaluation& e, std::size_t number) {
    const SetUp& s = e.setUps[number];
    const HoldingCheck& hold = e.holding[number];
    SheetDrawing d;
    d.caption = "seen along the tool, " + std::string(nameOf(s.direction)) + " up";
    d.material.push_back(s.slabs.back().section);
    const auto stroke = [&](SheetLine line, std::vector<Vec2> points, bool isClosed) {
        d.strokes.push_back({line, std::move(points), isClosed});
    };
    const HeldWork& w = hold.work;
    stroke(SheetLine::blank, {w.low, {w.high.x(), w.low.y()}, w.high, {w.low.x(), w.high.y()}}, true);
    for (const Slab& slab : s.slabs)
        for (const Ring& ring : slab.section)
            stroke(SheetLine::part, ring, true);
    for (const Operation& o : e.work.operations)
        if (o.setUp == static_cast<int>(number) && o.kind == OperationKind::outline)
            for (const auto& place : o.passes)
                for (const Pass& pass : place)
                    stroke(SheetLine::cut, pass.points, pass.isClosed);
    if (w.method->kind == WorkholdingKind::clamps) {
        const Vec2 half = 0.5 * Vec2::Constant(w.method->foot_mm);
        const std::vector<Vec2> places = clampPlaces(w, w.clamps);
        for (std::size_t i = 0; i < places.size(); ++i) {
            const Vec2 &p = places[i], a = p - half, b = p + half;
            stroke(SheetLine::hold, {a, {b.x(), a.y()}, b, {a.x(), b.y()}}, true);
            d.labels.push_back({p, "C" + std::to_string(i + 1)});
        }
    }
    if (number == 0 && e.work.tabs > 0) {
        const double across = 0.5 * e.tabs.width_mm;
        for (const Tab& tab : tabPlaces(s.outline, e.work.tabs, e.tabs.width_mm)) {
            const Vec2 along(-tab.outward.y(), tab.outward.x());
            const Vec2 out = 6 * tab.outward;
            stroke(SheetLine::tab,
                   {tab.at - across * along, tab.at - across * along + out, tab.at + across * along + out,
                    tab.at + across * along},
                   true);
        }
    }
    d.zero = zeroOf(s).head<2>();
    return d;
}

std::string holdingLine(const HoldingCheck& c) {
    const Workholding& m = *c.work.method;
    std::string text =
        "Held by " + (m.kind == WorkholdingKind::clamps ? std::to_string(c.work.clamps) + " " + m.title : m.title);
    if (m.kind != WorkholdingKind::area)
        text += ", " + shown(m.force.value, 2) + " N (" + shown(m.force.low, 2) + " to " + shown(m.force.high, 2) +
                ")" + (m.kind == WorkholdingKind::clamps ? " each" : "");
    if (c.tool != nullptr)
        text += "; carries " + shown(c.safety.value, 2) + " times (" + shown(c.safety.low, 2) + " to " +
                shown(c.safety.high, 2) + ") the largest load, that of \"" + nameOf(c.kind) + "\"; 2.5 asked" +
                (c.holds() ? "" : ": NOT ENOUGH");
    return text;
}

SheetBlock setUpBlock(const MachiningEvaluation& e, std::size_t number) {
    const SetUp& s = e.setUps[number];
    SheetBlock block;
    block.heading = e.setUps.size() > 1
                        ? "Set-up " + std::to_string(number + 1) + " of " + std::to_string(e.setUps.size())
                        : "Set-up";
    block.drawing = drawingOf(e, number);
    SheetTable table;
    table.columns = {{"operation", 2.3, false}, {"tool", 2.3, false},    {"1/min", 0.9, true},
                     {"mm/min", 1.0, true},     {"down, mm", 1.2, true}, {"over, mm", 1.2, true},
                     {"to z, mm", 1.15, true},  {"min", 0.8, true},      {"limited by", 2.2, false}};
    const double top = boundsOf(s.mesh).high.z();
    for (const Operation& o : e.work.operations) {
        if (o.setUp != static_cast<int>(number)) continue;
        const bool isDrill = o.kind == OperationKind::drilling;
        double lowest = 1e300;
        for (std::size_t place = 0; place < o.heights_mm.size(); ++place)
            lowest = std::min(lowest, lowestPoint(o, place, s, e.work.needsTurnForOutline));
        table.rows.push_back({nameOf(o.kind), o.tool->title, whole(o.cutting.spindle_per_min),
                              whole(60 * o.cutting.feed_mm_s), isDrill ? "" : shown(o.cutting.depth_mm, 2),
                              isDrill ? "" : shown(o.cutting.width_mm, 2), coordinate(lowest - top),
                              minutesText(o.seconds), o.cutting.binding});
    }
    block.table = std::move(table);
    block.lines.push_back("Zero: x and y at the lower left corner of the part, " +
                          coordinate(zeroOf(s).x() - e.holding[number].work.low.x()) + " and " +
                          coordinate(zeroOf(s).y() - e.holding[number].work.low.y()) +
                          " mm in from the edges of what is clamped; z at the part's finished top");
    block.lines.push_back(holdingLine(e.holding[number]));
    if (number == 0 && e.work.tabs > 0) {
        std::string places;
        for (const Tab& tab : tabPlaces(s.outline, e.work.tabs, e.tabs.width_mm))
            places += (places.empty() ? "" : ", ") + ("(" + coordinate(tab.at.x() - zeroOf(s).x()) + "; " +
                                                      coordinate(tab.at.y() - zeroOf(s).y()) + ")");
        block.lines.push_back(std::to_string(e.work.tabs) + " tabs " + shown(e.tabs.width_mm) + " mm wide, " +
                              shown(e.tabs.height_mm) + " mm high at " + places);
    }
    return block;
}

SheetBlock toolBlock(const MachiningEvaluation& e) {
    SheetBlock block;
    block.heading = "Tools";
    SheetTable table;
    table.columns = {{"tool", 3, false},         {"diameter", 1, true},  {"teeth", 0.8, true},
                     {"stick-out", 1, true},     {"goes down", 1, true}, {"force on it", 1.6, true},
                     {"pushed aside", 1.2, true}};
    std::vector<const Tool*> seen;
    for (const Operation& first : e.work.operations) {
        if (std::find(seen.begin(), seen.end(), first.tool) != seen.end()) continue;
        seen.push_back(first.tool);
        double reach = 0, force = 0, low = 0, high = 0, aside = 0;
        for (const Operation& o : e.work.operations) {
            if (o.tool != first.tool) continue;
            reach = std::max(reach, o.reach_mm);
            aside = std::max(aside, o.cutting.deflection_mm);
            if (o.cutting.force_N.value <= force) continue;
            force = o.cutting.force_N.value;
            low = o.cutting.force_N.low;
            high = o.cutting.force_N.high;
        }
        const Tool& t = *first.tool;
        table.rows.push_back({t.title, shown(t.diameter_mm) + " mm", std::to_string(t.teeth),
                              shown(t.stickOut_mm) + " mm", shown(reach) + " mm",
                              shown(force, 2) + " (" + shown(low, 2) + " to " + shown(high, 2) + ") N",
                              t.kind == ToolKind::drill ? "" : shown(aside, 2) + " mm"});
    }
    block.table = std::move(table);
    return block;
}

SheetBlock timeBlock(const MachiningEvaluation& e) {
    SheetBlock block;
    block.heading = "Times";
    block.table = stepTable(stepsOf(e));
    block.lines.push_back(
        "Estimates: cutting ±10 to 25 %, by hand ±40 %. Programming and the first air run are not among them.");
    return block;
}

SheetBlock checkBlock(const MachiningEvaluation& e) {
    SheetBlock block;
    block.heading = "Before starting";
    block.isChecklist = true;
    block.lines = {"Machine's manual, material safety sheet and local rules read; they go before this sheet",
                   "Blank measured: thickness and edges as above; tools measured, their stick-out as in the table",
                   "Clamps and tabs clear of the paths, screws tight, wrench out of the spindle",
                   "Zero probed and read twice; first run in the air, 5 to 10 mm above the work",
                   "Eye and hearing protection on, extraction running, no gloves or loose sleeves, hair tied up"};
    if (e.work.tabs > 0)
        block.lines.push_back("Last pass of the outline watched: the part is then held by its tabs alone");
    return block;
}

}  // namespace

Sheet setupSheet(const Project& project, const Comparison& comparison, const Shop& shop, const Task& task) {
    const Part& part = comparison.part;
    RouteTask work;
    work.partName = part.name;
    work.solid = comparison.machined.solid;
    MachiningEvaluation e(work, shop, part.plan, project.tariff);
    planWork(e, Fidelity::standard, task);
    Sheet sheet = sheetFor(project, part, "Set-up sheet for the mill");
    sheet.summary = comparison.machined.recipe;
    sheet.blocks.push_back(stockBlock(e));
    for (std::size_t i = 0; i < e.setUps.size(); ++i)
        sheet.blocks.push_back(setUpBlock(e, i));
    sheet.blocks.push_back(toolBlock(e));
    sheet.blocks.push_back(timeBlock(e));
    sheet.blocks.push_back(checkBlock(e));
    if (SheetBlock risks = risksBlock(comparison.machined); !risks.lines.empty())
        sheet.blocks.push_back(std::move(risks));
    sheet.blocks.push_back({"Cautions", std::nullopt, std::nullopt, comparison.machined.cautions, false});
    return sheet;
}

}  // namespace waybench
