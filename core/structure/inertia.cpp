#include "core/structure/inertia.h"

#include <cmath>
#include <numbers>

#include "core/structure/conjugate_gradient.h"
#include "core/structure/element_product.h"
#include "core/structure/surface_points.h"

namespace waybench::statics {

namespace {

constexpr int kMostIterations = 10;
constexpr double kSettled = 1e-3;   // relative change of the eigenvalue
constexpr double kSolution = 1e-3;  // error of each inner solution: the quotient is twice as exact
constexpr double kPerGram = 1e6;    // (N/mm)/g = 1e6 rad2/s2

/// Integral of each trilinear shape function over the material, as a share of the whole cell's volume.
std::array<double, 8> shapeIntegrals(const Moments& m) {
    std::array<double, 8> n{};
    for (std::size_t a = 0; a < 8; ++a) {
        const double sx = (a & 1) != 0 ? 1 : -1, sy = (a >> 1 & 1) != 0 ? 1 : -1, sz = (a >> 2 & 1) != 0 ? 1 : -1;
        const auto& v = m.value;  // index i + 3 j + 9 k
        n[a] = (v[0] + sx * v[1] + sy * v[3] + sz * v[9] + sx * sy * v[4] + sy * sz * v[12] + sx * sz * v[10] +
                sx * sy * sz * v[13]) /
               64;
    }
    return n;
}

}  // namespace

std::vector<double> nodalMass_g(const Problem& problem, const Lattice& lattice, const MaterialField& field,
                                const Task& task) {
    std::vector<double> mass(lattice.nodeAt.size(), 0.0);
    for (std::size_t e = 0; e < lattice.elements.size(); ++e) {
        if (e % 4096 == 0) task.check();
        const CellRegions regions = regionsOf(field, lattice.cellOf[e], lattice.pieceOf[e]);
        const double volume = lattice.grid.sizeOf(lattice.cellAt(e)).prod();
        for (std::size_t r = 0; r < regions.count; ++r) {
            const double density =
                regions.isInfill[r] ? problem.inside->infillDensity_g_per_mm3 : problem.density_g_per_mm3;
            const auto n = shapeIntegrals(regions.region[r].moments);
            for (std::size_t a = 0; a < 8; ++a)
                mass[std::size_t(lattice.elements[e].node[a])] += density * volume * n[a];
        }
    }
    double lost = 0;
    for (const AttachedPiece& piece : problem.masses) {
        const auto points = surfacePoints(lattice, problem.mesh, piece.triangles, lost, task);
        double area = 0;
        for (const SurfacePoint& p : points)
            area += p.area_mm2;
        for (const SurfacePoint& p : points) {
            const auto n = shapeAt(p.local);
            for (std::size_t a = 0; a < 8; ++a)
                mass[std::size_t(lattice.elements[p.element].node[a])] += piece.mass_g * n[a] * p.area_mm2 / area;
        }
    }
    return mass;
}

double firstFrequency_Hz(const Lattice& lattice, Multigrid& multigrid, const std::vector<double>& mass_g,
                         std::vector<double> x, const Task& task) {
    std::vector<double> load(x.size()), stiff(x.size());
    double before = 0, eigenvalue = 0;
    for (int i = 0; i < kMostIterations; ++i) {
        double norm = 0;
        for (std::size_t k = 0; k < x.size(); ++k)
            norm += mass_g[k / 3] * x[k] * x[k];
        if (!(norm > 0)) return 0;
        for (double& v : x)
            v /= std::sqrt(norm);
        for (std::size_t k = 0; k < x.size(); ++k)
            load[k] = mass_g[k / 3] * x[k];
        // the last solution, scaled by the eigenvalue, is where the next one starts
        if (eigenvalue > 0)
            for (double& v : x)
                v /= eigenvalue;
        solve(lattice, multigrid, load, x, kSolution, task);
        std::fill(stiff.begin(), stiff.end(), 0.0);
        addProduct(lattice.elements, lattice.matrices.data(), x.data(), stiff.data());
        double energy = 0, inertia = 0;
        for (std::size_t k = 0; k < x.size(); ++k) {
            energy += x[k] * stiff[k];
            inertia += mass_g[k / 3] * x[k] * x[k];
        }
        eigenvalue = energy / inertia;
        if (std::abs(eigenvalue - before) < kSettled * eigenvalue) break;
        before = eigenvalue;
    }
    return std::sqrt(eigenvalue * kPerGram) / (2 * std::numbers::pi);
}

}  // namespace waybench::statics
