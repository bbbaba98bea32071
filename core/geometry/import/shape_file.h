#pragma once
#include <filesystem>
#include <fstream>
#include <string_view>

#include "core/geometry/vector.h"

namespace waybench {

/// A drawing or body file opened for reading.
/// @param asGiven how the user named it, for messages
/// @throws InputFault "file_missing" when it is not there, no file or unreadable
std::ifstream opened(const std::filesystem::path& path, const std::filesystem::path& asGiven);

/// Note of a solid whose file leaves its unit open while nobody chose one. Stands behind the file's name.
inline constexpr std::string_view kUnitAssumed = "the file does not state its unit, millimetres were taken";

/// What a drawing or body file says of its size before its unit is known.
struct FileMeasure {
    bool statesUnit = true;    ///< DXF: $INSUNITS of the header is a length; STEP: always; STL: never
    Vec3 size = Vec3::Zero();  ///< overall, in units of the file; drawings: no thickness; not measured where stated
};

/// Reads only as far as the question needs: no healing, no closing of gaps.
/// @throws InputFault "file_missing" and those of the readers about text, numbers and length of the file
FileMeasure measured(const std::filesystem::path& path, const std::filesystem::path& asGiven);

}  // namespace waybench
