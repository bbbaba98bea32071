#include "core/printed/supports.h"

#include <catch2/catch.hpp>
#include <cmath>

#include "core/printed/print_job.h"
#include "tests/printed/sample_prints.h"

using namespace waybench;
using namespace waybench::printed;

namespace {

/// A post with a slab on it, as one closed outline pulled along y: a T standing on its foot.
Mesh tee(double postWidth, double slabWidth, double height, double slabThickness, double depth) {
    const double a = 0.5 * postWidth, b = 0.5 * slabWidth, h = height;
    const Ring outline{{-a, 0}, {a, 0}, {a, h}, {b, h}, {b, h + slabThickness}, {-b, h + slabThickness},
                       {-b, h}, {-a, h}};
    Mat3 stand;  // x stays, the outline's y becomes z
    stand << 1, 0, 0, 0, 0, -1, 0, 1, 0;
    return transformed(column({outline}, depth), stand, Vec3(b, depth, 0));
}

SupportStack supportsOf(const Mesh& mesh, const Recipe& recipe, std::size_t stride = 1) {
    return supportStack(sectionStack(mesh, recipe, Task()), recipe, stride, Task());
}

}  // namespace

TEST_CASE("columns stand under the arms of a T down to the bed", "[printed]") {
    Recipe recipe;
    const SupportStack s = supportsOf(tee(10, 40, 20, 5, 15), recipe);
    CHECK(s.overhang_mm2 == Approx(2 * 15 * 15).epsilon(0.01));
    // less the side gap beside the post and at most one layer of height
    CHECK(s.columns_mm3 == Approx(2 * (15 - 0.3) * 15 * 20).epsilon(0.03));
    recipe.supports = false;
    const SupportStack none = supportsOf(tee(10, 40, 20, 5, 15), recipe);
    CHECK(none.columns_mm3 == Approx(s.columns_mm3));
    for (const auto region : none.regionOfLayer)
        CHECK(region == 0);
}

TEST_CASE("a T upside down and a plain column need nothing", "[printed]") {
    Recipe recipe;
    CHECK(supportsOf(box(20, 20, 20), recipe).overhang_mm2 == 0);
    recipe.up = Direction::minus_z;
    CHECK(supportsOf(tee(10, 40, 20, 5, 15), recipe).overhang_mm2 == 0);
}

TEST_CASE("a flank is supported past the limit and not before", "[printed]") {
    // frustum that widens upwards: 20 mm half width grows by the lean over 10 mm of height
    for (const double lean_deg : {35.0, 42.0, 48.0, 60.0}) {
        INFO(lean_deg);
        const double grown = 20 + 10 * std::tan(lean_deg * M_PI / 180);
        const Mesh mesh = column({rectangle(-20, -20, 20, 20)}, 10, grown / 20);
        const SupportStack s = supportsOf(mesh, Recipe());
        if (lean_deg < 45)
            CHECK(s.overhang_mm2 == 0);
        else
            CHECK(s.overhang_mm2 == Approx(4 * (grown * grown - 400)).epsilon(0.05));
    }
}

TEST_CASE("a narrow ledge and a short bridge print free; a wide bridge does not", "[printed]") {
    CHECK(supportsOf(tee(10, 12.4, 10, 4, 20), Recipe()).overhang_mm2 == 0);
    CHECK(supportsOf(tee(10, 12.4, 10, 4, 20), Recipe()).free_mm2 == Approx(2.4 * 20).epsilon(0.05));
    CHECK(supportsOf(tee(10, 18, 10, 4, 20), Recipe()).overhang_mm2 == Approx(8 * 20).epsilon(0.02));
    // a slab across two posts
    for (const double gap : {4.0, 12.0}) {
        const double g = gap / 2;
        const Ring gate{{-g - 8, 0}, {-g, 0}, {-g, 10}, {g, 10}, {g, 0}, {g + 8, 0}, {g + 8, 14}, {-g - 8, 14}};
        Mat3 stand;
        stand << 1, 0, 0, 0, 0, -1, 0, 1, 0;
        const SupportStack s = supportsOf(transformed(column({gate}, 20), stand, Vec3::Zero()), Recipe());
        CHECK(s.overhang_mm2 == Approx(gap > kFreeSpan_mm ? gap * 20 : 0).epsilon(0.02));
    }
}

