#pragma once
#include <filesystem>

#include "core/comparison/part.h"
#include "core/route/outcome.h"

namespace waybench {

/// The shape one route makes: the part's shape with that route's own dimensions, its facets cut where a box of the load
/// case ends on a face. @param folder of the project, for drawings and meshes. @throws InputFault
Solid solidOf(const Part& part, RouteKind route, const std::filesystem::path& folder);

}  // namespace waybench
