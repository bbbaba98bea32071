#pragma once
#include "core/structure/multigrid.h"

namespace waybench::statics {

struct Solved {
    int iterations = 0;
    double error = 0;  ///< in the energy norm, relative to the solution, estimated
};

/// Solves stiffness * u = load by conjugate gradients in double, preconditioned by the multigrid; u is the start.
///
/// Stops where the error in the energy norm is below `tolerance` times the solution's: the energy of the error falls by
/// alpha r.z in each step, so the sum over the latest steps estimates it from below (Z. Strakos and P. Tichy, "On error
/// estimation in the conjugate gradient method and why it works in finite precision computations", ETNA 13 (2002),
/// eq. 3.5; from memory). The number of steps grows with the iterations, as slow convergence makes the estimate low.
/// @throws InputFault "solver_stalled" when it does not come there
Solved solve(const Lattice& lattice, Multigrid& multigrid, const std::vector<double>& load, std::vector<double>& u,
             double tolerance, const Task& task);

}  // namespace waybench::statics
