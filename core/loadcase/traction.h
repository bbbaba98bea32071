#pragma once
#include <string>

#include "core/loadcase/load_case.h"

namespace waybench {

/// The law by which a load acts on these facets (see TractionLaw for each kind).
/// @param place names the load in faults
/// @throws InputFault "bearing_not_on_bore", "bearing_along_axis", "bearing_pushes_on_nothing", "face_without_area"
TractionLaw tractionLaw(const Solid& solid, const Load& load, const std::vector<std::uint32_t>& triangles,
                        const std::string& place);

}  // namespace waybench
