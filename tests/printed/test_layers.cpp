#include "core/printed/layers.h"

#include <catch2/catch.hpp>
#include <random>

#include "core/fault/input_fault.h"
#include "core/printed/print_job.h"
#include "tests/printed/sample_prints.h"

using namespace waybench;
using namespace waybench::printed;

namespace {

PrintJob jobOf(const Mesh& mesh, const Recipe& recipe, bool isDraft = false) {
    const Shop& shop = shippedShop();
    return printJob(mesh, recipe, shop.printer("bed-moving"), shop.printingMaterial("petg"), isDraft, Task());
}

Region platePattern() {
    Region plate{rectangle(0, 0, 60, 40)};
    plate.push_back(circle(15, 20, 6, 64, true));
    plate.push_back(circle(42, 14, 3.2, 48, true));
    return plate;
}

std::vector<std::pair<const char*, Mesh>> samples() {
    return {{"box", box(30, 20, 12)},
            {"plate with holes", column(platePattern(), 8)},
            {"frustum", column({rectangle(-20, -15, 20, 15)}, 18, 0.6)},
            {"ball", ball(12, 40, 80)}};
}

}  // namespace

TEST_CASE("layer areas times their heights are the volume of the mesh", "[printed]") {
    for (const auto& [name, mesh] : samples()) {
        INFO(name);
        Recipe recipe;
        for (const Direction up : {Direction::plus_z, Direction::minus_x, Direction::plus_y}) {
            recipe.up = up;
            CHECK(jobOf(mesh, recipe).section_mm3 == Approx(volumeOf(mesh)).epsilon(0.005));
        }
    }
}

TEST_CASE("walls, skins, infill space and what is too narrow add up to the sliced part", "[printed]") {
    for (const auto& [name, mesh] : samples()) {
        INFO(name);
        const PrintJob job = jobOf(mesh, Recipe());
        CHECK(job.wall_mm3 + job.skin_mm3 + job.infillSpace_mm3 + job.missing_mm3 ==
              Approx(job.section_mm3).epsilon(1e-3));
        CHECK(job.infill_mm3 == Approx(0.3 * job.infillSpace_mm3).epsilon(1e-9));
    }
}

TEST_CASE("beads actually laid at full infill fill the part within 2 %", "[printed]") {
    for (const auto& [name, mesh] : samples()) {
        INFO(name);
        Recipe recipe;
        recipe.infillShare = 1;
        recipe.supports = false;
        const SectionStack stack = sectionStack(mesh, recipe, Task());
        const double spacing = beadSpacing_mm(recipe);
        double laid_mm3 = 0;
        for (std::size_t k = 0; k < stack.layers.size(); ++k) {
            const LayerContent content = layerContent(stack, k, recipe, spacing);
            double length = content.gapFill_mm;
            for (const Region& wall : content.walls)
                length += perimeterOf(wall);
            for (const Region* filled : {&content.skin, &content.infill})
                for (const Segment2& line : hatch(*filled, k % 2 ? -M_PI / 4 : M_PI / 4, spacing, spacing / 2))
                    length += (line.to - line.from).norm();
            laid_mm3 += length * spacing * stack.layers[k].height_mm;
        }
        CHECK(laid_mm3 == Approx(volumeOf(mesh)).epsilon(0.02));
    }
}

TEST_CASE("walls and skins of a box are its shell, and infill its share of the core, within 3 %", "[printed]") {
    std::mt19937 random(3);
    std::uniform_real_distribution<double> side(12, 60), share(0.05, 0.9);
    for (int trial = 0; trial < 12; ++trial) {
        Recipe recipe;
        recipe.walls = 1 + trial % 5;
        recipe.skinsBelow = trial % 4;
        recipe.skinsAbove = 1 + trial % 6;
        recipe.infillShare = share(random);
        const double x = side(random), y = side(random), z = side(random) / 2;
        const PrintJob job = jobOf(box(x, y, z), recipe);
        const double wall = recipe.walls * beadSpacing_mm(recipe);
        const double core = (x - 2 * wall) * (y - 2 * wall) * (z - (recipe.skinsBelow + recipe.skinsAbove) * 0.2);
        CHECK(job.part_mm3() == Approx(x * y * z - core + recipe.infillShare * core).epsilon(0.03));
    }
}

