#include <catch2/catch.hpp>
#include <cmath>

#include "core/printed/bead.h"
#include "core/printed/print_job.h"
#include "tests/printed/sample_prints.h"

// printed-route.md section 7. K1 to K3: geometry of a stadium, formula also read in a hot-end maker's help page (S39).
using namespace waybench;
using namespace waybench::printed;

TEST_CASE("K1: area, void share and void-free spacing of a 0.45 x 0.20 bead", "[check][printed]") {
    const Bead bead{0.45, 0.20};
    CHECK(beadArea_mm2(bead) == Approx(0.0814159).epsilon(1e-6));
    CHECK(beadArea_mm2(bead) / (0.45 * 0.20) == Approx(0.904621).epsilon(1e-6));
    CHECK(voidShare(bead, 0.45) == Approx(0.0953786).epsilon(1e-6));
    CHECK(voidFreeSpacing_mm(bead) == Approx(0.4070796).epsilon(1e-6));
    CHECK(voidShare(bead, voidFreeSpacing_mm(bead)) == Approx(0).margin(1e-12));
}

TEST_CASE("K2: volume, mass, feed and spool length of that bead", "[check][printed]") {
    const Bead bead{0.45, 0.20};
    CHECK(10000 * beadArea_mm2(bead) == Approx(814.159).epsilon(1e-6));
    CHECK(10000 * beadArea_mm2(bead) / 1000 * 1.24 == Approx(1.009557).epsilon(1e-6));
    CHECK(feedPerPath(bead) == Approx(0.0338488).epsilon(1e-5));
    CHECK(filamentLength_mm(1000, 1.24) / 1000 == Approx(335.2836).epsilon(1e-6));
}

TEST_CASE("K3: melt flow of 11 mm3/s limits that bead to 135.1 mm/s", "[check][printed]") {
    CHECK(flowLimitedSpeed_mm_s(11, beadArea_mm2({0.45, 0.20})) == Approx(135.1087).epsilon(1e-6));
    CHECK(flowLimitedSpeed_mm_s(11, 0.45 * 0.20) == Approx(122.2222).epsilon(1e-6));
}

TEST_CASE("K9: fifty layers of a 40 mm square with and without a minimum layer time", "[check][printed]") {
    // derived (kinematics); the minimum excludes the layer change
    Pace pace;
    pace.speed_mm_s.fill(100);
    pace.acceleration_mm_s2.fill(1000);
    pace.travelSpeed_mm_s = 100;
    pace.travelAcceleration_mm_s2 = 1000;
    pace.cornerSpeed_mm_s = 5;
    pace.layerChange_s = 1;
    const std::vector<TrackGroup> layer{{PathKind::outer_contour, ringTracks({rectangle(0, 0, 40, 40)})}};
    const double minima[] = {0, 5}, totals[] = {148.5375, 300};
    for (int i = 0; i < 2; ++i) {
        pace.minimumLayerTime_s = minima[i];
        LayerTime one = timeOf(layer, pace), all;
        closeLayer(one, pace);
        all.add(one, 50);
        CHECK(all.total_s() == Approx(totals[i]).epsilon(1e-6));
    }
}

TEST_CASE("K11: a 20 mm cube with two walls, four skins and a fifth of infill takes 3124 mm3", "[check][printed]") {
    // derived (geometry); beads 0.45 apart
    Recipe recipe;
    recipe.beadWidth_mm = widthForSpacing(0.45, 0.2);
    recipe.walls = 2;
    recipe.skinsBelow = recipe.skinsAbove = 4;
    recipe.infillShare = 0.2;
    const Shop& shop = shippedShop();
    const PrintJob job =
        printJob(box(20, 20, 20), recipe, shop.printer("bed-moving"), shop.printingMaterial("pla"), false, Task());
    CHECK(job.layers == 100);
    CHECK(job.part_mm3() == Approx(3124.147).epsilon(2e-4));
    CHECK(job.part_mm3() / 1000 * 1.24 == Approx(3.873943).epsilon(2e-4));
    CHECK(job.section_mm3 / 1000 * 1.24 == Approx(9.92).epsilon(1e-6));
}
