#include <catch2/catch.hpp>

#include "core/machined/pocketing.h"
#include "core/machined/tool_path.h"

// Case 15 of machined-route.md section 11: pocket 40 x 30, tool 6 mm, step-over 3 mm, concentric rings, no links.
// Expected values derived there: rings 116 + 92 + 68 + 44 = 320 mm and a final line of 10 mm.
using namespace waybench;
using namespace waybench::machined;

TEST_CASE("Case 15: rings in a 40 x 30 pocket with a 6 mm tool are 330 mm long", "[check][pocket]") {
    const Region pocket{{{0, 0}, {40, 0}, {40, 30}, {0, 30}}};
    const Region around{{{-20, -20}, {60, -20}, {60, 50}, {-20, 50}}};
    const Region centres = toolCentres(pocket, differenceOf(around, pocket), 3);
    CHECK(areaOf(centres) == Approx(34 * 24).margin(0.01));
    const std::vector<Pass> passes = ringsInside(centres, 3);
    REQUIRE(passes.size() == 5);
    const double rings[] = {116, 92, 68, 44, 10};
    for (std::size_t i = 0; i < 5; ++i)
        CHECK(lengthOf(passes[i]) == Approx(rings[i]).margin(0.002));
    CHECK(lengthOf(passes) == Approx(330).margin(0.005));
    CHECK(areaOf(centres) / 3 == Approx(272).epsilon(0.001));
    CHECK(areaOf(pocket) / 3 == Approx(400).epsilon(0.001));
    // the true length lies between tool-centre area and pocket area over the step-over, near their mean of 336
    CHECK(lengthOf(passes) == Approx(336).epsilon(0.05));
}
