#pragma once
#include <span>
#include <vector>

#include "core/geometry/mesh.h"
#include "core/geometry/polygon.h"

namespace waybench {

/// Sections of a closed surface by planes z = heights[i], each a Region in x, y with material on the left.
/// A height that coincides with a facet is read just above (height + 1e-7 mm). Linear in triangles plus cut edges.
/// Precondition: mesh closed; heights ascending. Open chains that numerical noise leaves are closed when their gap is
/// below 1e-4 mm and otherwise dropped, which a closed mesh never needs.
std::vector<Region> sectionsAt(const Mesh& mesh, std::span<const double> heights_mm);

/// Region covered by facets whose normal has n.z < -cos(limit) etc. is the printed route's business; this gives the
/// shadow of the whole body on the plane z = 0.
Region shadowOf(const Mesh& mesh);

}  // namespace waybench
