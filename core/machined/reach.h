#pragma once
#include <vector>

#include "core/geometry/polygon.h"
#include "core/machined/access_grid.h"

namespace waybench::machined {

/// A layer of the part between two heights as seen from one direction; heights and regions in that set-up's frame,
/// where the tool points down.
struct Slab {
    double bottom_mm = 0, top_mm = 0;
    Region section;    ///< material in the slab
    Region shadow;     ///< material in it or above it: what the tool must not touch
    Region removable;  ///< inside the part's outline, to be removed in this set-up
    bool isPrismatic = true;
};

/// A hollow cylinder along the tool axis.
struct Hole {
    Vec2 centre = Vec2::Zero();
    double diameter_mm = 0, top_mm = 0, bottom_mm = 0;
    bool isThrough = false;  ///< reaches the underside of the part
};

/// One clamping of the part.
struct SetUp {
    Direction direction = Direction::plus_z;
    Mesh mesh;  ///< turned so that the tool comes from +z
    double low_mm = 0, high_mm = 0;
    std::vector<Slab> slabs;  ///< bottom to top
    Region outline;           ///< outer outline of the part's shadow, holes filled
    std::vector<Hole> holes;  ///< opened in this set-up
    double removed_mm3 = 0;   ///< of `removable`, all slabs
};

/// What is removed in each set-up of a plan. The first one takes all it reaches within the cutters' length; a
/// later one only the cells the earlier ones did not reach, met exactly by cutting the exact removable region with
/// those cells grown by one.
std::vector<SetUp> setUpsFor(const Solid& solid, const AccessGrid& grid, const AccessPlan& plan, Fidelity fidelity,
                             const Task& task);

}  // namespace waybench::machined
