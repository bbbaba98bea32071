#pragma once
#include <string>
#include <vector>

#include "core/bench/shop.h"
#include "core/geometry/vector.h"
#include "core/material/printing_material.h"
#include "core/route/setting.h"

namespace waybench::printed {

/// How a part is printed. The layers and the structure both read this one description.
struct Recipe {
    std::string material = "petg", printer = "bed-moving";
    double layerThickness_mm = 0.2, firstLayerThickness_mm = 0.2, beadWidth_mm = 0.45;
    int walls = 3, skinsBelow = 5, skinsAbove = 5;
    InfillPattern infill = InfillPattern::gyroid;
    double infillShare = 0.3;          ///< 0..1
    Direction up = Direction::plus_z;  ///< this part direction points upwards on the bed
    /// Turned from there about the standing part's x axis, then about the y axis of the bed: any direction can be up.
    double leanX_deg = 0, leanY_deg = 0;
    bool supports = true;
    double overhangLimit_deg = 45;  ///< surface angle from vertical that still prints free
    double brimReach_mm = 0;        ///< rings around the first layer; 0 = none
    bool operator==(const Recipe&) const = default;
};

/// The recipe as it can be laid: infill of less than half a per cent is none, as it makes no lines.
Recipe asLaid(Recipe recipe);

/// How a part stands on the bed.
struct Stance {
    Direction up = Direction::plus_z;
    double leanX_deg = 0, leanY_deg = 0;
    bool operator==(const Stance&) const = default;
};
Stance stanceOf(const Recipe& recipe);
void take(Recipe& recipe, const Stance& stance);
std::string upText(const Stance& stance);

/// From part axes to those of the print, whose z points upwards.
Mat3 standingRotation(const Recipe& recipe);
/// Part direction that points upwards.
Vec3 upwardOf(const Recipe& recipe);
/// "+z", "+z leaned 30 degrees about x".
std::string upText(const Recipe& recipe);
/// Sets `up` and the leans so that this part direction points upwards: the nearest principal one, leaned the rest.
/// Precondition: not the zero vector.
void setUpward(Recipe& recipe, const Vec3& direction);

/// All settings, numeric first-class: key, limits, help. Choices for material, printer, infill, up.
std::vector<SettingDescription> settingDescriptions(const Shop& shop);
/// @throws InputFault "setting_unknown", "setting_out_of_range", "setting_not_a_number"
void set(Recipe& recipe, const std::string& key, const std::string& value);
std::string get(const Recipe& recipe, const std::string& key);

}  // namespace waybench::printed
