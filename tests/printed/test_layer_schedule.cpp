#include "core/printed/layer_schedule.h"

#include <catch2/catch.hpp>
#include <random>

#include "core/printed/print_job.h"
#include "tests/printed/sample_prints.h"

using namespace waybench;
using namespace waybench::printed;

TEST_CASE("time never falls when the minimum layer time or the part's height grows", "[printed]") {
    const Shop& shop = shippedShop();
    PrintingMaterial material = shop.printingMaterial("petg");
    double before = 0;
    for (const double minimum : {0.0, 3.0, 8.0, 20.0, 60.0}) {
        material.minimumLayerTime.value = minimum;
        const double now =
            printJob(box(15, 12, 10), Recipe(), shop.printer("bed-moving"), material, false, Task()).layers_s();
        CHECK(now >= before);
        before = now;
    }
    before = 0;
    for (double height = 2; height < 12; height += 0.37) {
        const PrintJob job = printJob(box(25, 18, height), Recipe(), shop.printer("bed-moving"),
                                      shop.printingMaterial("petg"), false, Task());
        CHECK(job.layers_s() > 0.995 * before);
        before = job.layers_s();
    }
}

TEST_CASE("the hot end caps the speed, and a fatter bead goes slower", "[printed]") {
    const Shop& shop = shippedShop();
    const Printer& printer = shop.printer("fast-enclosed");
    const PrintingMaterial& material = shop.printingMaterial("petg");
    const double flow = printer.flowLimit_mm3_s.value * material.flowFactor.value;
    for (const double area : {0.05, 0.1, 0.2, 0.4}) {
        const Pace pace = paceOf(printer, material, area, false);
        for (std::size_t k = 0; k < kPathKinds; ++k)
            CHECK(pace.speed_mm_s[k] * area <= flow * (1 + 1e-12));
    }
    CHECK(paceOf(printer, material, 0.4, false).isFlowLimited[static_cast<std::size_t>(PathKind::infill)]);
}

TEST_CASE("a layer is never quicker than its paths at full speed, and parts of it add up", "[printed]") {
    const Shop& shop = shippedShop();
    const Pace pace = paceOf(shop.printer("bed-moving"), shop.printingMaterial("pla"), 0.08, false);
    const std::vector<TrackGroup> groups{
        {PathKind::outer_contour, ringTracks({rectangle(0, 0, 40, 30), circle(20, 15, 6, 60, true)})},
        {PathKind::infill, infillTracks({rectangle(2, 2, 38, 28)}, InfillPattern::gyroid, 0.3, 0.4, {})}};
    LayerTime time = timeOf(groups, pace);
    closeLayer(time, pace);
    double sum = time.travel_s + time.retract_s + time.wait_s + time.change_s;
    for (std::size_t k = 0; k < kPathKinds; ++k) {
        CHECK(time.path_s[k] >= time.path_mm[k] / pace.speed_mm_s[k]);
        sum += time.path_s[k];
    }
    CHECK(time.total_s() == Approx(sum).epsilon(1e-12));
    CHECK(time.path_mm[0] == Approx(140 + perimeterOf(circle(20, 15, 6, 60, true))).epsilon(1e-9));
}

TEST_CASE("every layer has its own time, and all of them add up to the print", "[printed]") {
    const Shop& shop = shippedShop();
    for (const bool isDraft : {false, true}) {
        const PrintJob job = printJob(ball(14, 40, 80), Recipe(), shop.printer("bed-moving"),
                                      shop.printingMaterial("petg"), isDraft, Task());
        REQUIRE(job.layerTimes.size() == job.layers);
        LayerTime sum;
        double total = 0;
        for (const LayerTime& layer : job.layerTimes) {
            CHECK(layer.total_s() >= shop.printingMaterial("petg").minimumLayerTime.value);
            sum.add(layer, 1);
            total += layer.total_s();
        }
        CHECK(total == Approx(job.layers_s()).epsilon(1e-9));
        CHECK(sum.travel_s == Approx(job.firstLayer.travel_s + job.others.travel_s).epsilon(1e-9));
        // the middle of a ball takes longer than its poles
        CHECK(job.layerTimes[job.layers / 2].busy_s() > 3 * job.layerTimes.back().busy_s());
    }
}
