#pragma once
#include <optional>
#include <string>
#include <vector>

#include "core/structure/problem.h"
#include "core/structure/structure.h"

namespace waybench::statics {

/// The grids to solve on and why they are as they are.
struct Plan {
    bool hasCoarsest = false;
    Grid coarsest;  ///< the grid whose lines were laid, where there are three
    Grid coarse;
    /// Of the grid whose lines were laid; empty where it was too large to count its cells.
    std::optional<MaterialInCells> material;
    bool hasFine = false;
    Grid fine;                     ///< coarse with every cell halved, as coarse is coarsest halved
    double spacing_mm = 0;         ///< of the finest grid
    bool budgetBinds = false;      ///< coarser than the rule asks
    bool shellUnresolved = false;  ///< cells of the coarser grid are wider than 1.4 times a shell askew to it
    bool mostlyOblique = false;    ///< most of the surface is curved or lies askew to the grid
};

/// Resolution rule of the design note, section 9, with lines snapped to the body's planes and to the inner faces of
/// walls and skins. heldOrLoadedBores: radii of bores that carry holds or loads.
Plan planGrids(const Problem& problem, const std::vector<double>& heldOrLoadedBores, const Resolution& resolution,
               const Task& task);

}  // namespace waybench::statics
