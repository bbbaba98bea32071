#pragma once
#include "core/structure/multigrid.h"
#include "core/structure/problem.h"

namespace waybench::statics {

/// Mass of every node, g: the body's, shared out by the shape functions over the material part of each cell (row sums of
/// the consistent mass matrix), and the attached masses', spread over their faces.
std::vector<double> nodalMass_g(const Problem& problem, const Lattice& lattice, const MaterialField& field,
                                const Task& task);

/// First natural frequency of the held body, Hz, by inverse iteration with the multigrid as preconditioner.
/// Source: K. J. Bathe, Finite Element Procedures, inverse iteration with Rayleigh quotient (from memory).
/// @param start a guess of the mode, such as the static displacement
/// @throws InputFault "solver_stalled"; Cancelled
double firstFrequency_Hz(const Lattice& lattice, Multigrid& multigrid, const std::vector<double>& mass_g,
                         std::vector<double> start, const Task& task);

}  // namespace waybench::statics
