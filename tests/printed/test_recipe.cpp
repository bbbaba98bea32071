#include "core/printed/recipe.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <random>
#include <set>

#include "core/fault/input_fault.h"
#include "core/printed/section_stack.h"
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
    CHECK(seen.size() == 16);
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

TEST_CASE("any direction can be made the upward one, the six without a lean", "[printed][recipe]") {
    std::mt19937 random(5);
    std::normal_distribution<double> normal;
    for (int i = 0; i < 200; ++i) {
        const Vec3 wanted = Vec3(normal(random), normal(random), normal(random)).normalized();
        Recipe recipe;
        setUpward(recipe, wanted);
        CHECK((upwardOf(recipe) - wanted).norm() < 1e-5);
        const Mat3 turn = standingRotation(recipe);
        CHECK((turn * turn.transpose() - Mat3::Identity()).norm() < 1e-12);
        CHECK(turn.determinant() == Approx(1));
        for (const char* key : {"lean_x", "lean_y"})
            CHECK(std::abs(std::stod(get(recipe, key))) <= 60);
    }
    for (const Direction d : {Direction::plus_x, Direction::minus_x, Direction::plus_y, Direction::minus_y,
                              Direction::plus_z, Direction::minus_z}) {
        Recipe recipe;
        setUpward(recipe, unitVector(d));
        CHECK(recipe.up == d);
        CHECK(recipe.leanX_deg == 0);
        CHECK(recipe.leanY_deg == 0);
        CHECK(standingRotation(recipe) == rotationToUp(d));
        CHECK(upText(recipe) == nameOf(d));
    }
}

TEST_CASE("a leaned box stands as tall as its corners say, and is no less material", "[printed][recipe]") {
    const Mesh box = column({rectangle(0, 0, 40, 20)}, 10);
    Recipe recipe;
    recipe.leanX_deg = 30;
    const SectionStack stack = sectionStack(box, recipe, Task{});
    const double c = std::cos(30 * 3.14159265358979 / 180), s = 0.5;
    CHECK(stack.size_mm.x() == Approx(40));
    CHECK(stack.size_mm.y() == Approx(20 * c + 10 * s));
    CHECK(stack.size_mm.z() == Approx(20 * s + 10 * c));
    double volume = 0;
    for (const Layer& layer : stack.layers)
        volume += stack.areas_mm2[layer.section] * layer.height_mm;
    CHECK(volume == Approx(8000).epsilon(0.005));
}
