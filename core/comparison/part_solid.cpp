#include "core/comparison/part_solid.h"

namespace waybench {

namespace {

constexpr std::size_t kMostKept = 4;

Shape shapeFor(const Part& part, RouteKind route) {
    return withDimensions(part.shape, route == RouteKind::printed ? part.printedDimensions : part.machinedDimensions);
}

}  // namespace

Solid solidOf(const Part& part, RouteKind route, const std::filesystem::path& folder) {
    Solid solid = buildSolid(shapeFor(part, route), folder);
    for (const LoadCase& loadCase : part.loadCases())
        solid = refinedFor(loadCase, solid);
    return solid;
}

std::shared_ptr<const Solid> SolidStore::solid(const Part& part, RouteKind route) {
    Shape shape = shapeFor(part, route);
    std::vector<LoadCase> loadCases = part.loadCases();
    // Held while building, so that the second route waits for the first one's solid instead of making it again.
    const std::lock_guard lock(mutex_);
    for (const Kept& k : kept_)
        if (k.shape == shape && k.loadCases == loadCases) return k.solid;
    auto solid = std::make_shared<const Solid>(solidOf(part, route, folder_));
    kept_.push_front({std::move(shape), std::move(loadCases), solid});
    if (kept_.size() > kMostKept) kept_.pop_back();
    return solid;
}

}  // namespace waybench
