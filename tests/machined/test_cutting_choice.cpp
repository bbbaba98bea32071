#include <catch2/catch.hpp>

#include "core/machined/cutting_mechanics.h"
#include "core/machined/tool_stiffness.h"
#include "sample_parts.h"

using namespace waybench;
using namespace waybench::machined;

TEST_CASE("Chip loads are read between the rows of the material", "[machined][cutting]") {
    const StockMaterial& al = shippedShop().stockMaterial("al-6082");
    // rows of machined-route.md 3.2: 0.015 to 0.035 at 3.175 mm, 0.02 to 0.045 at 4 mm
    CHECK(chipLoadAt(al, 3.175).value == Approx(0.025));
    CHECK(chipLoadAt(al, 3.5875).low == Approx(0.0175));
    CHECK(chipLoadAt(al, 3.5875).high == Approx(0.04));
    CHECK(chipLoadAt(al, 0.5).value == Approx(0.5 * chipLoadAt(al, 1).value));
    CHECK(chipLoadAt(al, 20).value == chipLoadAt(al, 6).value);
}

TEST_CASE("No cutting data leave the spindle's, the tool's or the mill's limits", "[machined][cutting]") {
    const Shop& shop = shippedShop();
    for (const StockMaterial& material : shop.stockMaterials)
        for (const Mill& mill : shop.mills)
            for (const Tool& tool : shop.tools) {
                if (tool.kind != ToolKind::end_mill) continue;
                for (const CutKind kind : {CutKind::slot, CutKind::clearing, CutKind::finishing, CutKind::facing}) {
                    const CuttingData c = chooseMilling(material, mill, tool, kind, 0.15);
                    INFO(material.key << ", " << mill.key << ", " << tool.key << ", " << nameOf(kind));
                    CHECK(c.spindle_per_min >= mill.spindleLow.value - 1e-6);
                    CHECK(c.spindle_per_min <= mill.spindleHigh.value + 1e-6);
                    CHECK(c.feed_mm_s <= mill.feedLimit.value * (1 + 1e-9));
                    CHECK(c.depth_mm > 0);
                    CHECK(c.depth_mm <= std::max(tool.fluteLength_mm, 1.0) + 1e-9);
                    CHECK(c.meanChip_mm <= c.feedPerTooth_mm * (1 + 1e-12));
                    CHECK_FALSE(c.binding.empty());
                    CHECK(c.force_N.unit == Unit::newton);
                    CHECK(c.power_W.unit == Unit::watt);
                    if (!c.withinLimits) continue;
                    CHECK(c.power_W.value <= usablePower_W(mill, c.spindle_per_min) * (1 + 1e-9));
                    CHECK(c.torque_Nmm <= usableTorque_Nmm(mill) * (1 + 1e-9));
                    CHECK(c.stress_MPa <= 500 * (1 + 1e-9));
                    CHECK(c.deflection_mm <= 0.075 * (1 + 1e-9));
                }
            }
}

TEST_CASE("A weaker spindle makes the step-down smaller and is named as the limit", "[machined][cutting]") {
    const Shop& shop = shippedShop();
    const StockMaterial& pom = shop.stockMaterial("pom");
    Mill mill = shop.mill("light-gantry");
    const Tool* tool = nullptr;
    for (const Tool& t : shop.tools)
        if (t.key == "end-mill-6-z2") tool = &t;
    REQUIRE(tool);
    const CuttingData strong = chooseMilling(pom, mill, *tool, CutKind::slot, 0.15);
    mill.spindlePower = Figure::exact(5, Unit::watt);
    const CuttingData weak = chooseMilling(pom, mill, *tool, CutKind::slot, 0.15);
    CHECK(weak.depth_mm < strong.depth_mm);
    CHECK(weak.binding.find("spindle") != std::string::npos);
}

TEST_CASE("A longer tool bends more and cuts no deeper", "[machined][cutting]") {
    const Shop& shop = shippedShop();
    const StockMaterial& al = shop.stockMaterial("al-6082");
    const Mill& mill = shop.mill("light-gantry");
    Tool tool = shop.tools.front();
    double before = 1e9;
    for (const double stickOut : {6.0, 12.0, 24.0, 48.0}) {
        tool.stickOut_mm = stickOut;
        const CuttingData c = chooseMilling(al, mill, tool, CutKind::slot, 0.15);
        CHECK(c.depth_mm <= before + 1e-12);
        before = c.depth_mm;
    }
}

TEST_CASE("A drill keeps inside the usable power and turns slower in deep holes", "[machined][cutting]") {
    const Shop& shop = shippedShop();
    for (const Tool& tool : shop.tools) {
        if (tool.kind != ToolKind::drill) continue;
        const StockMaterial& al = shop.stockMaterial("al-6082");
        const Mill& mill = shop.mill("bench-mill");
        const CuttingData shallow = chooseDrilling(al, mill, tool, tool.diameter_mm);
        const CuttingData deep = chooseDrilling(al, mill, tool, 7 * tool.diameter_mm);
        CHECK(shallow.power_W.value <= usablePower_W(mill, shallow.spindle_per_min) * (1 + 1e-9));
        CHECK(deep.spindle_per_min <= shallow.spindle_per_min);
        CHECK(deep.force_N.low < deep.force_N.high);
    }
}
