#include "core/comparison/ways_up.h"

#include "core/comparison/json_text.h"
#include "core/comparison/part_solid.h"
#include "core/fault/input_fault.h"

namespace waybench {

namespace {

constexpr int kDigits = 9;

double rounded(double value) {
    return roundedToDigits(value, kDigits);
}

Json figureJson(const Figure& f) {
    return {{"value", rounded(f.value)}, {"low", rounded(f.low)},      {"high", rounded(f.high)},
            {"unit", symbolOf(f.unit)},  {"origin", nameOf(f.origin)}, {"note", f.note}};
}

/// @param demand key of the demand: "over_limit"
Json judgedJson(const printed::Judged& judged, const char* demand) {
    return {{"figure", figureJson(judged.figure)},
            {"limit", rounded(judged.limit)},
            {"load_case", judged.loadCase},
            {demand, rounded(judged.demand)},
            {"holding", printed::nameOf(judged.holding)}};
}

}  // namespace

std::vector<printed::WayUp> waysUp(const Part& part, const std::filesystem::path& folder, const Shop& shop,
                                   const std::string& tariff, const Task& task) {
    try {
        RouteTask routeTask;
        routeTask.partName = part.name;
        routeTask.solid = std::make_shared<const Solid>(solidOf(part, RouteKind::printed, folder));
        routeTask.loadCase = part.loadCase;
        routeTask.furtherLoadCases = part.furtherLoadCases;
        return printed::rankedWaysUp(routeTask, part.recipe, shop, tariff, task);
    } catch (const InputFault& fault) {
        throw fault.within("part '" + part.name + "', printed");
    }
}

std::string waysUpJson(const Part& part, const std::vector<printed::WayUp>& ways) {
    Json list = Json::array();
    for (const printed::WayUp& way : ways) {
        list.push_back({{"up", nameOf(way.up)},
                        {"lean_x_deg", rounded(way.leanX_deg)},
                        {"lean_y_deg", rounded(way.leanY_deg)},
                        {"fits_printer", way.fitsPrinter},
                        {"holding", printed::nameOf(way.holding())},
                        {"deflection", judgedJson(way.deflection, "over_limit")},
                        {"strength_margin", judgedJson(way.strength, "required_over_margin")},
                        {"support", figureJson(way.support_mm3)},
                        {"height_mm", rounded(way.height_mm)},
                        {"footprint_mm2", rounded(way.footprint_mm2)},
                        {"machine_time", figureJson(way.machineTime)},
                        {"hands_on_time", figureJson(way.handsOnTime)},
                        {"holes", way.holes},
                        {"round_holes", way.roundHoles},
                        {"penalty", rounded(way.penalty)},
                        {"why", way.why}});
    }
    return jsonText({{"schema", "waybench.ways_up"},
                     {"version", 1},
                     {"part", part.name},
                     {"up_now", nameOf(part.recipe.up)},
                     {"fidelity", "draft"},
                     {"ways", std::move(list)}});
}

}  // namespace waybench
