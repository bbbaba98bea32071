#include "core/geometry/curve_clipping.h"

#include <catch2/catch.hpp>
#include <cmath>
#include <random>

using namespace waybench;

namespace {

Ring star(std::mt19937& random, double x, double y, double least, double most, int corners, bool isHole) {
    std::uniform_real_distribution<double> radius(least, most);
    Ring ring;
    for (int i = 0; i < corners; ++i) {
        const double a = (isHole ? -2 : 2) * M_PI * i / corners, r = radius(random);
        ring.emplace_back(x + r * std::cos(a), y + r * std::sin(a));
    }
    return ring;
}

}  // namespace

TEST_CASE("what is kept of a curve is what lies in the region, by a walk in small steps", "[geometry]") {
    std::mt19937 random(11);
    std::uniform_real_distribution<double> place(-25, 25);
    for (int trial = 0; trial < 40; ++trial) {
        const Region region{star(random, 0, 0, 9, 20, 60, false), star(random, 0, 0, 3, 8, 30, true)};
        Curve curve;
        for (int i = 0; i < 60; ++i)
            curve.emplace_back(place(random), place(random));
        std::vector<Curve> pieces;
        CurveClipper(region).clip(curve, pieces);
        double kept = 0, walked = 0;
        for (const Curve& piece : pieces)
            kept += lengthOf(piece);
        constexpr int kSteps = 400;
        for (std::size_t i = 1; i < curve.size(); ++i)
            for (int k = 0; k < kSteps; ++k)
                if (contains(region, curve[i - 1] + (k + 0.5) / kSteps * (curve[i] - curve[i - 1])))
                    walked += (curve[i] - curve[i - 1]).norm() / kSteps;
        CHECK(kept == Approx(walked).epsilon(0.005));
    }
}

TEST_CASE("a line through corners and along an edge is cut without loss", "[geometry]") {
    const Region square{{{0, 0}, {10, 0}, {10, 10}, {0, 10}}};
    const CurveClipper clipper(square);
    std::vector<Curve> pieces;
    clipper.clip({{-5, -5}, {15, 15}}, pieces);
    REQUIRE(pieces.size() == 1);
    CHECK(lengthOf(pieces[0]) == Approx(10 * std::sqrt(2.0)));
    pieces.clear();
    clipper.clip({{-3, 4}, {2, 4}, {2, 6}, {12, 6}, {12, 20}}, pieces);
    REQUIRE(pieces.size() == 1);
    CHECK(lengthOf(pieces[0]) == Approx(2 + 2 + 8));
    pieces.clear();
    clipper.clip({{3, 3}, {4, 3}, {4, 4}}, pieces);
    REQUIRE(pieces.size() == 1);
    CHECK(lengthOf(pieces[0]) == Approx(2));
    pieces.clear();
    clipper.clip({{-5, 20}, {20, 20}, {20, -5}}, pieces);
    CHECK(pieces.empty());
    CurveClipper({}).clip({{0, 0}, {1, 1}}, pieces);
    CHECK(pieces.empty());
}

TEST_CASE("a region lies within another exactly when nothing of it is left outside and no edges meet", "[geometry]") {
    std::mt19937 random(5);
    std::uniform_real_distribution<double> place(-4, 4), size(2, 14);
    int within = 0;
    for (int trial = 0; trial < 400; ++trial) {
        const double r = size(random);
        const Region inner{star(random, place(random), place(random), 0.8 * r, r, 24, false)};
        Region outer{star(random, 0, 0, 9, 16, 30, false)};
        if (trial % 2 == 0) outer.push_back(star(random, place(random), place(random), 1, 2, 12, true));
        const double left = areaOf(differenceOf(inner, outer));
        CHECK(CurveClipper(inner).liesWithin(outer) == (left < 1e-6));
        within += left < 1e-6;
    }
    CHECK(within > 40);
    CHECK(within < 360);
    CHECK(CurveClipper(Region{}).liesWithin({}));
}