TEST_CASE("halving the layer height doubles the layers and never shortens the print", "[printed]") {
    for (const auto& [name, mesh] : samples()) {
        INFO(name);
        Recipe coarse, fine;
        fine.layerThickness_mm = fine.firstLayerThickness_mm = 0.1;
        fine.skinsBelow = fine.skinsAbove = 10;
        const PrintJob a = jobOf(mesh, coarse), b = jobOf(mesh, fine);
        CHECK(std::abs(static_cast<double>(b.layers) - 2.0 * static_cast<double>(a.layers)) <= 1);
        CHECK(b.layers_s() > a.layers_s());
        CHECK(b.part_mm3() == Approx(a.part_mm3()).epsilon(0.05));
    }
}

TEST_CASE("where the part lies does not matter", "[printed]") {
    const Mesh mesh = column(platePattern(), 8);
    const PrintJob here = jobOf(mesh, Recipe());
    const PrintJob there = jobOf(transformed(mesh, Mat3::Identity(), Vec3(137.25, -41.7, 12.3)), Recipe());
    CHECK(there.layers == here.layers);
    CHECK(there.part_mm3() == Approx(here.part_mm3()).epsilon(1e-5));
    CHECK(there.layers_s() == Approx(here.layers_s()).epsilon(1e-3));
}

TEST_CASE("equal layers are laid out once", "[printed]") {
    Recipe recipe;
    recipe.infill = InfillPattern::honeycomb;
    const PrintJob job = jobOf(column(platePattern(), 20), recipe);
    CHECK(job.layers == 100);
    CHECK(job.layersComputed <= 18);
    // a gyroid's layers differ with height: 8 phases, odd and even
    CHECK(jobOf(column(platePattern(), 40), Recipe()).layersComputed <= 16 + 16);
}

TEST_CASE("a draft stays within a tenth of all layers in time and material", "[printed]") {
    for (const auto& [name, mesh] : samples()) {
        INFO(name);
        const PrintJob draft = jobOf(mesh, Recipe(), true), all = jobOf(mesh, Recipe());
        CHECK(draft.layersComputed <= 45);
        CHECK(draft.layers_s() == Approx(all.layers_s()).epsilon(0.10));
        CHECK(draft.part_mm3() == Approx(all.part_mm3()).epsilon(0.05));
    }
}

TEST_CASE("a blade narrower than a bead is not laid, and said so", "[printed]") {
    const PrintJob job = jobOf(column({rectangle(0, 0, 30, 20), rectangle(35, 0, 35.3, 20)}, 6), Recipe());
    CHECK(job.missing_mm3 == Approx(0.3 * 20 * 6).epsilon(1e-3));
    CHECK_THROWS_AS(jobOf(box(0.3, 20, 6), Recipe()), InputFault);
    CHECK(jobOf(box(0.6, 20, 6), Recipe()).part_mm3() == Approx(0.6 * 20 * 6).epsilon(1e-3));
}

TEST_CASE("a bead narrower than its layer is refused", "[printed]") {
    Recipe recipe;
    recipe.beadWidth_mm = 0.3;
    recipe.layerThickness_mm = 0.35;
    CHECK_THROWS_AS(jobOf(box(10, 10, 10), recipe), InputFault);
}

TEST_CASE("a cancelled print job stops", "[printed]") {
    Task task;
    task.cancel();
    const Shop& shop = shippedShop();
    CHECK_THROWS_AS(
        printJob(box(10, 10, 10), Recipe(), shop.printer("bed-moving"), shop.printingMaterial("petg"), false, task),
        Cancelled);
}
