#include "core/comparison/part_json.h"
#include "core/project/object_reader.h"
#include "core/project/project.h"
#include "core/project/shape_paths.h"

namespace waybench {

namespace {

/// Where the first load case stands in a part: alone, or in the list of several.
const std::string kAlone = "load_case", kInList = "load_cases[0]";

/// Kept keys of the first load case follow it when a part gets a second one or loses it.
KeptKeys withFirstLoadCaseAt(const KeptKeys& kept, const std::string& now, const std::string& before) {
    KeptKeys moved;
    for (const auto& [place, text] : kept) {
        const bool isOfIt = place.compare(0, before.size(), before) == 0 && place.size() > before.size() &&
                            (place[before.size()] == '.' || place[before.size()] == '\n');
        moved[isOfIt ? now + place.substr(before.size()) : place] = text;
    }
    return moved;
}

Json partJson(const Part& part) {
    Json out = Json::object();
    out["name"] = part.name;
    if (!part.note.empty()) out["note"] = part.note;
    out["shape"] = shapeJson(part.shape);
    out["printed"] = Json::object();
    if (!part.printedDimensions.empty()) out["printed"]["dimensions"] = dimensionsJson(part.printedDimensions);
    out["printed"]["recipe"] = recipeJson(part.recipe);
    out["machined"] = Json::object();
    if (!part.machinedDimensions.empty()) out["machined"]["dimensions"] = dimensionsJson(part.machinedDimensions);
    out["machined"]["plan"] = planJson(part.plan);
    const bool several = part.loadCaseCount() > 1;
    if (several)
        for (const LoadCase& loadCase : part.loadCases())
            out["load_cases"].push_back(loadCaseJson(loadCase));
    else
        out["load_case"] = loadCaseJson(part.loadCase);
    if (!part.weights.empty()) {
        out["weights"] = Json::object();
        for (const auto& [key, weight] : part.weights)
            out["weights"][key] = weight;
    }
    if (!part.chosenRoute.empty()) out["chosen_route"] = part.chosenRoute;
    restoreKept(out, withFirstLoadCaseAt(part.unknownKeys, several ? kInList : kAlone, several ? kAlone : kInList));
    return out;
}

}  // namespace

std::string projectJson(const Project& project) {
    Json out = Json::object();
    out["schema"] = "waybench.project";
    out["version"] = Project::kVersion;
    out["title"] = project.title;
    for (const auto& [key, text] : {std::pair<const char*, const std::string&>{"author", project.author},
                                    {"identification", project.identification},
                                    {"note", project.note},
                                    {"date", project.date}})
        if (!text.empty()) out[key] = text;
    out["tariff"] = project.tariff;
    out["parts"] = Json::array();
    for (Part part : project.parts) {
        const bool keptWhole = project.file.empty() || project.wholePaths.count(part.shape.file) > 0;
        if (!keptWhole) part.shape.file = pathFrom(part.shape.file, project.folder());
        out["parts"].push_back(partJson(part));
    }
    restoreKept(out, project.unknownKeys);
    return jsonText(out);
}

}  // namespace waybench
