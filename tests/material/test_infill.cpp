#include <catch2/catch.hpp>
#include <cmath>

#include "core/fault/input_fault.h"
#include "core/material/cellular_law.h"
#include "core/material/printing_material.h"

using namespace waybench;

namespace {

constexpr InfillPattern kAll[] = {InfillPattern::lines, InfillPattern::grid, InfillPattern::triangles,
                                  InfillPattern::honeycomb, InfillPattern::gyroid};

}  // namespace

TEST_CASE("No infill is stiffer than the bound, and more of it is never softer") {
    for (InfillPattern pattern : kAll) {
        InfillModuli before{};
        for (int percent = 0; percent <= 100; ++percent) {
            const double rho = percent / 100.0;
            const InfillModuli m = infillModuli(pattern, rho);
            INFO(nameOf(pattern) << " " << percent);
            CHECK(m.inLayer <= isotropicUpperBound3d(rho) + 1e-12);
            CHECK(m.across <= rho + 1e-12);
            CHECK(m.shear <= rho + 1e-12);
            CHECK(m.inLayer >= before.inLayer);
            CHECK(m.across >= before.across);
            CHECK(m.shear >= before.shear);
            CHECK(m.inLayer * (1 + m.above) <= 1 + 1e-12);
            CHECK(m.below < 1);
            before = m;
        }
    }
}

TEST_CASE("No infill carries nothing and full infill is the solid") {
    for (InfillPattern pattern : kAll) {
        const InfillModuli none = infillModuli(pattern, 0), full = infillModuli(pattern, 1);
        CHECK(none.inLayer == 0);
        CHECK(none.across == 0);
        CHECK(full.inLayer == Approx(1));
        CHECK(full.across == Approx(1));
        CHECK(full.shear == Approx(1));
        CHECK(full.below == 0);
        CHECK(full.above == 0);
    }
}

TEST_CASE("Walls carry along the build axis what they do not carry in the layer") {
    for (InfillPattern pattern : {InfillPattern::grid, InfillPattern::triangles, InfillPattern::honeycomb})
        CHECK(infillModuli(pattern, 0.3).across > infillModuli(pattern, 0.3).inLayer);
    const InfillModuli gyroid = infillModuli(InfillPattern::gyroid, 0.3);
    CHECK(gyroid.across == gyroid.inLayer);
}

TEST_CASE("Infill names read back, and other names and shares are refused") {
    for (InfillPattern pattern : kAll)
        CHECK(infillPatternFromName(nameOf(pattern)) == pattern);
    CHECK_THROWS_AS(infillPatternFromName("girid"), InputFault);
    for (double share : {-0.01, 1.01, std::nan("")})
        CHECK_THROWS_AS(infillModuli(InfillPattern::grid, share), InputFault);
}
