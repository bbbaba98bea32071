#include "core/structure/resolution.h"

#include <algorithm>
#include <cmath>

#include "core/structure/body_regions.h"

namespace waybench::statics {

namespace {

constexpr double kCellsAlong = 100;       // finest cells along the longest side
constexpr double kStandardCells = 90000;  // active cells that keep the wait at a few seconds
constexpr double kDraftCells = 4500;
constexpr double kCellsPerBore = 5, kMostCellsAlong = 160;
constexpr double kCellsPerObliqueWall = 5;
constexpr double kMostCountedCells = 3e6;  // beyond that the share of the box that is filled will do
constexpr double kShellCell = 1.2;         // cell over shell thickness
constexpr double kFollowing = 0.2;         // share of curved and askew surface below which walls follow the grid
constexpr double kBudgetSlack = 1.06;      // counting again would cost more

/// Spacing of even cells that would hold so many: those inside, and half of those that surface askew to the grid cuts.
double spacingFor(double cells, double volume_mm3, double obliqueArea_mm2) {
    const double cutPerArea = 0.75;  // an even mix of directions cuts 1.5 cells per cell face
    double low = 0, high = std::cbrt(volume_mm3) + std::sqrt(obliqueArea_mm2);
    for (int i = 0; i < 60; ++i) {
        const double h = 0.5 * (low + high);
        const double count = volume_mm3 / (h * h * h) + cutPerArea * obliqueArea_mm2 / (h * h);
        (count > cells ? low : high) = h;
    }
    return high;
}

}  // namespace

Plan planGrids(const Problem& problem, const std::vector<double>& heldOrLoadedBores, const Resolution& resolution,
               const Task& task) {
    const Box3 box = boundsOf(problem.mesh);
    const double longest = box.size().maxCoeff(), volume = std::abs(volumeOf(problem.mesh));
    const double filled = std::min(1.0, volume / box.size().prod());
    const double area = areaOf(problem.mesh);
    std::vector<SnapPlane> planes = axisParallelPlanes(problem.mesh);
    double planeArea = 0;
    for (const SnapPlane& p : planes)
        planeArea += p.area_mm2;
    // Planes of little area are facets of curved faces that happen to lie square.
    std::erase_if(planes, [&](const SnapPlane& p) { return p.area_mm2 < 2e-4 * area; });
    double shell = 0;
    if (problem.inside) {
        const std::vector<SnapPlane> inner = innerPlanes(planes, *problem.inside);
        planes.insert(planes.end(), inner.begin(), inner.end());
        shell = 1e300;
        for (double t : {problem.inside->wallThickness_mm, problem.inside->skinAbove_mm, problem.inside->skinBelow_mm})
            if (t > 0) shell = std::min(shell, t);
        if (shell > 1e299) shell = 0;
    }

    Plan plan;
    const bool draft = resolution.fidelity != Fidelity::standard;
    double asked = longest / kCellsAlong;
    const double floor = longest / kMostCellsAlong;
    for (double radius : heldOrLoadedBores)
        asked = std::min(asked, std::max(floor, 2 * radius / kCellsPerBore));
    plan.mostlyOblique = planeArea < 0.5 * area;
    if (plan.mostlyOblique) asked = std::min(asked, std::max(floor, 2 * volume / area / kCellsPerObliqueWall));
    if (shell > 0) asked = std::min(asked, std::max(floor, kShellCell * shell));
    if (resolution.spacing_mm > 0) asked = resolution.spacing_mm;

    const double budget = std::min(double(resolution.cellBudget), resolution.spacing_mm > 0 ? 1e300
                                                                  : draft                   ? kDraftCells
                                                                                            : kStandardCells);
    // The coarsest grid is the one whose lines are laid; the finest is it, or it halved once or twice. Three grids show
    // how the answer converges; in a print the lines of walls and skins leave no room for the third.
    plan.hasFine = !draft;
    plan.hasCoarsest = !draft && !problem.inside;
    const double halvings = draft ? 1 : plan.hasCoarsest ? 4 : 2;
    const double perCoarseCell = draft ? 1 : halvings * halvings * halvings;
    double spacing = draft ? (resolution.spacing_mm > 0 ? asked : 2 * asked) : halvings * asked;
    const double wanted = spacing;
    // Counting cells costs a good part of what solving does: begin at what should fit.
    const double expected = spacingFor(budget / perCoarseCell, volume, std::max(0.0, area - planeArea));
    spacing = std::min(longest, std::max(spacing, expected));
    for (int attempt = 0; attempt < 40; ++attempt) {
        plan.coarse = snappedGrid(box, planes, spacing);
        plan.material.reset();
        if (double(plan.coarse.cellCount()) <= kMostCountedCells)
            plan.material = materialInCells(problem.mesh, plan.coarse, task);
        const double cells =
            plan.material ? double(plan.material->activeCells()) : double(plan.coarse.cellCount()) * filled;
        if (perCoarseCell * cells <= kBudgetSlack * budget || spacing >= longest) break;
        spacing = std::min(longest, spacing * std::clamp(std::cbrt(perCoarseCell * cells / budget), 1.06, 2.0));
    }
    if (plan.hasCoarsest) {
        plan.coarsest = std::move(plan.coarse);
        plan.coarse = bisected(plan.coarsest);
    }
    if (plan.hasFine) plan.fine = bisected(plan.coarse);
    plan.spacing_mm = spacing / halvings;
    plan.budgetBinds = spacing > 1.05 * wanted;
    // Where walls follow the grid, its lines lie on their inner faces and a cell fits them however thin they are.
    const bool follows = area - planeArea < kFollowing * area;
    plan.shellUnresolved = shell > 0 && !follows && plan.spacing_mm * (draft ? 1 : 2) > 1.4 * shell;
    return plan;
}

}  // namespace waybench::statics
