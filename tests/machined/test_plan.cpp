#include <catch2/catch.hpp>

#include "core/fault/input_fault.h"
#include "sample_parts.h"

using namespace waybench;
using namespace waybench::machined;

TEST_CASE("Every setting of the plan reads back what was set", "[machined][plan]") {
    Plan plan;
    set(plan, "material", "pom");
    set(plan, "mill", "bench-mill");
    set(plan, "stock_margin", "0,5 cm");
    set(plan, "finish_allowance", "0.2");
    set(plan, "smallest_tool", "2 mm");
    set(plan, "tabs", "no");
    set(plan, "surface_levelling", "yes");
    CHECK(plan.stockMargin_mm == Approx(5));
    CHECK(get(plan, "material") == "pom");
    CHECK(get(plan, "tabs") == "no");
    CHECK(get(plan, "surface_levelling") == "yes");
    for (const SettingDescription& d : settingDescriptions(shippedShop())) {
        Plan copy = plan;
        set(copy, d.key, get(plan, d.key));
        CHECK(copy == plan);
        CHECK_FALSE(d.help.empty());
    }
}

TEST_CASE("Settings that make no sense are refused with a code", "[machined][plan]") {
    const auto codeOf = [](const std::string& key, const std::string& value) {
        Plan plan;
        try {
            set(plan, key, value);
        } catch (const InputFault& fault) {
            return fault.code();
        }
        return std::string("accepted");
    };
    CHECK(codeOf("stock_margin", "-1") == "setting_out_of_range");
    CHECK(codeOf("stock_margin", "wide") == "setting_not_a_number");
    CHECK(codeOf("tabs", "perhaps") == "setting_out_of_range");
    CHECK(codeOf("coolant", "yes") == "setting_unknown");
    CHECK(codeOf("material", "") == "setting_out_of_range");
}
