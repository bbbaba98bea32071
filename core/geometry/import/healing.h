#pragma once
#include <string>
#include <vector>

#include "core/geometry/mesh.h"

namespace waybench {

/// What was mended, one line per kind: "2 facets stood twice and were dropped". Empty: the mesh was sound.
struct Healed {
    Mesh mesh;
    std::vector<std::string> notes;
};

/// Mends small faults of a mesh whose equal corners share a vertex: facets that stand twice, or twice back to back;
/// facets that disagree with their neighbours on what is outside; cracks no wider than crack_mm; corners that lie on
/// another facet's edge. A sound mesh comes back as it was. What is left open is for findLeak to tell.
Healed healed(const Mesh& mesh, double crack_mm);

}  // namespace waybench
