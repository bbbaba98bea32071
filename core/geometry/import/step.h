#pragma once
#include <filesystem>
#include <string>

#include "core/geometry/solid.h"

namespace waybench {

/// The one solid of a STEP file (ISO 10303-21, shapes of AP203, AP214 and AP242), read by Open CASCADE: its faces stay
/// faces with kind, axis, radius and area, named by size like those of a mesh ("face 1" is the largest). Halves of one
/// cylinder that meet become one face. The file states its unit; the surface comes in mm, as flat facets no further
/// than 0.01 mm or a 4000th of the size from the true one, and no more than 8.6 degrees apart.
/// The library works in a program of its own (step_reader.cpp), for a spoilt file can crash it. Calls wait for each
/// other. The last few files are kept: asking for an unchanged file again costs nothing.
/// @param shownName the name for messages
/// @throws InputFault "file_not_step", "no_solid", "several_bodies", "surface_leaks" (with the place),
///         "size_absurd", "file_too_large" (two minutes), "step_reader_missing"
Solid readStep(const std::filesystem::path& path, const std::string& shownName);

/// Whether a file name ends like a STEP file (.step, .stp).
bool isStepName(const std::filesystem::path& path);

}  // namespace waybench
