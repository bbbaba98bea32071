#pragma once
#include <array>
#include <cstdint>
#include <span>
#include <vector>

#include "core/geometry/mesh.h"
#include "core/geometry/polygon.h"
#include "core/progress/task.h"

namespace waybench {

/// Sections of a closed surface by planes z = heights[i], each a Region in x, y with material on the left.
/// A height that coincides with a facet is read just above (height + 1e-7 mm). Linear in triangles plus cut edges.
/// Precondition: mesh closed; heights ascending. Open chains that numerical noise leaves are closed when their gap is
/// below 1e-4 mm and otherwise dropped, which a closed mesh never needs.
std::vector<Region> sectionsAt(const Mesh& mesh, std::span<const double> heights_mm);

/// The same for a mesh that is cut more than once: what the facets share is found when it is made. Keeps a reference.
class MeshSections {
public:
    explicit MeshSections(const Mesh& mesh, const Task& task = Task());
    std::vector<Region> at(std::span<const double> heights_mm, const Task& task = Task()) const;

private:
    const Mesh& mesh_;
    std::vector<std::array<std::uint32_t, 3>> triangles_;  ///< by corner place rather than index
    std::vector<std::uint32_t> twin_;                      ///< of edge 3 * triangle + k, from corner k to k + 1
};

/// Region covered by facets whose normal has n.z < -cos(limit) etc. is the printed route's business; this gives the
/// shadow of the whole body on the plane z = 0.
Region shadowOf(const Mesh& mesh);

}  // namespace waybench
