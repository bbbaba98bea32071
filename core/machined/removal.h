#pragma once
#include <string>
#include <vector>

#include "core/machined/operation.h"

namespace waybench::machined {

/// Heights over an even grid of places, seen along one tool direction; in the set-up's frame.
struct HeightField {
    Vec2 low = Vec2::Zero();
    double step_mm = 0;
    std::size_t columns = 0, rows = 0;
    std::vector<double> height_mm;  ///< row by row; of the middle of each cell

    Vec2 at(std::size_t i, std::size_t j) const {
        return low + step_mm * Vec2(static_cast<double>(i) + 0.5, static_cast<double>(j) + 0.5);
    }
    double& of(std::size_t i, std::size_t j) { return height_mm[j * columns + i]; }
    double of(std::size_t i, std::size_t j) const { return height_mm[j * columns + i]; }
};

/// Shape of a tool's end: how high above its lowest point it cuts at a distance from its axis; flat, or a drill's
/// point.
struct ToolEnd {
    double radius_mm = 0;
    double point_mm = 0;  ///< length of a conical point
    double above(double distance_mm) const { return radius_mm > 0 ? point_mm * distance_mm / radius_mm : 0; }
};

/// Lowers every height the tool's end sweeps on its way along a polyline with its lowest point at z.
void sweep(HeightField& field, const std::vector<Vec2>& way, double z_mm, const ToolEnd& end);

/// Where a tool went into the part.
struct Gouge {
    double depth_mm = 0;        ///< below the part's surface as seen along the tool
    Vec3 place = Vec3::Zero();  ///< part coordinates
    std::string by;             ///< operation and tool
};

/// What the planned paths leave of the blank, found by sweeping them through it, set-up by set-up, against the part:
/// each set-up is a height field, the body that remains lies below all of them.
///
/// A gouge is told where a place of the part lies more than 0.02 mm inside the swept space, sideways and in depth;
/// places are the middles of the grid's cells, so that a gouge narrower than a cell may be missed. Tabs are not left
/// standing here; broken edges are not swept. Once the outline is cut through, what lies outside it falls off, and so
/// does the core of a window that is cut round.
struct RemovalProof {
    double grid_mm = 0;
    double removed_mm3 = 0;               ///< of the blank, what falls off included
    double asked_mm3 = 0;                 ///< blank less part
    int looseCores = 0;                   ///< pieces within windows that fall out
    double leftover_mm3 = 0;              ///< stands within the outline and is not part
    double taken_mm3 = 0;                 ///< part that is gone, on the grid
    Vec3 largestLeftover = Vec3::Zero();  ///< part coordinates; where most of it stands
    bool isFreed = false;                 ///< the outline is cut through all around
    std::vector<Gouge> gouges;            ///< deepest of each operation, deepest first
};

/// @param blank_mm size of the blank in the first set-up's frame, around the middle of the part, its underside level
///        with the part's
/// @param grid_mm 0: by the size of the part, about 300 000 cells
RemovalProof proveRemoval(const std::vector<SetUp>& setUps, const OperationPlan& work, const Vec3& blank_mm,
                          double grid_mm, const Task& task);

}  // namespace waybench::machined
