#pragma once
#include <Eigen/Core>
#include <vector>

#include "core/progress/task.h"
#include "core/structure/element_product.h"
#include "core/structure/grid.h"

namespace waybench::statics {

/// Direct solution of the coarsest level: block-tridiagonal Cholesky over the node planes along the axis that makes
/// the planes smallest. Elements join only neighbouring planes, so this is exact.
class BottomSolver {
public:
    /// Work of a factorisation, multiplications, for choosing the bottom level.
    static double workFor(const std::vector<Index3>& nodeAt);

    BottomSolver(const std::vector<Index3>& nodeAt, const std::vector<ElementLink>& elements,
                 const std::vector<double>& matrices, const Task& task);
    void solve(const float* right, float* solution) const;

private:
    std::vector<std::vector<std::int32_t>> plane_;      // nodes of each plane
    std::vector<Eigen::MatrixXf> diagonal_, coupling_;  // Cholesky factors and coupling to the plane before
};

}  // namespace waybench::statics
