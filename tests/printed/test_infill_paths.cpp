#include "core/printed/infill_paths.h"

#include <array>
#include <catch2/catch.hpp>
#include <cmath>
#include <random>

#include "core/printed/bead.h"
#include "core/printed/gyroid_infill.h"
#include "core/printed/honeycomb_infill.h"
#include "core/printed/print_job.h"
#include "core/progress/thread_team.h"
#include "tests/printed/sample_prints.h"

using namespace waybench;
using namespace waybench::printed;

namespace {

constexpr InfillPattern kPatterns[] = {InfillPattern::lines, InfillPattern::grid, InfillPattern::triangles,
                                       InfillPattern::honeycomb, InfillPattern::gyroid};

double totalLength(const std::vector<Track>& tracks) {
    double sum = 0;
    for (const Track& t : tracks)
        sum += lengthOf(t);
    return sum;
}

double totalLength(const std::vector<Curve>& curves) {
    double sum = 0;
    for (const Curve& c : curves)
        sum += lengthOf(c);
    return sum;
}

}  // namespace

TEST_CASE("every pattern's curves hold the share of material asked for within 2 %", "[printed]") {
    const double layer = 0.2;
    constexpr int kShifts = 7;
    const Bead bead{0.45, layer};
    const double spacing = voidFreeSpacing_mm(bead);
    for (const InfillPattern pattern : kPatterns)
        for (const double share : {0.1, 0.2, 0.4}) {
            INFO(nameOf(pattern) << " " << share);
            const double period = infillPeriod_mm(pattern, share, spacing);
            const int layers = period > 0 ? 24 : 2;
            double curves = 0, tracks = 0;  // means over the layers and over where the square lies in the pattern
            for (int k = 0; k < layers; ++k)
                for (int shift = 0; shift < kShifts; ++shift) {
                    const double x = 3.7 * shift, y = 1.9 * shift;
                    const Region square{rectangle(x, y, x + 100, y + 100)};
                    const InfillPlace place{k % 2 == 1, period * (k + 0.37) / layers};
                    const double weight = 1.0 / (layers * kShifts);
                    curves += weight * totalLength(infillCurves(square, pattern, share, spacing, place));
                    tracks += weight * totalLength(infillTracks(square, pattern, share, spacing, place));
                }
            CHECK(curves * beadArea_mm2(bead) / (100 * 100 * layer) == Approx(share).epsilon(0.02));
            // the links along the border come on top: no more than twice around at the bead of one row
            CHECK(tracks >= curves);
            CHECK(tracks < curves + 2 * 400);
        }
    const Region square{rectangle(0, 0, 100, 100)};
    CHECK(infillTracks(square, InfillPattern::grid, 0, spacing, {}).empty());
    CHECK(totalLength(infillCurves(square, InfillPattern::gyroid, 1, spacing, {})) ==
          Approx(100 * 100 / spacing).epsilon(0.01));
}

TEST_CASE("points of a gyroid layer lie on its level surface", "[printed]") {
    const CurveClipper region({rectangle(3, -2, 40, 31)});
    const double cell = gyroidCell_mm(0.2, 0.4), turn = 2 * M_PI / cell;
    for (double z = 0.1; z < 1.3 * cell; z += 0.173) {
        INFO(z);
        const std::vector<Curve> curves = gyroidCurves(region, 0.2, 0.4, z);
        REQUIRE(curves.size() > 10);
        for (const Curve& curve : curves)
            for (std::size_t i = 1; i + 1 < curve.size(); ++i) {  // the ends lie on a line between two points
                const double x = turn * curve[i].x(), y = turn * curve[i].y(), w = turn * z;
                CHECK(std::abs(std::sin(x) * std::cos(y) + std::sin(y) * std::cos(w) + std::sin(w) * std::cos(x)) <
                      1e-9);
            }
    }
}

