#include <catch2/catch.hpp>

#include "core/comparison/part_solid.h"
#include "core/report/sheet.h"

using namespace waybench;

namespace {

struct Rig {
    Project project = readProject(WAYBENCH_SOURCE "/demo/hinge_endurance_rig.waybench");
    Shop shop = readShop(WAYBENCH_SOURCE "/resources");

    Comparison drafted(const std::string& name) const {
        return compare(project.part(name), project.folder(), shop, project.tariff, Fidelity::draft, Task());
    }
};

const SheetBlock* blockOf(const Sheet& sheet, const std::string& heading) {
    for (const SheetBlock& b : sheet.blocks)
        if (b.heading.rfind(heading, 0) == 0) return &b;
    return nullptr;
}

}  // namespace

TEST_CASE("the set-up sheet shows each set-up with its hold, and its minutes are those of the answer") {
    const Rig rig;
    const Comparison c = rig.drafted("drive cross-plate");
    const Sheet sheet = setupSheet(rig.project, c, rig.shop, Task());
    const SheetBlock* setUp = blockOf(sheet, "Set-up");
    REQUIRE(setUp);
    REQUIRE(setUp->drawing);
    REQUIRE(setUp->table);
    CHECK(setUp->drawing->zero);
    CHECK(setUp->drawing->labels.size() == std::size_t(rig.project.part("drive cross-plate").plan.clamps));
    std::size_t tabs = 0;
    for (const SheetDrawing::Stroke& s : setUp->drawing->strokes)
        tabs += s.line == SheetLine::tab ? 1 : 0;
    CHECK(tabs >= 3);
    for (const auto& row : setUp->table->rows)
        CHECK(row.size() == setUp->table->columns.size());
    const SheetBlock* times = blockOf(sheet, "Times");
    REQUIRE(times);
    CHECK(times->table->rows.back()[1] == minutesText(c.machined.at(Question::elapsed_time).value));
    const SheetBlock* checks = blockOf(sheet, "Before starting");
    REQUIRE(checks);
    CHECK(checks->isChecklist);
    CHECK(blockOf(sheet, "Cautions")->lines == c.machined.cautions);
}

TEST_CASE("the print sheet shows the first layer on the bed and every setting") {
    const Rig rig;
    const Comparison c = rig.drafted("encoder arm");
    const Sheet sheet = printSheet(rig.project, c, rig.shop, Task());
    const SheetBlock* stands = blockOf(sheet, "How it stands");
    REQUIRE(stands);
    REQUIRE(stands->drawing);
    double area = 0;
    for (const Region& region : stands->drawing->material)
        area += areaOf(region);
    CHECK(area > 100);
    CHECK(blockOf(sheet, "Settings")->table->rows.size() + 2 == printed::settingDescriptions(rig.shop).size());
    CHECK(blockOf(sheet, "Times")->table->rows.back()[1] == minutesText(c.printed.at(Question::elapsed_time).value));
}
