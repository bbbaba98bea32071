// Prints what planning the machined route costs: access, set-ups, operations with their paths and times, holding, and
// the proof by simulation; for every part of the demo rig, then against the size of the part and the grid of the proof.
//   waybench_machining_measurements

#include <chrono>
#include <cstdio>
#include <string>

#include "core/comparison/part_solid.h"
#include "core/geometry/surface_builder.h"
#include "core/machined/machining_evaluation.h"
#include "core/project/project.h"

namespace {

using namespace waybench;
using namespace waybench::machined;
using Clock = std::chrono::steady_clock;

double since(Clock::time_point t) {
    return std::chrono::duration<double>(Clock::now() - t).count();
}

double pathLength(const OperationPlan& work) {
    double mm = 0;
    for (const Operation& o : work.operations)
        mm += o.cut_mm;
    return mm;
}

/// Plans once; prints the whole and the proof's share of it.
double measured(const std::string& name, const Shop& shop, const Plan& plan, Solid solid) {
    RouteTask task;
    task.partName = name;
    task.solid = std::make_shared<const Solid>(std::move(solid));
    MachiningEvaluation e(task, shop, plan, shop.tariffs.front().key);
    auto start = Clock::now();
    planWork(e, Fidelity::standard, Task{});
    const double whole = since(start);
    start = Clock::now();
    const RemovalProof proof = proveRemoval(e.setUps, e.work, e.stock.size_mm, 0, Task{});
    const double proving = since(start);
    std::printf("%-18s %7zu %3zu %4zu %9.0f %8.3f %8.3f %8.3f %9.4f %8.3f\n", name.c_str(),
                task.solid->mesh.triangles.size(), e.setUps.size(), e.work.operations.size(), pathLength(e.work), whole,
                proving, proof.grid_mm, proof.removed_mm3 / proof.asked_mm3,
                proof.gouges.empty() ? 0 : proof.gouges.front().depth_mm);
    std::fflush(stdout);
    return whole;
}

/// A plate of a 20 mm pattern: a bore and a blind pocket in every field.
Solid patternPlate(int columns, int rows) {
    SurfaceBuilder builder;
    const Frame bottom{};
    const double height = 10, length = 20.0 * columns, width = 20.0 * rows;
    SurfaceBuilder::Holes above, below;
    for (int j = 0; j < rows; ++j)
        for (int i = 0; i < columns; ++i) {
            const std::string n = std::to_string(j * columns + i);
            const Outline bore = circular("b" + n, {20.0 * i + 5, 20.0 * j + 5}, 2.1);
            builder.walls(bore, bottom, height, true);
            below.push_back(bottom.at(bore.points));
            above.push_back(bottom.at(bore.points, height));
            const Outline pocket = roundedRectangle({20.0 * i + 9, 20.0 * j + 9}, {20.0 * i + 19, 20.0 * j + 19}, 2.5,
                                                    {"p" + n, "q" + n, "r" + n, "s" + n}, "c" + n);
            builder.walls(pocket, bottom.raised(4), height - 4, true);
            builder.flat("floor" + n, Vec3::UnitZ(), bottom.at(pocket.points, 4));
            above.push_back(bottom.at(pocket.points, height));
        }
    const Outline outside =
        polygonal({{0, 0}, {length, 0}, {length, width}, {0, width}}, {"side -y", "side +x", "side +y", "side -x"});
    builder.walls(outside, bottom, height, false);
    builder.flat("top", Vec3::UnitZ(), bottom.at(outside.points, height), above);
    builder.flat("bottom", -Vec3::UnitZ(), bottom.at(outside.points), below);
    return builder.finished();
}

}  // namespace

int main() {
    const Shop shop = readShop(WAYBENCH_SOURCE "/resources");
    std::printf("%-18s %7s %3s %4s %9s %8s %8s %8s %9s %8s\n", "part", "facets", "set", "ops", "way mm", "all s",
                "proof s", "grid mm", "removed", "gouge");
    const std::filesystem::path rig = WAYBENCH_SOURCE "/demo/hinge_endurance_rig.waybench";
    const Project project = readProject(rig);
    double slowest = 0;
    for (const Part& part : project.parts)
        slowest = std::max(slowest,
                           measured(part.name, shop, part.plan, solidOf(part, RouteKind::machined, rig.parent_path())));
    std::printf("slowest of the demo rig: %.2f s\n", slowest);
    double before = 0;
    std::size_t fields = 0;
    for (const auto& [columns, rows] : {std::pair{2, 2}, {4, 2}, {4, 4}, {8, 4}}) {
        const double s =
            measured(std::to_string(columns * rows) + " fields", shop, Plan{}, patternPlate(columns, rows));
        if (before > 0)
            std::printf("  %.1f times the fields: %.2f times the time\n", double(columns * rows) / double(fields),
                        s / before);
        before = s;
        fields = std::size_t(columns * rows);
    }
    RouteTask task;
    task.solid = std::make_shared<const Solid>(patternPlate(4, 4));
    const Plan plan;
    MachiningEvaluation e(task, shop, plan, shop.tariffs.front().key);
    planWork(e, Fidelity::draft, Task{});
    for (const double grid : {0.4, 0.2, 0.1}) {
        const auto start = Clock::now();
        const RemovalProof proof = proveRemoval(e.setUps, e.work, e.stock.size_mm, grid, Task{});
        std::printf("proof on %.2f mm: %.3f s, removed over asked %.5f\n", grid, since(start),
                    proof.removed_mm3 / proof.asked_mm3);
    }
}
