#pragma once
#include <filesystem>
#include <list>
#include <memory>
#include <mutex>

#include "core/comparison/part.h"
#include "core/route/outcome.h"

namespace waybench {

/// The shape one route makes: the part's shape with that route's own dimensions, its facets cut where a box of a load
/// case ends on a face, and round the heads of bolts. @param folder of the project, for drawings and meshes. @throws
/// InputFault
Solid solidOf(const Part& part, RouteKind route, const std::filesystem::path& folder);

/// Builds every shape once and lends it out: routes of equal dimensions, draft and final answer get the same solid.
/// Keeps the last few. May be asked from several threads. Files are read when first asked for, so a store should live
/// no longer than one answer.
class SolidStore {
public:
    explicit SolidStore(std::filesystem::path folder) : folder_(std::move(folder)) {}
    /// solidOf of the part and route. @throws InputFault
    std::shared_ptr<const Solid> solid(const Part& part, RouteKind route);

private:
    struct Kept {
        Shape shape;
        std::vector<LoadCase> loadCases;
        std::shared_ptr<const Solid> solid;
    };
    std::filesystem::path folder_;
    std::mutex mutex_;
    std::list<Kept> kept_;  // latest first
};

}  // namespace waybench
