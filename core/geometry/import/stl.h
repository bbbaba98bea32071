#pragma once
#include <istream>
#include <string>

#include "core/geometry/import/healing.h"

namespace waybench {

/// Closed surface from an STL file, binary or ASCII (told apart by size and content, not by the first word alone).
/// Vertices are merged at 1e-5 of the size; inverted meshes are turned outwards; small faults are mended and told (see
/// healed; cracks up to 0.02 mm or 1e-4 of the size).
/// @param unit_mm mm per file unit, 0 = 1 (STL carries no unit)
/// Several solids in one ASCII file are one surface. Facet normals in the file are not used. Facets that cut through
/// each other are not looked for.
/// @throws InputFault "file_not_stl", "file_truncated", "file_too_large", "number_unreadable" (facet or line),
///         "surface_leaks" (with the place), "surface_empty", "size_absurd"
Healed readStl(std::istream& in, const std::string& fileName, double unit_mm = 0);
/// Overall size of all facets, in units of the file; whether they close is not looked at.
/// @throws InputFault as readStl about the text of the file, "surface_empty"
Vec3 sizeOfStl(std::istream& in, const std::string& fileName);
/// Binary STL, little endian, single precision; degenerate facets get a zero normal.
void writeStl(std::ostream& out, const Mesh& mesh);

}  // namespace waybench
