#include <catch2/catch.hpp>
#include <cmath>
#include <random>

#include "core/geometry/polygon.h"

using namespace waybench;

namespace {

Ring rectangle(double x, double y, double w, double h) {
    return {{x, y}, {x + w, y}, {x + w, y + h}, {x, y + h}};
}
Ring reversed(const Ring& ring) {
    return {ring.rbegin(), ring.rend()};
}

Region randomRectangles(std::mt19937& random, int count) {
    std::uniform_real_distribution<double> place(0, 50), size(1, 25);
    Region all;
    for (int i = 0; i < count; ++i)
        all = unionOf(all, {rectangle(place(random), place(random), size(random), size(random))});
    return all;
}

}  // namespace

TEST_CASE("Areas and lengths of rings follow their winding") {
    const Ring r = rectangle(1000, 2000, 30, 20);
    CHECK(signedArea(r) == Approx(600));
    CHECK(signedArea(reversed(r)) == Approx(-600));
    CHECK(perimeterOf(r) == Approx(100));
    CHECK(areaOf(Region{r, reversed(rectangle(1005, 2005, 2, 3))}) == Approx(594));
    CHECK(signedArea(Ring{}) == 0);
    CHECK(perimeterOf(Ring{}) == 0);
}

TEST_CASE("A rectangle grows and shrinks by its offset") {
    const Region r{rectangle(0, 0, 30, 20)};
    for (const double d : {0.1, 0.45, 2.0, 7.5}) {
        CHECK(areaOf(offsetBy(r, d)) == Approx((30 + 2 * d) * (20 + 2 * d)).epsilon(1e-5));
        CHECK(areaOf(offsetBy(r, -d)) == Approx((30 - 2 * d) * (20 - 2 * d)).epsilon(1e-5));
        // Rounded: area + perimeter d + pi d^2 (Steiner), less what chords 0.005 mm off cut away.
        const double steiner = 600 + 100 * d + M_PI * d * d;
        CHECK(areaOf(offsetBy(r, d, Corner::round)) == Approx(steiner).margin(2 * M_PI * d * 0.005 + 0.02));
        CHECK(areaOf(offsetBy(r, d, Corner::round)) <= steiner + 0.02);
    }
    CHECK(offsetBy(r, -10).empty());
    CHECK(offsetBy(r, -9.9999).empty() == false);
    CHECK(offsetBy({}, 1).empty());
}

TEST_CASE("A hole shrinks as its plate grows, and vanishes") {
    const Region r{rectangle(0, 0, 30, 20), reversed(rectangle(10, 5, 6, 4))};
    CHECK(areaOf(offsetBy(r, 1)) == Approx(32 * 22 - 4 * 2).epsilon(1e-5));
    CHECK(areaOf(offsetBy(r, -1)) == Approx(28 * 18 - 8 * 6).epsilon(1e-5));
    CHECK(offsetBy(r, 2.5).size() == 1);
}

TEST_CASE("Union and intersection together measure as much as both regions; the difference as what is not shared") {
    std::mt19937 random(5);
    for (int i = 0; i < 100; ++i) {
        const Region a = randomRectangles(random, 3), b = randomRectangles(random, 3);
        const double both = areaOf(unionOf(a, b)), shared = areaOf(intersectionOf(a, b));
        CHECK(both + shared == Approx(areaOf(a) + areaOf(b)).epsilon(1e-6).margin(1e-3));
        CHECK(areaOf(differenceOf(a, b)) == Approx(areaOf(a) - shared).epsilon(1e-6).margin(1e-3));
        CHECK(areaOf(unionOf(std::vector<Region>{a, b})) == Approx(both).margin(1e-9));
    }
}

TEST_CASE("Points are told inside from outside, holes and doubled rings included") {
    const Region r{rectangle(0, 0, 30, 20), reversed(rectangle(10, 5, 6, 4))};
    CHECK(contains(r, {1, 1}));
    CHECK_FALSE(contains(r, {12, 6}));
    CHECK_FALSE(contains(r, {-1, 6}));
    CHECK_FALSE(contains(r, {31, 6}));
    CHECK(contains({rectangle(0, 0, 30, 20), rectangle(10, 5, 6, 4)}, {12, 6}));
    CHECK_FALSE(contains({}, {0, 0}));
}

TEST_CASE("Islands keep their points and get their own holes, islands within holes included") {
    const Ring hole = reversed(rectangle(10, 10, 30, 30));
    const Region r{rectangle(20, 20, 10, 10), hole, rectangle(0, 0, 50, 50), reversed(rectangle(22, 22, 2, 2)),
                   rectangle(100, 0, 5, 5)};
    const std::vector<Region> islands = islandsOf(r);
    REQUIRE(islands.size() == 3);
    double area = 0;
    for (const Region& island : islands) {
        CHECK(signedArea(island.front()) > 0);
        for (std::size_t i = 1; i < island.size(); ++i)
            CHECK(signedArea(island[i]) < 0);
        area += areaOf(island);
    }
    CHECK(area == Approx(areaOf(r)));
    CHECK(areaOf(islands[0]) == Approx(100 - 4));
    CHECK(areaOf(islands[1]) == Approx(2500 - 900));
    CHECK(islands[1][1] == hole);
    CHECK(areaOf(islands[2]) == Approx(25));
}

TEST_CASE("Hatch length times spacing measures the region at any angle and phase") {
    std::mt19937 random(6);
    std::uniform_real_distribution<double> angle(-4, 4), phase(-3, 3);
    const Region r{rectangle(-20, -10, 60, 40), reversed(rectangle(0, 0, 12, 8))};
    for (int i = 0; i < 40; ++i) {
        const double a = angle(random), p = phase(random), spacing = 0.25;
        double length = 0;
        for (const Segment2& s : hatch(r, a, spacing, p)) {
            const Vec2 d = s.to - s.from, across(-std::sin(a), std::cos(a));
            length += d.norm();
            const double line = (across.dot(s.from) - p) / spacing;
            CHECK(std::abs(line - std::round(line)) < 1e-6);
            CHECK(std::abs(across.dot(d)) < 1e-9);
            CHECK(contains(r, 0.5 * (s.from + s.to)));
        }
        CHECK(length * spacing == Approx(areaOf(r)).epsilon(0.01));
    }
    CHECK(hatch({}, 0, 1).empty());
    // Lines 0, 1, 2 of a unit-high band [0, 2): the lower edge counts, the upper does not.
    CHECK(hatch({rectangle(0, 0, 5, 2)}, 0, 1).size() == 2);
}

TEST_CASE("Round offsets of a faceted circle stay true and grow no points however often they are repeated") {
    constexpr int kFacets = 160;
    Ring circle;
    for (int i = 0; i < kFacets; ++i)
        circle.emplace_back(20 * std::cos(2 * M_PI * i / kFacets), 20 * std::sin(2 * M_PI * i / kFacets));
    Region region{circle};
    for (int step = 1; step <= 10; ++step) {
        region = offsetBy(region, step % 2 == 1 ? 2.0 : -1.0, Corner::round);
        REQUIRE(region.size() == 1);
        CHECK(region[0].size() <= 3 * kFacets);
    }
    const double radius = 20 + 5 * 2.0 - 5 * 1.0;
    CHECK(areaOf(region) == Approx(M_PI * radius * radius).epsilon(2e-3));
}
