#pragma once
#include "core/structure/body.h"
#include "core/structure/cell_moments.h"

namespace waybench::statics {

/// Moments of the infill of a printed body in every cell: what lies deeper than the walls (measured in the layer) and
/// the skins (measured along z). Built from sections like the print itself: in each slab of heights the middle section
/// is shrunk by the wall thickness and cut down to what stays covered over the skin thickness above and below.
/// Precondition: build direction +z. @throws std::logic_error otherwise
CellMoments infillMoments(const Mesh& mesh, const ShellAndInfill& inside, const Grid& grid, const Task& task);

/// Planes where walls and skins end behind the body's axis-parallel faces; the grid should have lines there.
std::vector<SnapPlane> innerPlanes(const std::vector<SnapPlane>& outer, const ShellAndInfill& inside);

}  // namespace waybench::statics
