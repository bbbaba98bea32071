#include <Eigen/Eigenvalues>
#include <Eigen/LU>
#include <cmath>
#include <map>

#include "core/fault/input_fault.h"
#include "core/structure/body_regions.h"
#include "core/structure/conjugate_gradient.h"
#include "core/structure/inertia.h"
#include "core/structure/problem.h"

namespace waybench::statics {

namespace {

/// Stiffness of the holds, in units of E / cell size. Softer ones let the body slide, stiffer ones only cost time.
constexpr double kHoldFactor = 25;

/// Number of closed surfaces that bound material (cavities not counted).
int bodiesIn(const Mesh& mesh) {
    std::vector<std::size_t> parent(mesh.vertices.size());
    for (std::size_t i = 0; i < parent.size(); ++i)
        parent[i] = i;
    const auto root = [&](std::size_t i) {
        while (parent[i] != i)
            i = parent[i] = parent[parent[i]];
        return i;
    };
    for (const auto& t : mesh.triangles) {
        parent[root(t[1])] = root(t[0]);
        parent[root(t[2])] = root(t[0]);
    }
    std::map<std::size_t, double> volume;
    for (const auto& t : mesh.triangles)
        volume[root(t[0])] += mesh.vertices[t[0]].dot(mesh.vertices[t[1]].cross(mesh.vertices[t[2]])) / 6;
    int bodies = 0;
    for (const auto& [surface, enclosed] : volume)
        bodies += enclosed > 0 ? 1 : 0;
    return bodies;
}

[[noreturn]] void throwFree(const std::string& problem) {
    throw InputFault("body_free", "", "holds", problem, "hold a face of every piece, firmly enough to stop all motion");
}

/// N/mm3 that stands for a rigid support.
double rigidStiffness(const Lattice& lattice, const SurfacePoint& p, double modulus) {
    return kHoldFactor * modulus / p.normal.cwiseAbs().dot(lattice.grid.sizeOf(lattice.cellAt(p.element)));
}

/// Every group of cells must be stopped against all six rigid motions.
void checkHeld(const Problem& problem, const Lattice& lattice, const std::vector<std::vector<SurfacePoint>>& held,
               double modulus) {
    const std::vector<int> group = groupsOf(lattice);
    int groups = 0;
    for (int g : group)
        groups = std::max(groups, g + 1);
    using Matrix6 = Eigen::Matrix<double, 6, 6>;
    std::vector<Matrix6> stiffness(std::size_t(groups), Matrix6::Zero());
    const Box3 box = boundsOf(problem.mesh);
    const double size = box.size().norm();
    for (std::size_t s = 0; s < held.size(); ++s)
        for (const SurfacePoint& p : held[s]) {
            const Vec3 x = (p.position - box.centre()) / size;
            Eigen::Matrix<double, 3, 6> motion;
            motion.leftCols<3>().setIdentity();
            motion.rightCols<3>() << 0, x[2], -x[1], -x[2], 0, x[0], x[1], -x[0], 0;
            stiffness[std::size_t(group[p.element])] +=
                p.area_mm2 * motion.transpose() *
                problem.supports[s].stiffnessAt(p, rigidStiffness(lattice, p, modulus)) * motion;
        }
    int freeGroups = 0;
    for (const Matrix6& k : stiffness) {
        const Eigen::SelfAdjointEigenSolver<Matrix6> eigen(k, Eigen::EigenvaluesOnly);
        if (!(eigen.eigenvalues()[0] > 1e-10 * eigen.eigenvalues()[5])) ++freeGroups;
    }
    if (freeGroups == 0) return;
    const int bodies = bodiesIn(problem.mesh);
    if (groups > 1 && bodies > 1)
        throwFree("the part is in " + std::to_string(bodies) + " pieces that do not touch, and not every one is held");
    if (groups > 1)
        throw InputFault("body_too_thin_for_grid", "", "body",
                         "a web or wall is too thin for the calculation grid, and the part falls into " +
                             std::to_string(groups) + " pieces on it",
                         "thicken the thinnest place, or raise the cell budget");
    throwFree("the holds leave the part free to move");
}

void addHold(Lattice& lattice, const std::vector<SurfacePoint>& points, const Support& support, double modulus) {
    // Points of one facet and cell follow each other: their shares are summed before they spread over directions.
    for (std::size_t first = 0; first < points.size();) {
        const std::size_t element = points[first].element;
        const auto stiffnessAt = [&](const SurfacePoint& p) {
            return support.stiffnessAt(p, rigidStiffness(lattice, p, modulus));
        };
        const Mat3 stiffness = stiffnessAt(points[first]);
        std::array<double, 64> sum{};
        std::size_t next = first;
        for (; next < points.size() && points[next].element == element && stiffnessAt(points[next]) == stiffness;
             ++next) {
            const SurfacePoint& p = points[next];
            const auto n = shapeAt(p.local);
            for (std::size_t b = 0; b < 8; ++b)
                for (std::size_t a = 0; a < 8; ++a)
                    sum[8 * b + a] += p.area_mm2 * n[a] * n[b];
        }
        first = next;
        double* k = ownMatrix(lattice, element);
        for (std::size_t b = 0; b < 8; ++b)
            for (std::size_t a = 0; a < 8; ++a)
                for (std::size_t j = 0; j < 3; ++j)
                    for (std::size_t i = 0; i < 3; ++i)
                        k[24 * (3 * b + j) + 3 * a + i] += sum[8 * b + a] * stiffness(Eigen::Index(i), Eigen::Index(j));
    }
}

/// Displacements of a coarser solution at the nodes of a lattice.
std::vector<double> interpolated(const Equilibrium& from, const Lattice& lattice) {
    std::vector<double> u(lattice.unknowns(), 0.0);
    for (std::size_t n = 0; n < lattice.nodeAt.size(); ++n) {
        const Index3& at = lattice.nodeAt[n];
        const Vec3 x(lattice.grid.lines[0][std::size_t(at[0])], lattice.grid.lines[1][std::size_t(at[1])],
                     lattice.grid.lines[2][std::size_t(at[2])]);
        const std::optional<Vec3> value = from.displacementNear(x, Vec3::Zero(), 2);
        for (int k = 0; k < 3 && value; ++k)
            u[3 * n + std::size_t(k)] = (*value)[k];
    }
    return u;
}

}  // namespace

Mat3 Support::stiffnessAt(const SurfacePoint& point, double rigid_N_per_mm3) const {
    if (!bedding) return rigid_N_per_mm3 * held;
    const Vec3 normal = bedding->normalAt(point.triangle, point.position);
    const double along = std::min(bedding->normal_N_per_mm3, rigid_N_per_mm3);
    const double across = std::min(bedding->tangential_N_per_mm3, rigid_N_per_mm3);
    return across * Mat3::Identity() + (along - across) * normal * normal.transpose();
}

double representativeModulus(const ElasticLaw& law) {
    const Mat6 compliance = law.stiffness_MPa.inverse();
    return (1 / compliance(0, 0) + 1 / compliance(1, 1) + 1 / compliance(2, 2)) / 3;
}

Vec3 Equilibrium::displacementAt(std::size_t element, const Vec3& local) const {
    const auto n = shapeAt(local);
    Vec3 u = Vec3::Zero();
    for (std::size_t a = 0; a < 8; ++a) {
        const std::size_t node = 3 * std::size_t(lattice.elements[element].node[a]);
        u += n[a] * Vec3(displacement_mm[node], displacement_mm[node + 1], displacement_mm[node + 2]);
    }
    return u;
}

std::optional<Vec3> Equilibrium::displacementNear(const Vec3& place, const Vec3& outward, double reach) const {
    const std::int32_t e = carrierOf(lattice, place, outward);
    if (e < 0) return {};
    const Vec3 local = lattice.grid.localOf(lattice.cellAt(std::size_t(e)), place);
    return displacementAt(std::size_t(e), local.cwiseMax(-reach).cwiseMin(reach));
}

Equilibrium solveOnGrid(const Problem& problem, const Grid& grid, double tolerance, const Equilibrium* start,
                        const Task& task, bool withFrequency, std::optional<MaterialInCells> known) {
    Equilibrium result;
    MaterialInCells material = known ? std::move(*known) : materialInCells(problem.mesh, grid, task);
    result.field.split =
        std::make_shared<const SplitCells>(findPieces(problem.mesh, grid, material.moments, material.surface, task));
    result.field.material = std::move(material.moments);
    result.field.through = std::move(material.surface.through);
    result.field.law = problem.law;
    if (problem.inside) {
        result.field.infill = infillMoments(problem.mesh, *problem.inside, grid, task);
        result.field.infillLaw = problem.inside->infillLaw;
    }
    result.lattice = buildLattice(grid, result.field, task);
    result.field.through = {};
    Lattice& lattice = result.lattice;
    task.report(0.2);

    std::vector<std::vector<SurfacePoint>> held;
    double lost = 0;
    for (const Support& s : problem.supports)
        held.push_back(surfacePoints(lattice, problem.mesh, s.triangles, lost, task));
    const double modulus = representativeModulus(problem.law);
    checkHeld(problem, lattice, held, modulus);
    for (std::size_t s = 0; s < held.size(); ++s)
        addHold(lattice, held[s], problem.supports[s], modulus);

    std::vector<double> load(lattice.unknowns(), 0.0);
    double applied = 0;
    for (const Traction& t : problem.tractions) {
        for (const SurfacePoint& p : surfacePoints(lattice, problem.mesh, t.triangles, lost, task)) {
            const Vec3 force = p.area_mm2 * t.at(p.triangle, p.position);
            const auto n = shapeAt(p.local);
            for (std::size_t a = 0; a < 8; ++a)
                for (std::size_t k = 0; k < 3; ++k)
                    load[3 * std::size_t(lattice.elements[p.element].node[a]) + k] += n[a] * force[Eigen::Index(k)];
            result.loadSum_N += force;
            applied += force.norm();
        }
        if (lost > 0)
            throw InputFault("load_on_nothing", "", "loads",
                             "a loaded face lies where the calculation grid has no material",
                             "thicken the place under the load, or raise the cell budget");
    }
    std::vector<double> mass_g;
    if (!problem.gravity_m_per_s2.isZero() || withFrequency) mass_g = nodalMass_g(problem, lattice, result.field, task);
    if (!problem.gravity_m_per_s2.isZero())
        for (std::size_t n = 0; n < mass_g.size(); ++n) {
            const Vec3 weight_N = 1e-3 * mass_g[n] * problem.gravity_m_per_s2;
            for (std::size_t k = 0; k < 3; ++k)
                load[3 * n + k] += weight_N[Eigen::Index(k)];
            result.loadSum_N += weight_N;
        }
    double largest = 0;
    for (double f : load) {
        if (!std::isfinite(f)) throw std::logic_error("a load is not a finite number");
        largest = std::max(largest, std::abs(f));
    }
    if (!(largest > 1e-12 * applied))
        throw InputFault("load_on_nothing", "", "loads", "the loads come to nothing on this part",
                         "choose faces that exist and a load that is not zero");

    Multigrid multigrid(lattice, task);
    task.report(0.4);
    if (start != nullptr) result.displacement_mm = interpolated(*start, lattice);
    result.iterations =
        solve(lattice, multigrid, load, result.displacement_mm, tolerance, task.part(0.4, 1)).iterations;

    if (withFrequency)
        result.frequency_Hz = firstFrequency_Hz(lattice, multigrid, mass_g, result.displacement_mm, task);

    const auto& u = result.displacement_mm;
    double work = 0, energy = 0;
    std::vector<double> ku(u.size(), 0.0);
    addProduct(lattice.elements, lattice.matrices.data(), u.data(), ku.data());
    for (std::size_t i = 0; i < u.size(); ++i) {
        work += 0.5 * load[i] * u[i];
        energy += 0.5 * ku[i] * u[i];
    }
    result.work_Nmm = work;
    result.strainEnergy_Nmm = energy;
    for (std::size_t s = 0; s < held.size(); ++s) {
        double pulled = 0, carried = 0;
        for (const SurfacePoint& p : held[s]) {
            const double rigid = rigidStiffness(lattice, p, modulus);
            const Vec3 force =
                -p.area_mm2 * (problem.supports[s].stiffnessAt(p, rigid) * result.displacementAt(p.element, p.local));
            result.reaction_N += force;
            pulled += std::max(0.0, force.dot(p.normal));
            carried += std::abs(force.dot(p.normal));
        }
        // What carries next to nothing says nothing.
        const double least = 0.02 * std::max(applied, result.loadSum_N.norm());
        result.pulledShare.push_back(pulled / std::max(carried, least));
    }
    double area = 0;
    for (const SurfacePoint& p : surfacePoints(lattice, problem.mesh, problem.measured, lost, task)) {
        result.meanDisplacement_mm += p.area_mm2 * result.displacementAt(p.element, p.local);
        area += p.area_mm2;
    }
    if (area > 0) result.meanDisplacement_mm /= area;
    result.deflection_mm = result.meanDisplacement_mm.dot(problem.measuredDirection);
    return result;
}

}  // namespace waybench::statics
