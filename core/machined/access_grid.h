#pragma once
#include <array>
#include <cstdint>
#include <vector>

#include "core/geometry/solid.h"
#include "core/progress/task.h"
#include "core/structure/structure.h"

namespace waybench::machined {

/// How far the cutters of a rack reach.
struct ToolReach {
    double endMill_mm = 0;        ///< longest stick-out; 0 = any depth
    double drillDiameter_mm = 0;  ///< thickest drill
    double drillDepth_mm = 0;     ///< longest flute
    /// Deepest floor an end mill comes down to below what stands beside it.
    double deepest_mm() const { return endMill_mm - 0.9; }
};

/// Space around a tool the collet needs: half the difference of nut and tool, mm (common practice, no source).
constexpr double kColletClearance_mm = 8;

/// The box around a part in cells, each knowing whether it is material and from which of the six directions a tool
/// works in it: its axis crosses no material, and nothing within the collet's room stands higher than the cutter is
/// long. A cell only too deep everywhere counts as reached from where its axis is free. Round holes a drill fits and
/// the surroundings of the outline, which may be cut from either side, are not held to the length. Cell walls stand at
/// the part's planar faces, so that flat-faced parts are met exactly; curved ones to about half a cell.
struct AccessGrid {
    std::array<std::vector<double>, 3> planes;  ///< ascending, along x, y, z
    std::vector<std::uint8_t> cells;            ///< bit i: reached from Direction(i); kMaterial
    ToolReach reach;

    static constexpr std::uint8_t kMaterial = 0x80;
    std::size_t count(int axis) const { return planes[axis].size() - 1; }
    std::size_t index(std::size_t i, std::size_t j, std::size_t k) const { return (k * count(1) + j) * count(0) + i; }
    Box3 box(std::size_t i, std::size_t j, std::size_t k) const;
    double volume(std::size_t i, std::size_t j, std::size_t k) const;
};

AccessGrid accessGridOf(const Solid& solid, Fidelity fidelity, const Task& task, const ToolReach& reach = {});

/// Empty space no direction reaches, gathered into one connected piece.
struct HiddenSpace {
    double volume_mm3 = 0;
    Vec3 centre = Vec3::Zero();
    Box3 bounds;
};

/// The directions a part is milled from, in the order of the set-ups.
struct AccessPlan {
    std::vector<Direction> directions;  ///< at least one
    std::vector<HiddenSpace> hidden;    ///< what none of the six reaches, largest first
    double hidden_mm3 = 0;              ///< total of these
};

/// Fewest directions that reach all that any of the six can: all 63 subsets by size. Among equals: those
/// no deeper than the cutters reach (from one side, then from two), those with +z, those on the larger flat faces.
/// Pieces smaller than 0.5 mm3, or 1/50000 of the box, are left out of account as noise of the cells.
AccessPlan planAccess(const AccessGrid& grid, const Solid& solid);

}  // namespace waybench::machined
