#pragma once
#include "core/machined/operation.h"

namespace waybench::machined {

/// A region to be cleared from a height down to a floor.
struct Pocket {
    Region region;
    Region shadow;  ///< what must stay, at the floor
    double top_mm = 0, bottom_mm = 0;
    double wallTop_mm = 0;  ///< highest material beside it, which the collet must clear
    bool isPrismatic = true;
    bool isThrough = false;
};

/// Where the centre of a tool may go to clear a region beside what must stay: the region itself less all within the
/// tool radius of the material; grown over open sides where that leaves less standing.
Region toolCentres(const Region& region, const Region& shadow, double radius_mm);
/// What a round tool leaves of the region: corners and narrow places. Never less for a larger tool.
Region leftByTool(const Region& region, const Region& shadow, double diameter_mm);

/// Pockets of a set-up, from the top down; islands equal over several slabs are one pocket. Holes made by their own
/// operation are taken out.
std::vector<Pocket> pocketsOf(const SetUp& setUp, const std::vector<Hole>& madeHoles);

/// Clears pockets: the tool that is quickest including what it leaves to a smaller one, rings inside, a finishing pass
/// along the walls, a smaller tool for the rest; 3-D slabs by fine levels after roughing.
void planPockets(const Workshop& shop, const SetUp& setUp, int number, const std::vector<Pocket>& pockets,
                 OperationPlan& plan, const Task& task);

/// One pocket, of which `wholeVolume_mm3` is the volume shares of leftovers refer to.
void planPocket(const Workshop& shop, const SetUp& setUp, int number, const Pocket& pocket, double wholeVolume_mm3,
                OperationPlan& plan);

}  // namespace waybench::machined
