#pragma once
#include "core/structure/multigrid.h"

namespace waybench::statics {

struct Solved {
    int iterations = 0;
    double residual = 0;  ///< relative to the load, energy-neutral 2-norm
};

/// Solves stiffness * u = load by conjugate gradients in double, preconditioned by the multigrid; u is the start.
/// @throws InputFault "solver_stalled" when the residual does not fall to the tolerance
Solved solve(const Lattice& lattice, Multigrid& multigrid, const std::vector<double>& load, std::vector<double>& u,
             double tolerance, const Task& task);

}  // namespace waybench::statics
