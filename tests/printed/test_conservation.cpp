#include <catch2/catch.hpp>
#include <cmath>
#include <map>
#include <random>

#include "core/comparison/part_solid.h"
#include "core/printed/print_job.h"
#include "core/project/project.h"
#include "tests/printed/sample_prints.h"

using namespace waybench;
using namespace waybench::printed;

namespace {

double lengthOfAll(const std::vector<Curve>& curves) {
    double sum = 0;
    for (const Curve& curve : curves)
        sum += lengthOf(curve);
    return sum;
}

/// Beads as laid, links along the border left out: walls, thin beads between walls, skins, bridges, infill.
double laid_mm3(const SectionStack& stack, const Recipe& recipe) {
    const double spacing = beadSpacing_mm(recipe);
    std::map<std::vector<std::uint32_t>, LayerContent> known;
    double sum = 0;
    for (std::size_t k = 0; k < stack.layers.size(); ++k) {
        const auto [place, isNew] = known.try_emplace(sectionsSeenBy(stack, k, recipe));
        if (isNew) place->second = layerContent(stack, k, recipe, spacing);
        const LayerContent& content = place->second;
        double length = content.gapFill_mm;
        for (const Region& wall : content.walls)
            length += perimeterOf(wall);
        for (const Region* solid : {&content.skin, &content.bridge})
            length += lengthOfAll(infillCurves(*solid, InfillPattern::lines, 1, spacing, placeOf(stack, k)));
        length +=
            lengthOfAll(infillCurves(content.infill, recipe.infill, recipe.infillShare, spacing, placeOf(stack, k)));
        sum += length * spacing * stack.layers[k].height_mm;
    }
    return sum;
}

void checkConservation(const Mesh& mesh, Recipe recipe) {
    const Shop& shop = shippedShop();
    const auto job = [&] {
        return printJob(mesh, recipe, shop.printer("fast-enclosed"), shop.printingMaterial("pla"), false, Task());
    };
    recipe.supports = false;
    const SectionStack stack = sectionStack(mesh, recipe, Task());
    const PrintJob sparse = job();
    CHECK(sparse.section_mm3 == Approx(volumeOf(mesh)).epsilon(0.005));
    CHECK(laid_mm3(stack, recipe) ==
          Approx(sparse.wall_mm3 + sparse.skin_mm3 + recipe.infillShare * sparse.infillSpace_mm3).epsilon(0.03));
    recipe.infillShare = 1;
    CHECK(laid_mm3(stack, recipe) == Approx(sparse.section_mm3).epsilon(0.02));
}

/// Prisms and frusta of rounded, notched or plain outlines with holes, and balls.
Mesh randomSolid(std::mt19937& random) {
    std::uniform_real_distribution<double> unit(0, 1);
    if (unit(random) < 0.2) return ball(6 + 6 * unit(random), 30, 60);
    const double length = 25 + 40 * unit(random), width = 20 + 20 * unit(random), height = 4 + 10 * unit(random);
    Region outline{rectangle(-length / 2, -width / 2, length / 2, width / 2)};
    if (unit(random) < 0.4) outline = {circle(0, 0, width / 2, 72, false)};
    if (unit(random) < 0.5) outline = differenceOf(outline, {rectangle(0.1 * length, 0.12 * width, length, width)});
    const int holes = static_cast<int>(3 * unit(random));
    for (int i = 0; i < holes; ++i)
        outline = differenceOf(outline, {circle(-0.25 * length * unit(random), (unit(random) - 0.5) * 0.4 * width,
                                                1.5 + 0.08 * width * unit(random), 40, false)});
    return column(outline, height, unit(random) < 0.4 ? 0.6 + 0.4 * unit(random) : 1.0);
}

}  // namespace

TEST_CASE("beads of every demo part add up to its volume, full and sparse", "[printed]") {
    const Project demo = readProject(std::string(WAYBENCH_SOURCE) + "/demo/hinge_endurance_rig.waybench");
    REQUIRE(demo.parts.size() >= 5);
    for (const Part& part : demo.parts) {
        INFO(part.name);
        checkConservation(solidOf(part, RouteKind::printed, demo.folder()).mesh, part.recipe);
    }
}

TEST_CASE("beads of ten random solids add up to their volume, in every pattern", "[printed]") {
    std::mt19937 random(41);
    for (int trial = 0; trial < 10; ++trial) {
        Recipe recipe;
        recipe.infill = static_cast<InfillPattern>(trial % 5);
        recipe.infillShare = 0.15 + 0.05 * (trial % 7);
        recipe.walls = 1 + trial % 4;
        INFO(trial << " " << nameOf(recipe.infill));
        checkConservation(randomSolid(random), recipe);
    }
}
