#include <algorithm>
#include <cmath>

#include "core/printed/section_stack.h"
#include "core/quantity/quantity_text.h"
#include "core/route/workings.h"
#include "core/report/sheet.h"

namespace waybench {

namespace {

std::string range(const Figure& figure, const std::string& unit) {
    const RoundedFigure r = roundByBand(figure);
    return r.value + " " + unit + (r.low == r.high ? "" : " (" + r.low + " to " + r.high + ")");
}

SheetBlock materialBlock(const PrintingMaterial& material, const Printer& printer, const RouteOutcome& outcome) {
    SheetBlock block;
    block.heading = "Material and printer";
    block.lines = {material.title + " on the " + printer.title,
                   "Nozzle " + range(printer.nozzleDiameter, "mm") + " at " + range(material.nozzleTemperature, "°C") +
                       ", bed at " + range(material.bedTemperature, "°C"),
                   "From the spool " + range(outcome.at(Question::stock), "g") + ", of which the part " +
                       range(outcome.at(Question::mass), "g")};
    return block;
}

/// How the part stands: its first layer on the bed.
SheetBlock standingBlock(const printed::Recipe& recipe, const Printer& printer, const printed::SectionStack& stack) {
    SheetBlock block;
    block.heading = "How it stands";
    SheetDrawing d;
    d.caption = "first layer on the bed, seen from above, the part's " + printed::upText(recipe) + " up";
    const Region& first = stack.sections[stack.layers.front().section];
    d.material.push_back(first);
    for (const Ring& ring : first)
        d.strokes.push_back({SheetLine::part, ring, true});
    if (recipe.brimReach_mm > 0)
        for (const Ring& ring : offsetBy(first, recipe.brimReach_mm))
            d.strokes.push_back({SheetLine::cut, ring, true});
    const Vec2 size = stack.size_mm.head<2>(), bed = printer.travel_mm.head<2>();
    const Vec2 corner = 0.5 * (size - bed);
    d.strokes.push_back({SheetLine::blank,
                         {corner, {corner.x() + bed.x(), corner.y()}, corner + bed, {corner.x(), corner.y() + bed.y()}},
                         true});
    block.drawing = std::move(d);
    block.lines = {"Stands " + shown(stack.size_mm.x(), 4) + " x " + shown(stack.size_mm.y(), 4) + " mm on a bed of " +
                   shown(bed.x(), 4) + " x " + shown(bed.y(), 4) + " mm, " + shown(stack.size_mm.z(), 4) +
                   " mm tall, " + std::to_string(stack.layers.size()) + " layers"};
    return block;
}

SheetBlock settingsBlock(const printed::Recipe& recipe, const Shop& shop) {
    SheetBlock block;
    block.heading = "Settings";
    SheetTable table;
    table.columns = {{"setting", 3, false}, {"value", 2, false}};
    for (const SettingDescription& d : printed::settingDescriptions(shop)) {
        if (d.key == "material" || d.key == "printer") continue;
        const DisplayUnit unit = displayUnitFor(d.unit, 1);
        table.rows.push_back({d.label, printed::get(recipe, d.key) + (unit.symbol.empty() ? "" : " " + unit.symbol)});
    }
    block.table = std::move(table);
    return block;
}

SheetBlock timeBlock(const RouteOutcome& outcome) {
    SheetBlock block;
    block.heading = "Times";
    block.table = stepTable(outcome.steps);
    const Figure& elapsed = outcome.at(Question::elapsed_time);
    block.lines.push_back("Estimate: " + minutesText(elapsed.low) + " to " + minutesText(elapsed.high) + " min in all");
    return block;
}

SheetBlock checkBlock(const printed::Recipe& recipe) {
    SheetBlock block;
    block.heading = "Before starting and after";
    block.isChecklist = true;
    block.lines = {"Machine's manual, material safety sheet and local rules read; they go before this sheet",
                   "Spool dry and long enough; nozzle and bed clean; first layer watched to its end",
                   "Room ventilated; smoke detector and thermal-runaway protection working; nothing inflammable near"};
    if (recipe.supports) block.lines.push_back("Supports stripped with eye protection on; faces they touched checked");
    block.lines.push_back(
        "Part and bed cooled before removal; holes and seats measured, drilled or reamed where it matters");
    block.lines.push_back("Real part proof-loaded to 1.5 to 2 times the load before use");
    return block;
}

}  // namespace

Sheet printSheet(const Project& project, const Comparison& comparison, const Shop& shop, const Task& task) {
    const Part& part = comparison.part;
    const RouteOutcome& outcome = comparison.printed;
    const printed::Recipe& recipe = part.recipe;
    const Printer& printer = shop.printer(recipe.printer);
    const printed::SectionStack stack = printed::sectionStack(outcome.solid->mesh, recipe, task);
    Sheet sheet = sheetFor(project, part, "Print sheet");
    sheet.summary = outcome.recipe;
    sheet.blocks.push_back(materialBlock(shop.printingMaterial(recipe.material), printer, outcome));
    sheet.blocks.push_back(standingBlock(recipe, printer, stack));
    sheet.blocks.push_back(settingsBlock(recipe, shop));
    sheet.blocks.push_back(timeBlock(outcome));
    sheet.blocks.push_back(checkBlock(recipe));
    if (SheetBlock risks = risksBlock(outcome); !risks.lines.empty()) sheet.blocks.push_back(std::move(risks));
    sheet.blocks.push_back({"Cautions", std::nullopt, std::nullopt, outcome.cautions, false});
    return sheet;
}

}  // namespace waybench
