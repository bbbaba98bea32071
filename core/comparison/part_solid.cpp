#include "core/comparison/part_solid.h"

namespace waybench {

Solid solidOf(const Part& part, RouteKind route, const std::filesystem::path& folder) {
    const DimensionValues& own = route == RouteKind::printed ? part.printedDimensions : part.machinedDimensions;
    return refinedFor(part.loadCase, buildSolid(withDimensions(part.shape, own), folder));
}

}  // namespace waybench
