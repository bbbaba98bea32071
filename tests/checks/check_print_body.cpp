#include <catch2/catch.hpp>
#include <cmath>

#include "core/printed/print_body.h"
#include "core/structure/structure.h"
#include "tests/printed/sample_prints.h"

// printed-route.md section 7: the body a recipe makes, bent by the solver.
using namespace waybench;
using namespace waybench::printed;

namespace {

/// Deflection of a cantilever of section 10 x 4 along x under a force at its end.
double cantilever_mm(Body body, double length, double force_N) {
    const Solid solid = segmented(box(length, 10, 4));
    body.solid = &solid;
    LoadCase load;
    load.holds = {{FaceSelector::byPoint({0, 5, 2}, -Vec3::UnitX())}};
    Load end;
    end.face = load.measuredFace = FaceSelector::byPoint({length, 5, 2}, Vec3::UnitX());
    end.vector = Vec3(0, 0, -force_N);
    load.loads = {end};
    load.measuredDirection = -Vec3::UnitZ();
    load.deflectionLimit_mm = 1;
    StrengthLaw strength;
    strength.inLayer_MPa = 40;
    return solveStructure(body, strength, bind(load, solid), Resolution(), Task()).deflection.value;
}

/// Two walls 0.45 apart and four layers of 0.2 above and below: 0.9 and 0.8 of shell.
Body hybridBody(const Solid& any, double coreShare) {
    Recipe recipe;
    recipe.beadWidth_mm = widthForSpacing(0.45, 0.2);
    recipe.walls = 2;
    recipe.skinsBelow = recipe.skinsAbove = 4;
    Body body = bodyOf(recipe, shippedShop().printingMaterial("pla"), any, 1);
    body.law = isotropicLaw(2600, 0.35);
    body.inside->infillLaw = isotropicLaw(coreShare * 2600, 0.35);
    return body;
}

}  // namespace

TEST_CASE("K15: a bar of shell and soft core bends as its composite section", "[check][printed]") {
    // derived (beam theory): EI 115088.45 N mm2 of the hybrid 10 x 4 bar; 0.829965 of the solid one
    const Solid any = segmented(box(100, 10, 4));
    const Body hybrid = hybridBody(any, 0.04);
    CHECK(hybrid.inside->wallThickness_mm == Approx(0.9));
    CHECK(hybrid.inside->skinAbove_mm == Approx(0.8));
    CHECK(hybrid.inside->skinBelow_mm == Approx(0.8));
    Body solid = hybrid;
    solid.inside.reset();
    const double soft = cantilever_mm(hybrid, 100, 2), full = cantilever_mm(solid, 100, 2);
    CHECK(soft == Approx(2 * 1e6 / (3 * 115088.45)).epsilon(0.03));
    CHECK(full / soft == Approx(0.829965).epsilon(0.03));
}

TEST_CASE("K16: the bar of ISO 178 under 20 N bends by 0.698 mm and a little shear", "[check][printed]") {
    // ISO 178 formulas (from memory), modulus of a PLA data sheet (second-hand, S1): three-point span 64 is twice a
    // cantilever of 32 under half the force. Poisson's ratio 0, as the clamped end must not hold back the contraction
    // that the middle of a test bar is free to make. Shear by Timoshenko, 1.2 F L/(G A).
    Body body;
    body.law = isotropicLaw(2933.8, 0);
    const double shear = 1.2 * 10 * 32 / (2933.8 / 2 * 40);
    CHECK(cantilever_mm(body, 32, 10) == Approx(0.6980708 + shear).epsilon(0.01));
}

TEST_CASE("K30: the load a core carries grows from 20 to 50 % infill as measured, within 25 %", "[check][printed]") {
    // Aboelella, Ebeid, Sayed, Scientific Reports 2025, 15:11759, Table 4: compressive strength with shells, ratio of
    // 50 to 20 %. Taken along the build axis, shells left out, as the excerpt does not give the specimen's layers.
    const std::pair<InfillPattern, double> measured[] = {
        {InfillPattern::grid, 2.68}, {InfillPattern::honeycomb, 2.14}, {InfillPattern::triangles, 2.24}};
    for (const auto& [pattern, ratio] : measured)
        CHECK(infillModuli(pattern, 0.5).across / infillModuli(pattern, 0.2).across == Approx(ratio).epsilon(0.25));
}
