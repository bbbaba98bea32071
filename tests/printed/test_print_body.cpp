#include "core/printed/print_body.h"

#include <Eigen/Eigenvalues>
#include <catch2/catch.hpp>
#include <cmath>

#include "core/printed/heat.h"
#include "tests/printed/sample_prints.h"

using namespace waybench;
using namespace waybench::printed;

TEST_CASE("every material, pattern and share makes a body that stores energy in every strain", "[printed]") {
    const Solid solid = segmented(box(20, 20, 20));
    for (const PrintingMaterial& material : shippedShop().printingMaterials)
        for (const InfillPattern pattern : {InfillPattern::lines, InfillPattern::grid, InfillPattern::triangles,
                                            InfillPattern::honeycomb, InfillPattern::gyroid})
            for (const double share : {0.0, 0.02, 0.1, 0.3, 0.7, 0.99})
                for (const Direction up : {Direction::plus_z, Direction::minus_y}) {
                    INFO(material.key << " " << nameOf(pattern) << " " << share);
                    Recipe recipe;
                    recipe.infill = pattern;
                    recipe.infillShare = share;
                    recipe.up = up;
                    const Body body = bodyOf(recipe, material, solid, 0.7);
                    REQUIRE(body.inside);
                    for (const ElasticLaw* law : {&body.law, &body.inside->infillLaw})
                        CHECK(Eigen::SelfAdjointEigenSolver<Mat6>(law->stiffness_MPa).eigenvalues().minCoeff() > 0);
                    // never stiffer than the solid in any single strain
                    for (int i = 0; i < 6; ++i)
                        CHECK(body.inside->infillLaw.stiffness_MPa(i, i) <= body.law.stiffness_MPa(i, i) * 1.001);
                }
}

TEST_CASE("the soft axis of the body is the build direction", "[printed]") {
    const Solid solid = segmented(box(20, 20, 20));
    const PrintingMaterial& material = shippedShop().printingMaterial("pla");
    const Direction ups[] = {Direction::plus_x, Direction::plus_y, Direction::minus_z};
    for (int axis = 0; axis < 3; ++axis) {
        Recipe recipe;
        recipe.up = ups[axis];
        const Mat6 c = bodyOf(recipe, material, solid, 1).law.stiffness_MPa;
        for (int other = 0; other < 3; ++other)
            if (other != axis) CHECK(c(axis, axis) < c(other, other));
    }
}

TEST_CASE("strength falls with duration, cycles and heat and never grows", "[printed]") {
    const PrintingMaterial& material = shippedShop().printingMaterial("petg");
    LoadCase load;
    CHECK(strengthFactor(material, load, Figure::exact(1, Unit::none)).value == 1);
    load.duration = Duration::hours;
    double before = 1;
    for (const double hours : {0.05, 0.1, 1.0, 24.0, 1000.0, 1e5}) {
        load.duration_h = hours;
        const double now = strengthFactor(material, load, Figure::exact(1, Unit::none)).value;
        CHECK(now <= before);
        before = now;
    }
    CHECK(before == Approx(0.25));
    load.duration = Duration::cyclic;
    load.cycles = 1e6;
    CHECK(strengthFactor(material, load, Figure::exact(1, Unit::none)).value ==
          Approx(material.fatigueRatio1e6->value));
    CHECK(strengthFactor(material, load, Figure::exact(0.8, Unit::none)).value ==
          Approx(0.8 * material.fatigueRatio1e6->value));
    PrintingMaterial unknown = material;
    unknown.fatigueRatio1e6.reset();
    CHECK_FALSE(strengthFactor(unknown, load, Figure::exact(1, Unit::none)).hasFatigueFigure);
}

TEST_CASE("strength across layers never passes that in the layer unless the data say so", "[printed]") {
    for (const PrintingMaterial& material : shippedShop().printingMaterials) {
        INFO(material.key);
        const StrengthLaw law = strengthOf(Recipe(), material, material.strengthRatioAcross, {});
        CHECK(*law.across_MPa <= law.inLayer_MPa * std::max(1.0, material.strengthRatioAcross.value));
        CHECK(*law.shearAcross_MPa <= law.inLayer_MPa);
        CHECK(law.infillFactor > 0);
        CHECK(law.infillFactor <= 1);
    }
}

TEST_CASE("a print uses at least its melt, and a longer or hotter one more", "[printed]") {
    for (const Printer& printer : shippedShop().printers)
        for (const PrintingMaterial& material : shippedShop().printingMaterials) {
            INFO(printer.key << " " << material.key);
            const PrintEnergy hour = printEnergy(printer, material, 3600, 20),
                              two = printEnergy(printer, material, 7200, 20);
            CHECK(hour.melt_Wh > 0);
            CHECK(hour.total_Wh() > hour.melt_Wh);
            CHECK(two.total_Wh() > hour.total_Wh());
            CHECK(std::isfinite(hour.heatUp_s));
            CHECK(hour.heatUp_s < 3600);
            PrintingMaterial cooler = material;
            cooler.bedTemperature.value -= 10;
            CHECK(printEnergy(printer, cooler, 3600, 20).total_Wh() <= hour.total_Wh());
        }
}
