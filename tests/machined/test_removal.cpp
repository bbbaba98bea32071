// Proof by simulation: the planned paths make the part.
#include <catch2/catch.hpp>
#include <random>

#include "core/machined/removal.h"
#include "sample_parts.h"

using namespace waybench;
using namespace waybench::machined;

namespace {

RemovalProof proofOf(const Solid& solid, const Plan& plan = {}) {
    const Planned p = planned(solid, plan);
    const Vec3 size = boundsOf(p.setUps.front().mesh).size();
    return proveRemoval(p.setUps, p.work, size + Vec3(36, 36, 0), 0, Task{});
}

std::string told(const RemovalProof& proof) {
    std::string text = "grid " + std::to_string(proof.grid_mm) + ", left " + std::to_string(proof.leftover_mm3) +
                       " mm3, taken " + std::to_string(proof.taken_mm3) + " mm3";
    for (const Gouge& g : proof.gouges)
        text += "; " + g.by + " " + std::to_string(g.depth_mm) + " mm deep at " + std::to_string(g.place.x()) + ", " +
                std::to_string(g.place.y()) + ", " + std::to_string(g.place.z());
    return text;
}

double saidLeft(const OperationPlan& work) {
    double sum = 0;
    for (const Leftover& l : work.leftovers)
        sum += l.volume_mm3;
    return sum;
}

}  // namespace

TEST_CASE("a straight slot sweeps its rectangle and two half discs", "[machined][removal]") {
    HeightField f;
    f.low = {-10, -10};
    f.step_mm = 0.05;
    f.columns = 800;
    f.rows = 400;
    f.height_mm.assign(f.columns * f.rows, 5);
    sweep(f, {{0, 0}, {20, 0}}, 3, {3, 0});
    double removed = 0;
    for (const double h : f.height_mm)
        removed += (5 - h) * 0.05 * 0.05;
    CHECK(removed == Approx(2 * (6 * 20 + 3.14159265 * 9)).epsilon(1e-3));
}

TEST_CASE("a drill leaves its cone", "[machined][removal]") {
    HeightField f;
    f.low = {-5, -5};
    f.step_mm = 0.05;
    f.columns = f.rows = 200;
    f.height_mm.assign(f.columns * f.rows, 0);
    sweep(f, {{0, 0}}, -6, {2, 1.2});
    double removed = 0;
    for (const double h : f.height_mm)
        removed -= h * 0.05 * 0.05;
    // cylinder down to the lips, and the cone under them
    CHECK(removed == Approx(3.14159265 * 4 * (4.8 + 1.2 / 3)).epsilon(2e-3));
}

TEST_CASE("a tool sent through the part is told with its depth and place", "[machined][removal]") {
    Planned p = planned(plateWith(80, 50, 10, {circular("a", {20, 25}, 4)}));
    Operation* pocket = nullptr;
    for (Operation& o : p.work.operations)
        if (o.kind == OperationKind::outline) pocket = &o;
    REQUIRE(pocket);
    pocket->kind = OperationKind::pocket;
    pocket->passes.push_back({{{{40, 25}, {60, 25}}, false}});
    pocket->heights_mm.push_back(7.5);
    const RemovalProof proof = proveRemoval(p.setUps, p.work, {116, 86, 10}, 0, Task{});
    REQUIRE(proof.gouges.size() == 1);
    CHECK(proof.gouges.front().depth_mm == Approx(2.5));
    CHECK(proof.gouges.front().place.x() >= 36);
    CHECK(proof.taken_mm3 > 0.9 * 2.5 * pocket->tool->diameter_mm * 20);
}

TEST_CASE("a plate with a stepped pocket, holes and a window comes out as drawn", "[machined][removal]") {
    const Solid solid = plateWith(
        80, 50, 8, {circular("a", {15, 12}, 2.75), circular("b", {65, 12}, 2.75), circular("c", {40, 25}, 10)},
        {{roundedRectangle({10, 28}, {28, 44}, 4, {"w1", "w2", "w3", "w4"}, "c"), 3, false}});
    const RemovalProof proof = proofOf(solid);
    INFO(told(proof));
    CHECK(proof.gouges.empty());
    CHECK(proof.isFreed);
    CHECK(proof.removed_mm3 == Approx(proof.asked_mm3).epsilon(0.01));
    CHECK(proof.leftover_mm3 < 0.002 * proof.asked_mm3);
}

