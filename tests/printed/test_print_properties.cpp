#include <algorithm>
#include <array>
#include <atomic>
#include <catch2/catch.hpp>
#include <cmath>
#include <thread>

#include "core/fault/input_fault.h"
#include "core/printed/print_job.h"
#include "tests/printed/sample_prints.h"

using namespace waybench;
using namespace waybench::printed;

namespace {

PrintJob jobOf(const Mesh& mesh, const Recipe& recipe = Recipe(), const Task& task = Task()) {
    const Shop& shop = shippedShop();
    return printJob(mesh, recipe, shop.printer("bed-moving"), shop.printingMaterial("petg"), false, task);
}

/// Every facet in four, through the middles of its sides.
Mesh refined(const Mesh& mesh) {
    Mesh fine;
    for (const auto& t : mesh.triangles) {
        const auto base = static_cast<std::uint32_t>(fine.vertices.size());
        const Vec3 a = mesh.vertices[t[0]], b = mesh.vertices[t[1]], c = mesh.vertices[t[2]];
        for (const Vec3& p : {a, b, c, Vec3(0.5 * (a + b)), Vec3(0.5 * (b + c)), Vec3(0.5 * (c + a))})
            fine.vertices.push_back(p);
        for (const auto& f : {std::array<std::uint32_t, 3>{0, 3, 5}, {3, 1, 4}, {5, 4, 2}, {3, 4, 5}})
            fine.triangles.push_back({base + f[0], base + f[1], base + f[2]});
    }
    return fine;
}

/// Facets in reverse order, each starting at another corner.
Mesh reordered(const Mesh& mesh) {
    Mesh other = mesh;
    std::reverse(other.triangles.begin(), other.triangles.end());
    for (auto& t : other.triangles)
        t = {t[1], t[2], t[0]};
    return other;
}

Mesh inverted(Mesh mesh) {
    for (auto& t : mesh.triangles)
        std::swap(t[1], t[2]);
    return mesh;
}

Mesh joined(Mesh a, const Mesh& b) {
    const auto base = static_cast<std::uint32_t>(a.vertices.size());
    a.vertices.insert(a.vertices.end(), b.vertices.begin(), b.vertices.end());
    for (const auto& t : b.triangles)
        a.triangles.push_back({base + t[0], base + t[1], base + t[2]});
    return a;
}

Mesh moved(const Mesh& mesh, double x, double y, double z) {
    return transformed(mesh, Mat3::Identity(), Vec3(x, y, z));
}

}  // namespace

TEST_CASE("time never falls when the part gets longer", "[printed]") {
    double before = 0;
    for (double length = 12; length < 60; length += 3.7) {
        const double now = jobOf(box(length, 14, 3)).layers_s();
        CHECK(now >= before);
        before = now;
    }
}

TEST_CASE("the same solid meshed three ways prints the same within 1 %", "[printed]") {
    for (const Mesh& mesh :
         {column({rectangle(-15, -10, 15, 10), circle(2, 1, 4, 48, true)}, 6, 0.8), ball(8, 30, 60)}) {
        const PrintJob first = jobOf(mesh);
        for (const Mesh& other : {refined(mesh), reordered(mesh)}) {
            const PrintJob job = jobOf(other);
            CHECK(job.layers == first.layers);
            CHECK(job.layers_s() == Approx(first.layers_s()).epsilon(0.01));
            CHECK(job.part_mm3() == Approx(first.part_mm3()).epsilon(0.01));
            CHECK(job.supports.columns_mm3 == Approx(first.supports.columns_mm3).epsilon(0.01).margin(0.5));
        }
    }
}

TEST_CASE("facets in the plane of a cut are read without loss", "[printed]") {
    // the ledge lies at the middle of a layer, where the section is taken
    Recipe recipe;
    const Mesh lower = box(20, 20, 5.1), upper = moved(box(10, 10, 4.9), 5, 5, 5.1);
    const PrintJob job = jobOf(joined(lower, upper), recipe);
    CHECK(job.section_mm3 == Approx(20 * 20 * 5.1 + 10 * 10 * 4.9).epsilon(0.03));
    // two bodies touching along a face, an edge and a corner
    for (const Vec3& at : {Vec3(20, 0, 0), Vec3(20, 20, 0), Vec3(20, 20, 5.1)}) {
        const PrintJob two = jobOf(joined(lower, moved(lower, at.x(), at.y(), at.z())), recipe);
        CHECK(two.section_mm3 == Approx(2 * 20 * 20 * 5.1).epsilon(0.02));
    }
}

