#include "core/printed/recipe.h"

#include <Eigen/Geometry>
#include <cmath>

#include "core/fault/input_fault.h"
#include "core/quantity/quantity_text.h"

namespace waybench::printed {
namespace {

constexpr double kRadian = 3.14159265358979323846 / 180;  // of a degree
constexpr InfillPattern kPatterns[] = {InfillPattern::lines, InfillPattern::grid, InfillPattern::triangles,
                                       InfillPattern::honeycomb, InfillPattern::gyroid};
constexpr Direction kDirections[] = {Direction::plus_x,  Direction::minus_x, Direction::plus_y,
                                     Direction::minus_y, Direction::plus_z,  Direction::minus_z};

/// One setting: its description and where it lives in the recipe. Exactly one of the members is set.
struct Setting {
    SettingDescription description;
    double Recipe::*number = nullptr;
    int Recipe::*count = nullptr;
    bool Recipe::*flag = nullptr;
    std::string Recipe::*key = nullptr;
};

SettingDescription numeric(std::string key, std::string label, Unit unit, double minimum, double maximum,
                           double standard, std::string help, bool isWhole = false) {
    return {std::move(key), std::move(label), unit, minimum, maximum, standard, isWhole, {}, std::move(help)};
}

SettingDescription chosen(std::string key, std::string label, std::vector<std::string> choices, std::string help) {
    return {std::move(key), std::move(label), Unit::none, 0, 0, 0, false, std::move(choices), std::move(help)};
}

std::vector<std::string> patternNames() {
    std::vector<std::string> names;
    for (const InfillPattern p : kPatterns)
        names.emplace_back(nameOf(p));
    return names;
}

std::vector<std::string> directionNames() {
    std::vector<std::string> names;
    for (const Direction d : kDirections)
        names.emplace_back(nameOf(d));
    return names;
}

const std::vector<Setting>& settings() {
    static const std::vector<Setting> all = [] {
        const Recipe r;
        std::vector<Setting> s;
        const auto number = [&](SettingDescription d, double Recipe::*member) {
            s.push_back({std::move(d), member, nullptr, nullptr, nullptr});
        };
        const auto count = [&](SettingDescription d, int Recipe::*member) {
            s.push_back({std::move(d), nullptr, member, nullptr, nullptr});
        };
        const auto key = [&](SettingDescription d, std::string Recipe::*member) {
            s.push_back({std::move(d), nullptr, nullptr, nullptr, member});
        };
        key(chosen("material", "material", {}, "Filament the part is printed from."), &Recipe::material);
        key(chosen("printer", "printer", {}, "Machine it is printed on."), &Recipe::printer);
        s.push_back({chosen("up", "upward direction", directionNames(),
                            "Part direction that points upwards on the bed; layers are weakest across it.")});
        number(numeric("lean_x", "lean about x", Unit::degree, -60, 60, r.leanX_deg,
                       "Turns the standing part about its x axis, for directions between the six."),
               &Recipe::leanX_deg);
        number(numeric("lean_y", "lean about y", Unit::degree, -60, 60, r.leanY_deg,
                       "Turns it further about the bed's y axis."),
               &Recipe::leanY_deg);
        number(numeric("layer_thickness", "layer thickness", Unit::millimetre, 0.05, 0.6, r.layerThickness_mm,
                       "Thickness of one layer. Halving it about doubles the time."),
               &Recipe::layerThickness_mm);
        number(numeric("first_layer_thickness", "first layer thickness", Unit::millimetre, 0.05, 0.6,
                       r.firstLayerThickness_mm, "Thickness of the layer that sticks to the bed."),
               &Recipe::firstLayerThickness_mm);
        number(numeric("bead_width", "bead width", Unit::millimetre, 0.2, 1.6, r.beadWidth_mm,
                       "Width of one laid bead, usually 1.0 to 1.3 nozzle diameters."),
               &Recipe::beadWidth_mm);
        count(
            numeric("walls", "walls", Unit::none, 1, 40, r.walls, "Beads around every outline, holes included.", true),
            &Recipe::walls);
        count(numeric("skins_below", "solid layers below", Unit::none, 0, 200, r.skinsBelow,
                      "Solid layers above every surface that faces down.", true),
              &Recipe::skinsBelow);
        count(numeric("skins_above", "solid layers above", Unit::none, 0, 200, r.skinsAbove,
                      "Solid layers under every surface that faces up.", true),
              &Recipe::skinsAbove);
        s.push_back({chosen("infill", "infill pattern", patternNames(), "Pattern that fills the inside.")});
        number(numeric("infill_share", "infill share", Unit::none, 0.0, 1.0, r.infillShare,
                       "Share of the inside that is material, 0 to 1."),
               &Recipe::infillShare);
        s.push_back({chosen("supports", "supports", {"no", "yes"},
                            "Print supports under surfaces that lean further than the overhang limit."),
                     nullptr, nullptr, &Recipe::supports, nullptr});
        number(numeric("overhang_limit", "overhang limit", Unit::degree, 0, 85, r.overhangLimit_deg,
                       "Lean from the vertical up to which a surface prints without support."),
               &Recipe::overhangLimit_deg);
        number(numeric("brim_reach", "brim reach", Unit::millimetre, 0, 30, r.brimReach_mm,
                       "How far the rings laid around the first layer reach, to hold it to the bed; broken off "
                       "afterwards. 0 lays none."),
               &Recipe::brimReach_mm);
        return s;
    }();
    return all;
}

}  // namespace

Mat3 standingRotation(const Recipe& recipe) {
    const Mat3 upright = rotationToUp(recipe.up);
    if (recipe.leanX_deg == 0 && recipe.leanY_deg == 0) return upright;
    return Eigen::AngleAxisd(recipe.leanY_deg * kRadian, Vec3::UnitY()).toRotationMatrix() *
           Eigen::AngleAxisd(recipe.leanX_deg * kRadian, Vec3::UnitX()).toRotationMatrix() * upright;
}

Vec3 upwardOf(const Recipe& recipe) {
    return standingRotation(recipe).transpose() * Vec3::UnitZ();
}

Stance stanceOf(const Recipe& recipe) {
    return {recipe.up, recipe.leanX_deg, recipe.leanY_deg};
}

void take(Recipe& recipe, const Stance& stance) {
    recipe.up = stance.up;
    recipe.leanX_deg = stance.leanX_deg;
    recipe.leanY_deg = stance.leanY_deg;
}

std::string upText(const Recipe& recipe) {
    return upText(stanceOf(recipe));
}

std::string upText(const Stance& stance) {
    std::string text = nameOf(stance.up), lean;
    const auto add = [&](double degrees, const char* axis) {
        if (degrees == 0) return;
        lean += (lean.empty() ? " leaned " : " and ") + plainNumber(std::round(10 * degrees) / 10) + " degrees about " +
                axis;
    };
    add(stance.leanX_deg, "x");
    add(stance.leanY_deg, "y");
    return text + lean;
}

void setUpward(Recipe& recipe, const Vec3& direction) {
    const Vec3 wanted = direction.normalized();
    for (const Direction d : kDirections)
        if (unitVector(d).dot(wanted) > unitVector(recipe.up).dot(wanted) + 1e-12) recipe.up = d;
    const Vec3 v = rotationToUp(recipe.up) * wanted;
    const auto degrees = [](double radian) { return std::round(radian / kRadian * 1e4) / 1e4; };
    recipe.leanX_deg = degrees(std::atan2(v.y(), v.z()));
    recipe.leanY_deg = degrees(-std::atan2(v.x(), std::hypot(v.y(), v.z())));
    if (recipe.leanX_deg == 0) recipe.leanX_deg = 0;  // no minus zero
    if (recipe.leanY_deg == 0) recipe.leanY_deg = 0;
}

std::vector<SettingDescription> settingDescriptions(const Shop& shop) {
    std::vector<SettingDescription> descriptions;
    for (const Setting& s : settings()) {
        descriptions.push_back(s.description);
        SettingDescription& d = descriptions.back();
        if (d.key == "material")
            for (const PrintingMaterial& m : shop.printingMaterials)
                d.choices.push_back(m.key);
        if (d.key == "printer")
            for (const Printer& p : shop.printers)
                d.choices.push_back(p.key);
    }
    return descriptions;
}

void set(Recipe& recipe, const std::string& key, const std::string& value) {
    const Setting& s = settingNamed(settings(), key, "recipe");
    const SettingDescription& d = s.description;
    if (s.number)
        recipe.*s.number = readNumber(d, value);
    else if (s.count)
        recipe.*s.count = static_cast<int>(readNumber(d, value));
    else if (s.flag)
        recipe.*s.flag = readYesOrNo(d, value);
    else if (s.key)
        recipe.*s.key = readKey(d, value);
    else if (d.key == "up")
        recipe.up = directionFromName(readChoice(d, value).c_str());
    else
        recipe.infill = infillPatternFromName(readChoice(d, value));
}

std::string get(const Recipe& recipe, const std::string& key) {
    const Setting& s = settingNamed(settings(), key, "recipe");
    if (s.number) return plainNumber(recipe.*s.number);
    if (s.count) return std::to_string(recipe.*s.count);
    if (s.flag) return recipe.*s.flag ? "yes" : "no";
    if (s.key) return recipe.*s.key;
    if (key == "up") return nameOf(recipe.up);
    return nameOf(recipe.infill);
}

Recipe asLaid(Recipe recipe) {
    constexpr double kLeastInfill = 0.005;
    if (recipe.infillShare < kLeastInfill) recipe.infillShare = 0;
    return recipe;
}

}  // namespace waybench::printed