TEST_CASE("a pocket on either side needs two set-ups, and both are proven together", "[machined][removal]") {
    const Solid solid = plateWith(80, 50, 12, {circular("a", {10, 10}, 2.5)},
                                  {{roundedRectangle({20, 10}, {60, 40}, 5, {"w1", "w2", "w3", "w4"}, "c"), 4, false},
                                   {roundedRectangle({25, 15}, {55, 35}, 5, {"v1", "v2", "v3", "v4"}, "d"), 4, true}});
    const Planned p = planned(solid);
    CHECK(p.access.directions.size() == 2);
    const RemovalProof proof = proofOf(solid);
    INFO(told(proof));
    CHECK(proof.gouges.empty());
    CHECK(proof.removed_mm3 == Approx(proof.asked_mm3).epsilon(0.01));
}

TEST_CASE("what no cutter reaches stays in the simulation too, and is told", "[machined][removal]") {
    // Deeper than any cutter stands out: the outline is cut half from either side, and so is it proven.
    const RouteOutcome block = machine(taskFor(plateWith(60, 40, 60, {})), {}, Fidelity::standard);
    CHECK(warningOf(block, "not_cut_free") == nullptr);
    CHECK(warningOf(block, "deep_outline"));
    const RouteOutcome deeper = machine(taskFor(plateWith(80, 80, 80, {})), {}, Fidelity::standard);
    CHECK_FALSE(deeper.feasible);
    std::string told;
    for (const RouteWarning& w : deeper.warnings)
        told += w.code + " ";
    INFO(told);
    CHECK(warningOf(deeper, "tool_too_short"));
    // With the outline's cutter left out, nothing is freed.
    Planned p = planned(plateWith(60, 40, 5, {}));
    std::erase_if(p.work.operations, [](const Operation& o) {
        return o.kind == OperationKind::outline || o.kind == OperationKind::outline_finish;
    });
    CHECK_FALSE(proveRemoval(p.setUps, p.work, {96, 76, 5}, 0, Task{}).isFreed);
}

TEST_CASE("the core of a window is told to come loose", "[machined][removal]") {
    const Solid frame = plateWith(100, 80, 5, {roundedRectangle({15, 15}, {85, 65}, 5, {"w1", "w2", "w3", "w4"}, "c")});
    CHECK(warningOf(machine(taskFor(frame), {}, Fidelity::standard), "loose_core"));
}

TEST_CASE("twenty random plates: nothing gouged, left only what was said to stay", "[machined][removal]") {
    std::mt19937 random(20261126);
    const auto between = [&](double low, double high) {
        return low + (high - low) * std::uniform_real_distribution<double>(0, 1)(random);
    };
    for (int round = 0; round < 20; ++round) {
        const double length = between(60, 120), width = between(40, 80), height = between(4, 12);
        std::vector<Outline> through;
        std::vector<Sunk> sunk;
        // One feature in each of six fields of the plate, so that none meets another.
        for (int field = 0; field < 6; ++field) {
            const Vec2 low(length * (field % 3) / 3 + 3, width * (field / 3) / 2 + 3);
            const Vec2 high(length * (field % 3 + 1) / 3 - 3, width * (field / 3 + 1) / 2 - 3);
            const Vec2 middle = 0.5 * (low + high);
            const std::string name = "f" + std::to_string(field);
            switch (random() % 4) {
                case 0:
                    through.push_back(circular(name, middle, between(1.5, 5)));
                    break;
                case 1: {
                    const double r = between(1.6, 4);
                    through.push_back(
                        roundedRectangle(low, high, r, {name + "1", name + "2", name + "3", name + "4"}, name + "c"));
                    break;
                }
                case 2: {
                    const double r = between(1.6, 4);
                    sunk.push_back(
                        {roundedRectangle(low, high, r, {name + "1", name + "2", name + "3", name + "4"}, name + "c"),
                         between(1, height - 1.5), false});
                    break;
                }
                default:
                    break;
            }
        }
        const Solid solid = plateWith(length, width, height, through, sunk);
        const Planned p = planned(solid);
        const Vec3 size = boundsOf(p.setUps.front().mesh).size();
        const RemovalProof proof = proveRemoval(p.setUps, p.work, size + Vec3(36, 36, 0), 0, Task{});
        INFO("round " << round << ": " << told(proof) << "; said " << saidLeft(p.work));
        CHECK(proof.gouges.empty());
        CHECK(proof.isFreed);
        CHECK(proof.removed_mm3 == Approx(proof.asked_mm3).epsilon(0.01));
        // Within the outline, so that what falls off around it hides nothing: an undrilled hole would show.
        const double inside = areaOf(p.setUps.front().outline) * height - volumeOf(solid.mesh);
        CHECK(proof.leftover_mm3 <= saidLeft(p.work) + 0.01 * inside + 2);
    }
}
