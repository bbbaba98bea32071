#pragma once
#include <vector>

#include "core/structure/body.h"
#include "core/structure/problem.h"

namespace waybench::statics {

/// Stress of one grid solution at the points asked for, each averaged over a ball (judgement.md 4.2), walls and infill
/// apart.
struct AveragedStress {
    double vonMises_MPa = 0;  ///< the greater of wall and infill
    double utilisation = 0;   ///< stress over strength, the greater of the criteria and of wall and infill
};

/// Averages the stress inside the bricks over balls.
///
/// Every cell and material gives eight samples placed so that they carry the first and second moments of the material
/// part. Walls count at points whose cell holds wall, infill where it holds infill. Ball diameter:
/// StrengthLaw::averagingLength_mm, and at least two cells. In thin walls the plain mean would cancel bending. There a
/// plane is laid through the samples of the ball by least squares and read nearer to the point: at the point itself
/// where the wall is no thicker than the ball, at the ball's centre (the plain mean) from four ball diameters on, in
/// between in proportion. Criteria: von Mises over in-layer strength; for layered bodies also the interface criterion
/// sqrt((<s_n>/Z)^2 + (t_n/S)^2) of judgement.md 4.3, layers normal to z.
class StressField {
public:
    StressField(const Equilibrium& equilibrium, const StrengthLaw& strength, int layerAxis, const Task& task);
    AveragedStress at(const Vec3& point) const;
    /// By the cell that holds the point alone, zero in the void: a cheap stand-in for pictures of drafts.
    AveragedStress inCellOf(const Vec3& point) const;
    /// Greatest utilisation of the unaveraged samples of the cell that holds the point; 0 in the void. Cheap.
    double peakNear(const Vec3& point) const;

private:
    struct Sample {
        Eigen::Vector3f position;
        Eigen::Matrix<float, 6, 1> stress;
        float weight = 0;
    };
    struct CellSamples {
        std::uint32_t begin = 0;
        std::uint8_t count = 0;  // 8 or 16
        bool isInfill[2] = {false, false};
    };
    /// Samples of the elements [from, to); sets their cells_, counted from the list's own beginning.
    std::vector<Sample> sampled(const Equilibrium& equilibrium, std::size_t from, std::size_t to);
    double utilisationOf(const Vector6& stress, bool infill) const;
    double depthOfMaterial(const Vec3& from, const Vec3& inward, double most) const;

    const Lattice& lattice_;
    StrengthLaw strength_;
    int layerAxis_;
    std::vector<Sample> samples_;
    std::vector<CellSamples> cells_;
};

double vonMises(const Vector6& stress);

/// Where the worst stress is looked for: over the whole surface, one point per cell and side that it passes through,
/// and the middle of every cell that holds infill.
std::vector<Vec3> stressProbes(const Equilibrium& equilibrium, const Mesh& mesh, const Task& task);

}  // namespace waybench::statics
