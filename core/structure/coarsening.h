#pragma once
#include "core/structure/lattice.h"

namespace waybench::statics {

/// What one multigrid level knows of its discretisation.
struct LevelMesh {
    std::array<std::vector<double>, 3> lines;
    std::vector<Index3> nodeAt;
    std::vector<ElementLink> elements;
    std::vector<Index3> cellOf;    ///< per element, lowest lines
    std::vector<double> matrices;  ///< 576 each
    std::vector<char> isShared;    ///< per matrix
};

/// Rows of the interpolation from coarse to fine nodes (same weights for the three directions).
struct Interpolation {
    std::vector<std::int32_t> start;  ///< per fine node, size + 1
    std::vector<std::int32_t> coarse;
    std::vector<float> weight;
};

LevelMesh finestLevel(const Lattice& lattice);
/// Next coarser level, or false when it would not become markedly smaller.
bool coarsen(const LevelMesh& fine, LevelMesh& coarse, Interpolation& interpolation, const Task& task);

}  // namespace waybench::statics
