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
/// part. Ball diameter: StrengthLaw::averagingLength_mm, and at least two cells.
/// Criteria: von Mises over in-layer strength; for layered bodies also the interface criterion
/// sqrt((<s_n>/Z)^2 + (t_n/S)^2) of judgement.md 4.3, layers normal to z.
class StressField {
public:
    StressField(const Equilibrium& equilibrium, const StrengthLaw& strength, int layerAxis, const Task& task);
    AveragedStress at(const Vec3& point) const;

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
    double utilisationOf(const Vector6& stress, bool infill) const;

    const Lattice& lattice_;
    StrengthLaw strength_;
    int layerAxis_;
    std::vector<Sample> samples_;
    std::vector<CellSamples> cells_;
};

double vonMises(const Vector6& stress);

/// Points spread over the whole surface, one per cell that it passes through: where the worst stress is looked for.
std::vector<Vec3> surfaceProbes(const Lattice& lattice, const Mesh& mesh, const Task& task);

}  // namespace waybench::statics
