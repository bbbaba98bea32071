#include <cmath>
#include <set>

#include "core/fault/input_fault.h"
#include "core/geometry/shape.h"
#include "core/project/json_document.h"
#include "core/project/key_check.h"
#include "core/project/object_reader.h"
#include "core/project/project.h"
#include "core/route/outcome.h"

namespace waybench {

namespace {

// What can be meant on a bench; far outside it a number is a slip of the keyboard or of the unit.
constexpr double kLongest_mm = 1e5;
constexpr double kLargestForce_N = 1e8;
constexpr double kLargestMoment_Nmm = 1e11;
constexpr double kLargestPressure_MPa = 1e5;
constexpr double kLongest_h = 1e6;
constexpr double kMostCycles = 1e12;

template <typename Enum>
std::vector<std::string> namesUpTo(Enum last) {
    std::vector<std::string> names;
    for (int i = 0; i <= static_cast<int>(last); ++i)
        names.emplace_back(nameOf(static_cast<Enum>(i)));
    return names;
}

/// A direction of length one; lengths already right to rounding stay as they are, so that saving changes nothing.
Vec3 unitDirection(const Vec3& v, const std::string& place) {
    const double length = v.norm();
    if (!(length > 0))
        throw InputFault("direction_zero", "", place, "the direction has no length", "write for example [0, 0, 1]");
    return std::fabs(length - 1) < 1e-9 ? v : Vec3(v / length);
}

FaceSelector readSelector(ObjectReader& in) {
    const bool byName = in.has("face"), byBox = in.has("box"), byPoint = in.has("point");
    if (byName + byBox + byPoint != 1)
        throw InputFault(byName + byBox + byPoint == 0 ? "key_missing" : "face_said_twice", "", in.placeOf("face"),
                         byName + byBox + byPoint == 0 ? "no face is named here" : "the face is named in two ways",
                         "name it by 'face', or by 'box' with two corners, or by 'point' and 'normal'");
    if (byName) return FaceSelector::byName(in.text("face"));
    if (byPoint) {
        const Vec3 point = in.vector("point", kLongest_mm);
        return FaceSelector::byPoint(point, unitDirection(in.vector("normal", kLongest_mm), in.placeOf("normal")));
    }
    const Json& box = in.required("box");
    const std::string place = in.placeOf("box");
    if (!box.is_array() || box.size() != 2) refuseType(box, place, "two corners [[x, y, z], [x, y, z]]");
    const Vec3 a = vectorAt(box[0], place + "[0]", kLongest_mm), b = vectorAt(box[1], place + "[1]", kLongest_mm);
    return FaceSelector::byBox(a.cwiseMin(b), a.cwiseMax(b));
}

Load readLoad(ObjectReader& in) {
    Load load;
    load.kind = static_cast<LoadKind>(in.choice("kind", namesUpTo(LoadKind::bearing)));
    load.face = readSelector(in);
    switch (load.kind) {
        case LoadKind::force:
        case LoadKind::bearing:
            load.vector = in.vector("force_N", kLargestForce_N);
            break;
        case LoadKind::moment:
            load.vector = in.vector("moment_Nmm", kLargestMoment_Nmm);
            break;
        case LoadKind::pressure:
            load.pressure_MPa = in.number("pressure_MPa", -kLargestPressure_MPa, kLargestPressure_MPa);
            break;
    }
    return load;
}

LoadCase readLoadCase(ObjectReader in, ReadingNotes& notes, KeptKeys& kept) {
    LoadCase loadCase;
    loadCase.name = in.textOr("name", loadCase.name);
    in.each("holds", [&](const Json& value, const std::string& place, const std::string& within) {
        ObjectReader entry(value, place, within, notes, kept);
        Hold hold{readSelector(entry)};
        if (entry.has("kind")) hold.kind = static_cast<HoldKind>(entry.choice("kind", namesUpTo(HoldKind::bolted)));
        if (entry.has("head_diameter_mm")) hold.headDiameter_mm = entry.number("head_diameter_mm", 0, kLongest_mm);
        loadCase.holds.push_back(hold);
        entry.finish();
    });
    in.each("loads", [&](const Json& value, const std::string& place, const std::string& within) {
        ObjectReader entry(value, place, within, notes, kept);
        loadCase.loads.push_back(readLoad(entry));
        entry.finish();
    });
    if (in.has("gravity")) loadCase.gravity = in.vector("gravity", 1000);
    in.eachOr("masses", [&](const Json& value, const std::string& place, const std::string& within) {
        ObjectReader entry(value, place, within, notes, kept);
        loadCase.masses.push_back({readSelector(entry), entry.number("mass_g", 0, 1e6)});
        entry.finish();
    });
    ObjectReader measured = in.object("measured");
    loadCase.measuredFace = readSelector(measured);
    loadCase.measuredDirection =
        unitDirection(measured.vector("direction", kLongest_mm), measured.placeOf("direction"));
    measured.finish();
    loadCase.deflectionLimit_mm = in.number("deflection_limit_mm", 0, 1e4);
    loadCase.strengthFactor = in.numberOr("strength_factor", loadCase.strengthFactor, 0, 1000);
    loadCase.temperature_celsius = in.numberOr("temperature_C", loadCase.temperature_celsius, -273.15, 2000);
    loadCase.duration = static_cast<Duration>(in.choiceOr("duration", namesUpTo(Duration::cyclic), 0));
    if (in.has("duration_h")) loadCase.duration_h = in.number("duration_h", 0, kLongest_h);
    if (in.has("cycles")) loadCase.cycles = in.number("cycles", 0, kMostCycles);
    loadCase.loadSpread = in.numberOr("load_spread", loadCase.loadSpread, 0, 1);
    in.finish();
    return loadCase;
}

std::string filePathIn(ObjectReader& in, const std::string& key) {
    const std::string path = in.text(key);
    if (path.empty() || path.find('\0') != std::string::npos)
        throw InputFault("value_unknown", "", in.placeOf(key), "this is not the name of a file",
                         "write the file's path, relative to the project file");
    return path;
}

void checkFamily(const std::string& key, const std::string& place) {
    try {
        familyNamed(key);
    } catch (const InputFault& fault) {
        throw InputFault(fault.code(), "", place, fault.problem(), fault.remedy());
    }
}

Shape readShape(ObjectReader in) {
    Shape shape;
    const bool family = in.has("family"), drawing = in.has("drawing"), surface = in.has("surface");
    if (family + drawing + surface != 1)
        throw InputFault(family + drawing + surface == 0 ? "key_missing" : "shape_said_twice", "", in.placeOf("family"),
                         family + drawing + surface == 0 ? "the shape does not say where it comes from"
                                                         : "the shape comes from two places at once",
                         "write one of 'family', 'drawing' (a DXF file) or 'surface' (an STL or STEP file)");
    if (family) {
        shape.family = in.text("family");
        checkFamily(shape.family, in.placeOf("family"));
        shape.dimensions = in.numbersOr("dimensions", -kLongest_mm, kLongest_mm);
    } else {
        shape.kind = drawing ? ShapeKind::drawing : ShapeKind::surface;
        shape.file = filePathIn(in, drawing ? "drawing" : "surface");
        if (drawing) shape.dimensions["thickness"] = in.number("thickness_mm", 1e-3, kLongest_mm);
        if (in.has("unit_mm")) shape.fileUnit_mm = in.number("unit_mm", 1e-6, 1e6);
    }
    in.finish();
    return shape;
}

/// The settings know their ranges; the file's key is the setting's with the unit behind it.
template <typename Settings>
void checkSettings(const Settings& settings, const std::vector<SettingDescription>& descriptions, ObjectReader& in) {
    for (const SettingDescription& d : descriptions) {
        if (!d.choices.empty() || !(d.minimum < d.maximum)) continue;
        Settings trial = settings;
        try {
            set(trial, d.key, get(settings, d.key));
        } catch (const InputFault& fault) {
            const std::string unit = d.unit == Unit::millimetre ? "_mm" : d.unit == Unit::degree ? "_deg" : "";
            throw InputFault("value_out_of_range", "", in.placeOf(d.key + unit), fault.problem(), fault.remedy());
        }
    }
}

/// Files of before the settings took the standard's words carry their former keys; they are read, never written.
std::string keyIn(ObjectReader& in, const std::string& key, const std::string& former) {
    return !in.has(key) && in.has(former) ? former : key;
}

printed::Recipe readRecipe(ObjectReader in) {
    printed::Recipe r;
    r.material = in.textOr("material", r.material);
    r.printer = in.textOr("printer", r.printer);
    r.layerThickness_mm =
        in.numberOr(keyIn(in, "layer_thickness_mm", "layer_height_mm"), r.layerThickness_mm, 0.01, 10);
    r.firstLayerThickness_mm =
        in.numberOr(keyIn(in, "first_layer_thickness_mm", "first_layer_height_mm"), r.firstLayerThickness_mm, 0.01, 10);
    r.beadWidth_mm = in.numberOr("bead_width_mm", r.beadWidth_mm, 0.01, 20);
    r.walls = in.wholeOr("walls", r.walls, 0, 1000);
    r.skinsBelow = in.wholeOr("skins_below", r.skinsBelow, 0, 10000);
    r.skinsAbove = in.wholeOr("skins_above", r.skinsAbove, 0, 10000);
    r.infill = static_cast<InfillPattern>(
        in.choiceOr("infill", namesUpTo(InfillPattern::gyroid), static_cast<std::size_t>(r.infill)));
    r.infillShare = in.numberOr("infill_share", r.infillShare, 0, 1);
    r.up = static_cast<Direction>(in.choiceOr("up", namesUpTo(Direction::minus_z), static_cast<std::size_t>(r.up)));
    r.leanX_deg = in.numberOr("lean_x_deg", r.leanX_deg, -60, 60);
    r.leanY_deg = in.numberOr("lean_y_deg", r.leanY_deg, -60, 60);
    r.supports = in.truthOr("supports", r.supports);
    r.overhangLimit_deg = in.numberOr("overhang_limit_deg", r.overhangLimit_deg, 0, 90);
    r.brimReach_mm = in.numberOr(keyIn(in, "brim_reach_mm", "brim_width_mm"), r.brimReach_mm, 0, 30);
    checkSettings(r, printed::settingDescriptions(Shop{}), in);
    in.finish();
    return r;
}

machined::Plan readPlan(ObjectReader in) {
    machined::Plan p;
    p.material = in.textOr("material", p.material);
    p.mill = in.textOr("mill", p.mill);
    p.stockMargin_mm = in.numberOr("stock_margin_mm", p.stockMargin_mm, 0, 1000);
    p.finishAllowance_mm = in.numberOr("finish_allowance_mm", p.finishAllowance_mm, 0, 100);
    p.smallestTool_mm = in.numberOr("smallest_tool_mm", p.smallestTool_mm, 0, 1000);
    p.tabs = in.truthOr("tabs", p.tabs);
    p.surfaceLevelling = in.truthOr("surface_levelling", p.surfaceLevelling);
    p.holding = in.textOr("holding", p.holding);
    p.holdingTurned = in.textOr("holding_turned", p.holdingTurned);
    p.clamps = in.wholeOr("clamps", p.clamps, 1, 8);
    checkSettings(p, machined::settingDescriptions(Shop{}), in);
    in.finish();
    return p;
}

/// One load case as an object, or several as a list.
void readLoadCases(ObjectReader& in, ReadingNotes& notes, Part& part) {
    const bool several = in.has("load_cases");
    if (!several) {
        part.loadCase = readLoadCase(in.object("load_case"), notes, part.unknownKeys);
        return;
    }
    if (in.has("load_case"))
        throw InputFault("load_case_said_twice", "", in.placeOf("load_cases"),
                         "the load cases stand both in 'load_case' and in 'load_cases'",
                         "put all of them into the list 'load_cases', or one into 'load_case'");
    bool isFirst = true;
    in.each("load_cases", [&](const Json& value, const std::string& place, const std::string& within) {
        const LoadCase read =
            readLoadCase(ObjectReader(value, place, within, notes, part.unknownKeys), notes, part.unknownKeys);
        if (isFirst)
            part.loadCase = read;
        else
            part.furtherLoadCases.push_back(read);
        isFirst = false;
    });
    if (isFirst)
        throw InputFault("load_cases_empty", "", in.placeOf("load_cases"), "the list of load cases is empty",
                         "write at least one");
}

Part readPart(const Json& value, const std::string& place, ReadingNotes& notes) {
    Part part;
    ObjectReader in(value, place, "", notes, part.unknownKeys);
    part.name = in.text("name");
    if (part.name.empty())
        throw InputFault("part_without_name", "", in.placeOf("name"), "the part has no name", "write one");
    if (in.has("note")) part.note = in.text("note");
    part.shape = readShape(in.object("shape"));
    if (in.has("printed")) {
        ObjectReader route = in.object("printed");
        part.printedDimensions = route.numbersOr("dimensions", -kLongest_mm, kLongest_mm);
        if (route.has("recipe")) part.recipe = readRecipe(route.object("recipe"));
        route.finish();
    }
    if (in.has("machined")) {
        ObjectReader route = in.object("machined");
        part.machinedDimensions = route.numbersOr("dimensions", -kLongest_mm, kLongest_mm);
        if (route.has("plan")) part.plan = readPlan(route.object("plan"));
        route.finish();
    }
    readLoadCases(in, notes, part);
    part.weights = in.numbersOr("weights", 0, 1);
    std::vector<std::string> questionKeys;
    for (const QuestionText& question : questions())
        questionKeys.push_back(question.key);
    for (const auto& [key, weight] : part.weights) {
        if (questionNamed(key)) continue;
        const std::string nearest = nearestName(key, questionKeys);
        notes.unknown.push_back(in.placeOf("weights") + "." + key + ": the key '" + key + "' is not known" +
                                (nearest.empty() ? "" : " (is '" + nearest + "' meant?)") +
                                "; it is kept, but has no effect");
    }
    if (in.has("chosen_route"))
        part.chosenRoute =
            std::vector<std::string>{"", "printed", "machined"}[in.choice("chosen_route", {"", "printed", "machined"})];
    in.finish();
    return part;
}

void checkHeading(ObjectReader& in) {
    const std::string schema = in.text("schema");
    if (schema != "waybench.project")
        throw InputFault("schema_unknown", "", "schema", "this file says it is a '" + schema + "'",
                         "open a project file; its first line says \"schema\": \"waybench.project\"");
    const double version = in.number("version", 1, 1e9);
    if (version > Project::kVersion)
        throw InputFault("schema_newer", "", "version",
                         "this project was saved by a newer Waybench and needs one that reads project version " +
                             numberText(version) + ", this one reads up to version " +
                             std::to_string(Project::kVersion),
                         "open it with the newer program");
    if (version != std::floor(version))
        throw InputFault("value_wrong_type", "", "version", numberText(version) + " is not a whole number",
                         "write " + std::to_string(Project::kVersion));
}

Project readDocument(const Json& document, ReadingNotes& notes) {
    Project project;
    ObjectReader in(document, "", "", notes, project.unknownKeys);
    checkHeading(in);
    for (const auto& [key, target] : {std::pair<const char*, std::string*>{"title", &project.title},
                                      {"author", &project.author},
                                      {"identification", &project.identification},
                                      {"note", &project.note},
                                      {"date", &project.date}})
        if (in.has(key)) *target = in.text(key);
    project.tariff = in.textOr("tariff", project.tariff);
    std::set<std::string> names;
    in.each("parts", [&](const Json& value, const std::string& place, const std::string&) {
        project.parts.push_back(readPart(value, place, notes));
        if (!names.insert(project.parts.back().name).second)
            throw InputFault("part_name_twice", "", place + ".name",
                             "two parts are called '" + project.parts.back().name + "'", "rename one of them");
        const std::filesystem::path& named = project.parts.back().shape.file;
        if (named.is_absolute()) project.wholePaths.insert(named);
    });
    in.finish();
    return project;
}

}  // namespace

Project projectFromJson(const std::string& text, const std::string& fileName, ReadReport* report) {
    try {
        ReadingNotes notes;
        Project project = readDocument(parseJsonDocument(text), notes);
        if (report) {
            report->notes = notes.unknown;
            report->defaultsTaken = notes.defaults;
        }
        return project;
    } catch (const InputFault& fault) {
        throw fault.inFile(fileName);
    }
}

}  // namespace waybench
