#pragma once
#include <memory>
#include <vector>

#include "core/structure/bottom_solver.h"
#include "core/structure/lattice.h"
#include "core/structure/parted_elements.h"

namespace waybench::statics {

/// Multigrid V-cycle in single precision, a symmetric positive preconditioner for the lattice's stiffness.
///
/// Coarse grids keep a subset of the grid lines; their operators are Galerkin products element by element. Where the
/// fine cells inside a coarse cell fall into unconnected pieces (slots), each piece gets a coarse element and nodes of
/// its own. Smoother: Chebyshev polynomial of degree 2 on 3 x 3 block Jacobi. Bottom: direct.
class Multigrid {
public:
    Multigrid(const Lattice& lattice, const Task& task);
    ~Multigrid();
    /// z := V-cycle applied to r.
    void apply(const std::vector<double>& r, std::vector<double>& z);
    /// The lattice's elements, sorted for several threads; their matrices are the lattice's.
    const PartedElements& elements() const;
    int levels() const { return int(levels_.size()); }

private:
    struct Level;
    void cycle(std::size_t level);
    std::vector<std::unique_ptr<Level>> levels_;
    std::unique_ptr<BottomSolver> bottom_;
};

}  // namespace waybench::statics