TEST_CASE("columns under a ball fill the space below its 45 degree cap, less the gaps", "[printed]") {
    const double r = 15, rho = r * std::sin(M_PI / 4);
    const double space = M_PI * r * rho * rho - 2 * M_PI / 3 * (r * r * r - std::pow(r * r - rho * rho, 1.5));
    const SupportStack all = supportsOf(ball(r, 60, 120), Recipe());
    CHECK(all.overhang_mm2 == Approx(M_PI * rho * rho).epsilon(0.05));
    CHECK(all.columns_mm3 < space);
    CHECK(all.columns_mm3 > 0.8 * space);
    const SupportStack some = supportsOf(ball(r, 60, 120), Recipe(), 3);
    CHECK(some.columns_mm3 == Approx(all.columns_mm3).epsilon(0.2));
    CHECK(some.overhang_mm2 == Approx(all.overhang_mm2).epsilon(0.05));
}

TEST_CASE("a wide gap between two posts is a bridge too long, and its place is told", "[printed]") {
    for (const double gap : {4.0, 12.0, 30.0}) {
        const double g = gap / 2;
        const Ring gate{{-g - 8, 0}, {-g, 0}, {-g, 10}, {g, 10}, {g, 0}, {g + 8, 0}, {g + 8, 14}, {-g - 8, 14}};
        Mat3 stand;
        stand << 1, 0, 0, 0, 0, -1, 0, 1, 0;
        const Mesh mesh = transformed(column({gate}, 20), stand, Vec3(100, 0, 50));
        const Shop& shop = shippedShop();
        const PrintJob job =
            printJob(mesh, Recipe(), shop.printer("bed-moving"), shop.printingMaterial("petg"), false, Task());
        CHECK(job.supports.longBridge_mm2 == Approx(gap > kFreeSpan_mm ? gap * 20 : 0).epsilon(0.1));
        REQUIRE(job.longBridgeAt_mm.has_value() == (gap > kFreeSpan_mm));
        if (!job.longBridgeAt_mm) continue;
        CHECK(std::abs(job.longBridgeAt_mm->x() - 100) < g);
        CHECK(job.longBridgeAt_mm->z() == Approx(60).margin(0.3));
    }
    CHECK(supportsOf(tee(10, 40, 20, 5, 15), Recipe()).longBridge_mm2 == 0);
}

TEST_CASE("supports in a cavity that opens nowhere are trapped, those in an open one are not", "[printed]") {
    const auto trappedIn = [](const Mesh& mesh) {
        const Shop& shop = shippedShop();
        return printJob(mesh, Recipe(), shop.printer("bed-moving"), shop.printingMaterial("petg"), false, Task());
    };
    const auto withCavity = [](double bottom, double top) {
        Mesh mesh = box(30, 30, 20);
        const Mesh hollow = column({rectangle(6, 6, 24, 24)}, top - bottom);
        const auto base = static_cast<std::uint32_t>(mesh.vertices.size());
        for (const Vec3& p : hollow.vertices)
            mesh.vertices.push_back(p + Vec3(0, 0, bottom));
        for (const auto& t : hollow.triangles)
            mesh.triangles.push_back({base + t[0], base + t[2], base + t[1]});
        return mesh;
    };
    const PrintJob closed = trappedIn(withCavity(5, 15));
    CHECK(closed.trapped.columns_mm3 == Approx(closed.supports.columns_mm3).epsilon(0.01));
    CHECK(closed.trapped.columns_mm3 > 0.9 * 17.4 * 17.4 * 10);
    REQUIRE(closed.trappedAt_mm);
    CHECK(std::abs(closed.trappedAt_mm->x() - 15) < 9);
    CHECK(closed.trappedAt_mm->z() >= 4.9);
    CHECK(closed.trappedAt_mm->z() <= 15);
    // open at the bed: the column stands on the bed and comes out with it
    const Mesh open = [] {
        Mat3 stand;
        stand << 1, 0, 0, 0, 0, -1, 0, 1, 0;
        const Ring gate{{0, 0}, {8, 0}, {8, 12}, {22, 12}, {22, 0}, {30, 0}, {30, 18}, {0, 18}};
        return transformed(column({gate}, 25), stand, Vec3::Zero());
    }();
    const PrintJob free = trappedIn(open);
    CHECK(free.supports.columns_mm3 > 100);
    CHECK(free.trapped.columns_mm3 == 0);
}
