#include "core/printed/layer_view.h"

#include <catch2/catch.hpp>
#include <random>

#include "core/printed/print_job.h"
#include "tests/printed/sample_prints.h"

using namespace waybench;
using namespace waybench::printed;

namespace {

/// A plate with a hole, under a lid that overhangs on two sides and asks for supports.
Mesh lidOnPlate() {
    Mesh plate = column({rectangle(8, 0, 32, 24), circle(20, 12, 5, 40, true)}, 6);
    const Mesh lid = transformed(box(40, 24, 2.5), Mat3::Identity(), Vec3(0, 0, 6 - 1e-3));
    const auto base = static_cast<std::uint32_t>(plate.vertices.size());
    plate.vertices.insert(plate.vertices.end(), lid.vertices.begin(), lid.vertices.end());
    for (const auto& t : lid.triangles)
        plate.triangles.push_back({base + t[0], base + t[1], base + t[2]});
    return plate;
}

LayerView viewOf(const Mesh& mesh, const Recipe& recipe) {
    return LayerView(mesh, recipe, shippedShop().printer(recipe.printer),
                     shippedShop().printingMaterial(recipe.material), Task());
}

double lengthOf(const Passage& passage) {
    double sum = 0;
    for (std::size_t i = 1; i < passage.points.size(); ++i)
        sum += (passage.points[i] - passage.points[i - 1]).norm();
    return sum;
}

}  // namespace

TEST_CASE("the passages of a layer are as long as the schedule times them, and hang together", "[printed]") {
    const LayerView view = viewOf(lidOnPlate(), Recipe());
    REQUIRE(view.layerCount() > 40);
    bool sawSupport = false;
    for (std::size_t k = 0; k < view.layerCount(); k += 3) {
        const LaidLayer layer = view.laid(k);
        std::array<double, kPathKinds> laid{};
        double travelled = 0, drawnBack = 0;
        for (std::size_t i = 0; i < layer.passages.size(); ++i) {
            const Passage& p = layer.passages[i];
            REQUIRE(p.points.size() >= 2);
            if (i > 0) CHECK((p.points.front() - layer.passages[i - 1].points.back()).norm() < 1e-5);
            if (p.isTravel)
                travelled += lengthOf(p);
            else
                laid[static_cast<std::size_t>(p.kind)] += lengthOf(p);
            drawnBack += p.isDrawnBack ? 1 : 0;
            sawSupport = sawSupport || p.kind == PathKind::support;
        }
        laid[static_cast<std::size_t>(PathKind::inner_contour)] += layer.content.gapFill_mm;
        INFO("layer " << k);
        for (std::size_t kind = 0; kind < kPathKinds; ++kind)
            CHECK(laid[kind] == Approx(layer.time.path_mm[kind]).margin(1e-6));
        CHECK(travelled == Approx(layer.time.travel_mm).margin(1e-4));
        CHECK(drawnBack == layer.time.retracts);
    }
    CHECK(sawSupport);
}

TEST_CASE("a layer's section is walls, skin, infill and what is too narrow, and its beads lie within it", "[printed]") {
    const LayerView view = viewOf(lidOnPlate(), Recipe());
    for (std::size_t k = 0; k < view.layerCount(); k += 5) {
        const LaidLayer layer = view.laid(k);
        const LayerContent& c = layer.content;
        CHECK(areaOf(view.sectionOf(k)) == Approx(c.section_mm2).epsilon(1e-9));
        CHECK(c.wall_mm2 + c.skin_mm2 + c.infill_mm2 + c.missing_mm2 == Approx(c.section_mm2).epsilon(1e-3));
        const Region grown = offsetBy(view.sectionOf(k), 0.01);
        for (const Passage& p : layer.passages)
            if (!p.isTravel && p.kind != PathKind::support && p.kind != PathKind::brim)
                for (const Vec2& point : p.points)
                    CHECK(contains(grown, point));
    }
}

TEST_CASE("the layers looked at one by one take together the time of the print job", "[printed]") {
    const Mesh mesh = lidOnPlate();
    for (const InfillPattern pattern : {InfillPattern::grid, InfillPattern::gyroid}) {
        Recipe recipe;
        recipe.infill = pattern;
        recipe.brimReach_mm = 4;
        const LayerView view = viewOf(mesh, recipe);
        const PrintJob job = printJob(mesh, recipe, shippedShop().printer(recipe.printer),
                                      shippedShop().printingMaterial(recipe.material), false, Task());
        REQUIRE(view.layerCount() == job.layers);
        LayerTime sum;
        for (std::size_t k = 0; k < view.layerCount(); ++k)
            sum.add(view.laid(k).time, 1);
        // the job takes a gyroid's layers by eighths of its period, at the middle of each
        const double slack = pattern == InfillPattern::gyroid ? 0.02 : 1e-9;
        CHECK(sum.total_s() == Approx(job.layers_s()).epsilon(slack));
        for (std::size_t kind = 0; kind < kPathKinds; ++kind)
            CHECK(sum.path_mm[kind] ==
                  Approx(job.firstLayer.path_mm[kind] + job.others.path_mm[kind]).epsilon(slack).margin(1e-6));
        CHECK(sum.path_mm[static_cast<std::size_t>(PathKind::brim)] > 0);
    }
}

TEST_CASE("a bead is as wide as fills its spacing at the height of its layer", "[printed]") {
    Recipe recipe;
    recipe.firstLayerThickness_mm = 0.3;
    const LayerView view = viewOf(box(20, 15, 5.1), recipe);
    for (const std::size_t k : {std::size_t(0), std::size_t(7)}) {
        const LaidLayer layer = view.laid(k);
        const double area = beadSpacing_mm(recipe) * layer.place.height_mm;
        const double h = layer.place.height_mm, w = layer.beadWidth_mm;
        CHECK((w - h) * h + M_PI * h * h / 4 == Approx(area).epsilon(1e-9));
    }
    CHECK(view.laid(7).beadWidth_mm == Approx(recipe.beadWidth_mm).epsilon(0.01));
}

TEST_CASE("a layer beyond the top is refused, and a cancelled look ends", "[printed]") {
    const LayerView view = viewOf(box(20, 15, 5), Recipe());
    CHECK_THROWS_AS(view.laid(view.layerCount()), std::out_of_range);
    Task task;
    task.cancel();
    CHECK_THROWS_AS(view.laid(3, task), Cancelled);
}
