#pragma once
#include <string>
#include <string_view>
#include <vector>

#include "core/geometry/vector.h"

namespace waybench::stl {

/// Corners of all facets of an ASCII STL text, three per facet, in file units.
/// @throws InputFault "file_not_stl", "file_truncated", "number_unreadable" with the line
std::vector<Vec3> cornersOfText(std::string_view text);

/// Corners of all facets of a binary STL. Precondition: content holds the 84 bytes of head and count.
/// @throws InputFault "file_truncated", "number_unreadable" with the facet
std::vector<Vec3> cornersOfBinary(std::string_view content);

}  // namespace waybench::stl
