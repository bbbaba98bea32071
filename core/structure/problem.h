#pragma once
#include <functional>
#include <limits>
#include <optional>
#include <vector>

#include "core/structure/body.h"
#include "core/structure/surface_points.h"

namespace waybench::statics {

/// A stiffness per area that goes by the surface: N/mm3 along its normal and across it. Infinite: rigid.
struct Bedding {
    std::function<Vec3(std::uint32_t, const Vec3&)> normalAt;  ///< unit, of the facet at a place
    double normal_N_per_mm3 = std::numeric_limits<double>::infinity(), tangential_N_per_mm3 = 0;
};

/// Held facets: rigidly in the directions that `held` projects on (identity: in all three), or by a bedding instead.
struct Support {
    std::vector<std::uint32_t> triangles;
    Mat3 held = Mat3::Identity();
    std::optional<Bedding> bedding = std::nullopt;
    bool isLaidOn = false;  ///< can push and not pull in truth; the solution lets it do both

    /// Stiffness per area at a point. @param rigid_N_per_mm3 what stands for a rigid support on this grid: none is
    /// stiffer
    Mat3 stiffnessAt(const SurfacePoint& point, double rigid_N_per_mm3) const;
};

/// Facets under a traction, N/mm2, as a function of facet and place.
struct Traction {
    std::vector<std::uint32_t> triangles;
    std::function<Vec3(std::uint32_t, const Vec3&)> at;
};

/// Something heavy fastened to facets.
struct AttachedPiece {
    std::vector<std::uint32_t> triangles;
    double mass_g = 0;
};

/// A body with its supports and loads in solver axes: layers, where there are any, lie normal to z.
struct Problem {
    Mesh mesh;
    ElasticLaw law;
    std::optional<ShellAndInfill> inside;  ///< build direction +z
    std::vector<Support> supports;
    std::vector<Traction> tractions;
    double density_g_per_mm3 = 0;
    std::vector<AttachedPiece> masses;
    Vec3 gravity_m_per_s2 = Vec3::Zero();  ///< pulls the body and what is attached
    std::vector<std::uint32_t> measured;
    Vec3 measuredDirection = Vec3::UnitZ();
};

/// Equilibrium on one grid.
struct Equilibrium {
    MaterialField field;
    Lattice lattice;
    std::vector<double> displacement_mm;  ///< three per node
    double deflection_mm = 0;             ///< mean over the measured facets along the measured direction, signed
    Vec3 meanDisplacement_mm = Vec3::Zero();
    Vec3 loadSum_N = Vec3::Zero(), reaction_N = Vec3::Zero();
    std::vector<double> pulledShare;  ///< per support: of the force normal to it, what pulls at the body
    double strainEnergy_Nmm = 0;      ///< body and holds together
    double work_Nmm = 0;              ///< of slowly applied loads: half of load times displacement
    int iterations = 0;
    double frequency_Hz = 0;  ///< first natural one, where it was asked for

    Vec3 displacementAt(std::size_t element, const Vec3& local) const;
    /// At a place, by the element that carries it; none where there is no material near.
    /// @param outward of the surface at the place, zero inside @param reach in half cells, how far outside its element
    /// the displacement is continued
    std::optional<Vec3> displacementNear(const Vec3& place, const Vec3& outward, double reach) const;
};

/// Young's modulus that stands for a law when stiffnesses are compared: mean of 1/S11, 1/S22, 1/S33.
double representativeModulus(const ElasticLaw& law);

/// Solves the problem on the grid. @param start equilibrium on a coarser grid to begin from, or null
/// @throws InputFault "body_free", "load_on_nothing", "body_too_thin_for_grid", "solver_stalled"
/// @param known what of the mesh lies in the grid's cells, if that was worked out before
/// @param withFrequency also finds the first natural frequency; needs a density or an attached mass
Equilibrium solveOnGrid(const Problem& problem, const Grid& grid, double tolerance, const Equilibrium* start,
                        const Task& task, bool withFrequency = false,
                        std::optional<MaterialInCells> known = std::nullopt);

}  // namespace waybench::statics