TEST_CASE("the mean cut of a gyroid agrees with its sheet's 3.09 cells squared and lean", "[printed]") {
    // an independent quadrature, by the coarea formula: the integral of |grad f| over a thin shell |f| < e, over 2 e
    constexpr int n = 100;
    constexpr double e = 0.15, h = 2 * M_PI / n;
    std::array<double, n> s{}, c{};
    for (std::size_t i = 0; i < n; ++i) {
        s[i] = std::sin((static_cast<double>(i) + 0.37) * h);
        c[i] = std::cos((static_cast<double>(i) + 0.37) * h);
    }
    double area = 0, cut = 0;
    for (std::size_t i = 0; i < n; ++i)
        for (std::size_t j = 0; j < n; ++j)
            for (std::size_t k = 0; k < n; ++k) {
                if (std::abs(s[i] * c[j] + s[j] * c[k] + s[k] * c[i]) >= e) continue;
                const double gx = c[i] * c[j] - s[k] * s[i], gy = c[j] * c[k] - s[i] * s[j];
                area += std::hypot(gx, gy, c[k] * c[i] - s[j] * s[k]) * h * h * h / (2 * e);
                cut += std::hypot(gx, gy) * h * h * h / (2 * e);
            }
    const double perCell = 4 * M_PI * M_PI;
    CHECK(area / perCell == Approx(3.09).epsilon(0.01));  // printed-route.md 2.1
    CHECK(cut / perCell == Approx(gyroidCell_mm(1, 1)).epsilon(0.01));
}

TEST_CASE("honeycomb tracks run along edges of one length and turn by 60 degrees", "[printed]") {
    const double edge = honeycombEdge_mm(0.25, 0.4);
    const std::vector<Curve> rows = honeycombCurves(CurveClipper({rectangle(0, 0, 60, 40)}), 0.25, 0.4);
    REQUIRE(rows.size() > 5);
    for (const Curve& row : rows)
        for (std::size_t i = 2; i + 2 < row.size(); ++i) {
            const Vec2 a = row[i] - row[i - 1], b = row[i + 1] - row[i];
            CHECK(a.norm() == Approx(edge).epsilon(1e-9));
            CHECK(a.dot(b) / a.norm() / b.norm() == Approx(0.5).epsilon(1e-6));
        }
}

TEST_CASE("time of a tower with shared phases of the gyroid is that of every layer at its own height", "[printed]") {
    const Shop& shop = shippedShop();
    const Mesh mesh = box(24, 19, 18);
    for (const double share : {0.1, 0.3, 0.5}) {
        Recipe recipe;
        recipe.infillShare = share;
        PrintingMaterial material = shop.printingMaterial("petg");
        material.minimumLayerTime.value = 0;
        const PrintJob job = printJob(mesh, recipe, shop.printer("bed-moving"), material, false, Task());
        CHECK(job.layersComputed < job.layers / 2);
        const SectionStack stack = sectionStack(mesh, recipe, Task());
        const double spacing = beadSpacing_mm(recipe);
        double exact_s = 0;
        for (std::size_t k = 0; k < stack.layers.size(); ++k) {
            const Pace pace = paceOf(shop.printer("bed-moving"), material, spacing * stack.layers[k].height_mm, k == 0);
            LayerTime time =
                timeOf(tracksOf(layerContent(stack, k, recipe, spacing), {}, recipe, spacing, placeOf(stack, k)), pace);
            closeLayer(time, pace);
            exact_s += time.total_s();
        }
        CHECK(job.layers_s() == Approx(exact_s).epsilon(0.01));
    }
}

TEST_CASE("any number of threads lays out the same print to the last bit", "[printed]") {
    const Shop& shop = shippedShop();
    const auto job = [&] {
        return printJob(ball(9, 24, 48), Recipe(), shop.printer("bed-moving"), shop.printingMaterial("petg"), false,
                        Task());
    };
    const PrintJob many = job();
    setMostThreads(1);
    const PrintJob one = job();
    setMostThreads(0);
    CHECK(many.layers_s() == one.layers_s());
    CHECK(many.part_mm3() == one.part_mm3());
}
