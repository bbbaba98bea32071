#include "core/printed/recipe.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <set>

#include "core/fault/input_fault.h"
#include "core/quantity/quantity_text.h"
#include "tests/printed/sample_prints.h"

using namespace waybench;
using namespace waybench::printed;

namespace {

std::string codeOf(const std::string& key, const std::string& value) {
    Recipe recipe;
    try {
        set(recipe, key, value);
    } catch (const InputFault& fault) {
        return fault.code();
    }
    return "";
}

}  // namespace

TEST_CASE("every setting is described once, has the recipe's own standard and reads back what was set", "[printed]") {
    std::set<std::string> seen;
    for (const SettingDescription& d : settingDescriptions(shippedShop())) {
        INFO(d.key);
        CHECK(seen.insert(d.key).second);
        CHECK_FALSE(d.help.empty());
        Recipe recipe;
        if (d.choices.empty()) {
            CHECK(parseQuantity(get(recipe, d.key), d.unit) == d.standard);
            for (const double value : {d.minimum, d.maximum}) {
                set(recipe, d.key, plainNumber(value));
                CHECK(get(recipe, d.key) == plainNumber(value));
            }
        } else {
            CHECK(std::count(d.choices.begin(), d.choices.end(), get(recipe, d.key)) == 1);
            for (const std::string& choice : d.choices) {
                set(recipe, d.key, choice);
                CHECK(get(recipe, d.key) == choice);
            }
        }
    }
    CHECK(seen.size() == 14);
}

TEST_CASE("settings take units and refuse what they cannot be", "[printed]") {
    Recipe recipe;
    set(recipe, "layer_thickness", "0,15 mm");
    CHECK(recipe.layerThickness_mm == 0.15);
    CHECK(codeOf("layer_hight", "0.2") == "setting_unknown");
    CHECK(codeOf("layer_thickness", "7") == "setting_out_of_range");
    CHECK(codeOf("layer_thickness", "thick") == "setting_not_a_number");
    CHECK(codeOf("walls", "2.5") == "setting_not_a_number");
    CHECK(codeOf("walls", "0") == "setting_out_of_range");
    CHECK(codeOf("infill", "waffle") == "setting_out_of_range");
    CHECK(codeOf("up", "sideways") == "setting_out_of_range");
    CHECK(codeOf("supports", "maybe") == "setting_out_of_range");
    CHECK(codeOf("infill_share", "nan") != "");
}
