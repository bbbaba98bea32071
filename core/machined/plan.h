#pragma once
#include <string>
#include <vector>

#include "core/bench/shop.h"
#include "core/route/setting.h"

namespace waybench::machined {

/// What the user decides about machining; everything else is planned from the shape.
struct Plan {
    std::string material = "al-6082", mill = "light-gantry";
    double stockMargin_mm = 18;        ///< left around the outline when the part is cut from a plate: room for clamps
    double finishAllowance_mm = 0.15;  ///< left on walls for the last pass
    double smallestTool_mm = 0;        ///< 0 = whatever the rack has
    bool tabs = true;                  ///< hold the part in its plate by tabs
    bool surfaceLevelling = false;
    std::string holding = "strap-clamps";      ///< of the blank, first set-up
    std::string holdingTurned = "small-vice";  ///< of the part in later set-ups
    int clamps = 4;                            ///< where the blank is held by clamps
    bool operator==(const Plan&) const = default;
};

std::vector<SettingDescription> settingDescriptions(const Shop& shop);
/// Every key of the plan names something in the shop, and something that can do the work.
/// @throws InputFault "material_unknown", "mill_unknown", "workholding_unknown", "workholding_unfit"
void checkKeys(const Plan& plan, const Shop& shop);
void set(Plan& plan, const std::string& key, const std::string& value);  ///< as printed::set
std::string get(const Plan& plan, const std::string& key);

}  // namespace waybench::machined