TEST_CASE("a fin of no thickness adds nothing", "[printed]") {
    Mesh fin;
    fin.vertices = {{20, 10, 0}, {35, 10, 0}, {35, 10, 8}, {20, 10, 8}};
    fin.triangles = {{0, 1, 2}, {0, 2, 3}, {0, 2, 1}, {0, 3, 2}};
    const PrintJob bare = jobOf(box(20, 20, 8)), finned = jobOf(joined(box(20, 20, 8), fin));
    CHECK(finned.section_mm3 == Approx(bare.section_mm3).epsilon(1e-6));
    CHECK(finned.layers_s() == Approx(bare.layers_s()).epsilon(0.01));
}

TEST_CASE("a shell inside a shell is a cavity, and one that faces outwards is not", "[printed]") {
    const Mesh outer = box(20, 20, 12), inner = moved(box(8, 8, 4), 6, 6, 4);
    CHECK(jobOf(joined(outer, inverted(inner))).section_mm3 == Approx(20 * 20 * 12 - 8 * 8 * 4).epsilon(1e-3));
    CHECK(jobOf(joined(outer, inner)).section_mm3 == Approx(20 * 20 * 12).epsilon(1e-3));
}

TEST_CASE("a solid turned inside out gives the same print or says what is wrong", "[printed]") {
    try {
        CHECK(jobOf(inverted(box(20, 20, 8))).section_mm3 == Approx(20 * 20 * 8).epsilon(1e-3));
    } catch (const InputFault& fault) {
        CHECK(std::string(fault.code()) == "nothing_to_print");
    }
}

TEST_CASE("a million facets print", "[.cost][printed]") {
    CHECK(jobOf(ball(40, 700, 720)).section_mm3 == Approx(4.0 / 3 * M_PI * 64000).epsilon(0.005));
}

TEST_CASE("a print cancelled at any moment stops", "[printed]") {
    const Mesh mesh = ball(20, 60, 120);
    for (const double moment : {0.0, 0.1, 0.16, 0.31, 0.5, 0.9}) {
        const Task task;
        std::atomic<bool> isOver{false};
        std::thread stopper([&] {
            while (!isOver && task.progress() < moment)
                std::this_thread::yield();
            task.cancel();
        });
        CHECK_THROWS_AS(jobOf(mesh, Recipe(), task), Cancelled);
        isOver = true;
        stopper.join();
    }
}

TEST_CASE("skins over sparse infill and over air are bridges, and a solid inside has none over it", "[printed]") {
    Recipe recipe;
    const PrintJob sparse = jobOf(box(30, 20, 6), recipe);
    const double inside = (30 - 6 * beadSpacing_mm(recipe)) * (20 - 6 * beadSpacing_mm(recipe));
    CHECK(sparse.bridge_mm2 == Approx(inside).epsilon(0.01));  // the lowest of the upper skins
    recipe.infillShare = 1;
    CHECK(jobOf(box(30, 20, 6), recipe).bridge_mm2 == 0);
    const auto bridges = static_cast<std::size_t>(PathKind::bridge);
    CHECK(sparse.others.path_s[bridges] >=
          sparse.others.path_mm[bridges] / shippedShop().printer("bed-moving").speedBridge.value);
    CHECK(sparse.others.path_mm[bridges] * beadSpacing_mm(recipe) == Approx(inside).epsilon(0.05));
}

TEST_CASE("a brim lays its rings around the first layer only", "[printed]") {
    Recipe recipe;
    recipe.brimReach_mm = 8 * beadSpacing_mm(recipe);
    const PrintJob job = jobOf(box(30, 20, 4), recipe), bare = jobOf(box(30, 20, 4));
    const double width = recipe.brimReach_mm, area = 2 * (30 + 20) * width + M_PI * width * width;
    CHECK(job.brim_mm3 == Approx(area * 0.2).epsilon(0.01));
    const auto brim = static_cast<std::size_t>(PathKind::brim);
    CHECK(job.firstLayer.path_mm[brim] * beadSpacing_mm(recipe) == Approx(area).epsilon(0.01));
    CHECK(job.others.path_mm[brim] == 0);
    CHECK(job.layers_s() > bare.layers_s());
    CHECK(job.part_mm3() == Approx(bare.part_mm3()));
}
