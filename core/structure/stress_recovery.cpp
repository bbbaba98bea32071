#include "core/structure/stress_recovery.h"

#include <Eigen/LU>
#include <algorithm>
#include <cmath>
#include <map>
#include <memory>

#include "core/progress/thread_team.h"
#include "core/structure/clipping.h"

namespace waybench::statics {

namespace {

constexpr std::size_t kCellsAtOnce = 4096;

}  // namespace

double vonMises(const Vector6& s) {
    const double a = s[0] - s[1], b = s[1] - s[2], c = s[2] - s[0];
    return std::sqrt(0.5 * (a * a + b * b + c * c) + 3 * (s[3] * s[3] + s[4] * s[4] + s[5] * s[5]));
}

StressField::StressField(const Equilibrium& equilibrium, const StrengthLaw& strength, int layerAxis, const Task& task)
    : lattice_(equilibrium.lattice), strength_(strength), layerAxis_(layerAxis) {
    // Shares of cells fill lists of their own, which are then put one behind the other.
    const std::size_t count = lattice_.elements.size();
    std::vector<std::vector<Sample>> samples((count + kCellsAtOnce - 1) / kCellsAtOnce);
    cells_.resize(count);
    inShares(count, kCellsAtOnce, [&](std::size_t begin, std::size_t end) {
        task.check();
        samples[begin / kCellsAtOnce] = sampled(equilibrium, begin, end);
    });
    for (std::size_t share = 0; share < samples.size(); ++share) {
        for (std::size_t e = share * kCellsAtOnce; e < std::min(count, (share + 1) * kCellsAtOnce); ++e)
            cells_[e].begin += std::uint32_t(samples_.size());
        samples_.insert(samples_.end(), samples[share].begin(), samples[share].end());
    }
}

std::vector<StressField::Sample> StressField::sampled(const Equilibrium& equilibrium, std::size_t from,
                                                      std::size_t to) {
    const Grid& grid = lattice_.grid;
    std::map<std::pair<std::int32_t, bool>, std::unique_ptr<Brick>> wholeBricks;
    std::vector<Sample> made;
    made.reserve(8 * (to - from));
    for (std::size_t e = from; e < to; ++e) {
        const Index3 cell = lattice_.cellAt(e);
        const Vec3 low = grid.lowOf(cell), size = grid.sizeOf(cell);
        const CellRegions regions = regionsOf(equilibrium.field, lattice_.cellOf[e], lattice_.pieceOf[e]);
        const bool shared = lattice_.isShared[std::size_t(lattice_.elements[e].matrix)] != 0;
        std::unique_ptr<Brick> own;
        const Brick* brick = nullptr;
        if (shared) {
            auto& kept = wholeBricks[{lattice_.elements[e].matrix, regions.isInfill[0]}];
            if (!kept) kept = std::make_unique<Brick>(size, regions.all());
            brick = kept.get();
        } else {
            own = std::make_unique<Brick>(size, regions.all());
            brick = own.get();
        }
        Vector24 u;
        for (std::size_t a = 0; a < 8; ++a)
            for (std::size_t k = 0; k < 3; ++k)
                u[Eigen::Index(3 * a + k)] =
                    equilibrium.displacement_mm[3 * std::size_t(lattice_.elements[e].node[a]) + k];
        const Eigen::VectorXd amplitudes = brick->amplitudes(u);
        CellSamples samples;
        samples.begin = std::uint32_t(made.size());
        samples.count = std::uint8_t(8 * regions.count);
        for (std::size_t r = 0; r < regions.count; ++r) {
            samples.isInfill[r] = regions.isInfill[r];
            const Moments& m = regions.region[r].moments;
            Vec3 centre, spread;
            for (int axis = 0; axis < 3; ++axis) {
                const std::size_t p = axis == 0 ? 1 : axis == 1 ? 3 : 9;
                centre[axis] = m.value[p] / m.volume();
                const double variance = m.value[2 * p] / m.volume() - centre[axis] * centre[axis];
                spread[axis] = std::sqrt(std::max(0.0, variance));
            }
            for (int a = 0; a < 8; ++a) {
                Vec3 x = centre;
                for (int axis = 0; axis < 3; ++axis)
                    x[axis] += (a >> axis & 1) != 0 ? spread[axis] : -spread[axis];
                Sample s;
                s.position = (low + 0.5 * (x.array() + 1).matrix().cwiseProduct(size)).cast<float>();
                s.stress = (*regions.region[r].stiffness_MPa * brick->strainAt(amplitudes, x, r)).cast<float>();
                s.weight = float(m.volume() / 64 * size.prod());
                made.push_back(s);
            }
        }
        cells_[e] = samples;
    }
    return made;
}

double StressField::utilisationOf(const Vector6& s, bool infill) const {
    const double factor = infill ? strength_.infillFactor : 1;
    double worst = vonMises(s) / (strength_.inLayer_MPa * factor);
    if (strength_.across_MPa) {
        const double across = *strength_.across_MPa * factor;
        const double shear = strength_.shearAcross_MPa.value_or(*strength_.across_MPa) * factor;
        const double normal = std::max(0.0, s[layerAxis_]);
        // shear components on the plane normal to the layer axis; order xx yy zz xy yz zx
        const double t1 = layerAxis_ == 0 ? s[3] : layerAxis_ == 1 ? s[3] : s[4];
        const double t2 = layerAxis_ == 0 ? s[5] : layerAxis_ == 1 ? s[4] : s[5];
        worst = std::max(worst, std::sqrt(normal * normal / (across * across) + (t1 * t1 + t2 * t2) / (shear * shear)));
    }
    return worst;
}

double StressField::peakNear(const Vec3& point) const {
    const std::int32_t e = carrierOf(lattice_, point, Vec3::Zero());
    if (e < 0) return 0;
    const CellSamples& c = cells_[std::size_t(e)];
    double peak = 0;
    for (std::uint32_t s = 0; s < c.count; ++s)
        peak = std::max(peak, utilisationOf(samples_[c.begin + s].stress.cast<double>(), c.isInfill[s / 8]));
    return peak;
}

AveragedStress StressField::inCellOf(const Vec3& point) const {
    const std::int32_t e = carrierOf(lattice_, point, Vec3::Zero());
    if (e < 0) return {};
    const CellSamples& c = cells_[std::size_t(e)];
    AveragedStress result;
    for (std::uint32_t first = 0; first < c.count; first += 8) {
        // Straight through the eight samples, read at the point: bending of a wall one cell thick shows.
        Vector6 stress = Vector6::Zero();
        Vec3 centre = Vec3::Zero();
        for (std::uint32_t s = 0; s < 8; ++s) {
            stress += samples_[c.begin + first + s].stress.cast<double>() / 8;
            centre += samples_[c.begin + first + s].position.cast<double>() / 8;
        }
        for (int axis = 0; axis < 3; ++axis) {
            Vector6 slope = Vector6::Zero();
            for (std::uint32_t s = 0; s < 8; ++s)
                slope += ((s >> axis & 1U) != 0 ? 0.125 : -0.125) * samples_[c.begin + first + s].stress.cast<double>();
            const double spread = double(samples_[c.begin + first + 7].position[axis]) - centre[axis];
            if (spread > 0) stress += std::clamp((point[axis] - centre[axis]) / spread, -2.0, 2.0) * slope;
        }
        result.vonMises_MPa = std::max(result.vonMises_MPa, vonMises(stress));
        result.utilisation = std::max(result.utilisation, utilisationOf(stress, c.isInfill[first / 8]));
    }
    return result;
}

double StressField::depthOfMaterial(const Vec3& from, const Vec3& inward, double most) const {
    const Grid& grid = lattice_.grid;
    const double step = 0.5 * grid.sizeOf(grid.cellOf(from)).cwiseQuotient(inward.cwiseAbs().cwiseMax(1e-3)).minCoeff();
    bool entered = false;
    for (double d = 0.5 * step; d < most; d += step) {
        const Vec3 x = from + d * inward;
        bool material = true;
        for (int axis = 0; axis < 3; ++axis)
            material = material && x[axis] >= grid.lines[std::size_t(axis)].front() &&
                       x[axis] <= grid.lines[std::size_t(axis)].back();
        material = material && lattice_.elementOfCell[grid.cellIndex(grid.cellOf(x))] >= 0;
        if (entered && !material) return d - 0.5 * step;
        entered = entered || material;
    }
    return most;
}

AveragedStress StressField::at(const Vec3& point) const {
    const Grid& grid = lattice_.grid;
    const Index3 home = grid.cellOf(point);
    const double cell = grid.sizeOf(home).maxCoeff();
    const double radius = std::max(0.5 * strength_.averagingLength_mm, cell);
    const double soft = 0.25 * radius;  // the ball's edge is soft, so that the average moves smoothly with the point
    AveragedStress result;
    double reach = radius + soft;
    for (int attempt = 0; attempt < 3; ++attempt, reach *= 2) {
        Index3 from, to;
        for (int axis = 0; axis < 3; ++axis) {
            from[std::size_t(axis)] = grid.intervalOf(axis, point[axis] - reach);
            to[std::size_t(axis)] = grid.intervalOf(axis, point[axis] + reach);
        }
        Vector6 sum[2] = {Vector6::Zero(), Vector6::Zero()};
        Vec3 moment[2] = {Vec3::Zero(), Vec3::Zero()};
        Mat3 spread[2] = {Mat3::Zero(), Mat3::Zero()};
        Eigen::Matrix<double, 3, 6> slope[2] = {Eigen::Matrix<double, 3, 6>::Zero(),
                                                Eigen::Matrix<double, 3, 6>::Zero()};
        double weight[2] = {0, 0};
        const Eigen::Vector3f centre = point.cast<float>();
        for (int k = from[2]; k <= to[2]; ++k)
            for (int j = from[1]; j <= to[1]; ++j)
                for (int i = from[0]; i <= to[0]; ++i) {
                    const std::size_t nearby = grid.cellIndex({i, j, k});
                    const std::int32_t first = lattice_.elementOfCell[nearby];
                    if (first < 0) continue;
                    for (auto e = std::size_t(first); e < cells_.size() && lattice_.cellOf[e] == nearby; ++e)
                        for (std::uint32_t s = 0; s < cells_[e].count; ++s) {
                            const CellSamples& c = cells_[e];
                            const Sample& sample = samples_[c.begin + s];
                            const Eigen::Vector3f apart = sample.position - centre;
                            const double distance = double(apart.norm());
                            if (distance >= reach) continue;
                            const double w = double(sample.weight) * std::min(1.0, (reach - distance) / (2 * soft));
                            const std::size_t side = c.isInfill[s / 8] ? 1 : 0;
                            const Vec3 d = apart.cast<double>();
                            const Vector6 stress = sample.stress.cast<double>();
                            sum[side] += w * stress;
                            moment[side] += w * d;
                            spread[side] += w * d * d.transpose();
                            slope[side] += w * d * stress.transpose();
                            weight[side] += w;
                        }
                }
        const double both = weight[0] + weight[1];
        if (!(both > 0)) continue;
        // What only others' cells hold is left to the points there: read from afar it would be an extrapolation.
        bool isHere[2] = {true, true};
        if (const std::int32_t e = carrierOf(lattice_, point, Vec3::Zero()); e >= 0) {
            const CellSamples& own = cells_[std::size_t(e)];
            for (const bool infill : {false, true})
                isHere[infill ? 1 : 0] = own.isInfill[0] == infill || (own.count > 8 && own.isInfill[1] == infill);
        }
        for (std::size_t side = 0; side < 2; ++side) {
            if (!isHere[side] || weight[side] < 0.02 * both) continue;
            Vector6 stress = sum[side] / weight[side];
            const Vec3 offset = moment[side] / weight[side];  // of the samples' centre from the point
            const double depth = offset.norm();
            if (side == 0 && depth > 0.05 * radius) {
                const double wall = depthOfMaterial(point, offset / depth, 8 * radius);
                const double inwards = std::clamp((wall / (2 * radius) - 1) / 3, 0.0, 1.0);
                if (inwards < 1) {
                    const Mat3 centred = spread[side] - weight[side] * offset * offset.transpose() +
                                         1e-5 * weight[side] * radius * radius * Mat3::Identity();
                    const Eigen::Matrix<double, 3, 6> gradient =
                        centred.inverse() * (slope[side] - offset * sum[side].transpose());
                    const Vec3 towards = -(1 - inwards) * offset * std::min(1.0, radius / depth);
                    stress += gradient.transpose() * towards;
                }
            }
            result.vonMises_MPa = std::max(result.vonMises_MPa, vonMises(stress));
            result.utilisation = std::max(result.utilisation, utilisationOf(stress, side == 1));
        }
        return result;
    }
    return result;
}

std::vector<Vec3> stressProbes(const Equilibrium& equilibrium, const Mesh& mesh, const Task& task) {
    const Lattice& lattice = equilibrium.lattice;
    // One probe per cell and side (six by the normal's main axis): both faces of a one-cell wall get their own.
    std::vector<Vec3> sum(6 * lattice.elements.size(), Vec3::Zero());
    std::vector<double> area(sum.size(), 0.0);
    std::size_t done = 0;
    for (const auto& t : mesh.triangles) {
        if (++done % 256 == 0) task.check();
        const Vec3 &a = mesh.vertices[t[0]], &b = mesh.vertices[t[1]], &c = mesh.vertices[t[2]];
        const Vec3 doubled = (b - a).cross(c - a);
        if (!(doubled.norm() > 0)) continue;
        const Vec3 normal = doubled.normalized();
        Eigen::Index main = 0;
        normal.cwiseAbs().maxCoeff(&main);
        const std::size_t side = 2 * std::size_t(main) + (normal[main] > 0 ? 1 : 0);
        clipToCells(lattice.grid, a, b, c, [&, facet = std::int64_t(done) - 1](const Index3& cell, const Piece& piece) {
            Vec3 middle = Vec3::Zero(), spanned = Vec3::Zero();
            for (int i = 0; i < piece.count; ++i)
                middle += piece.corner[std::size_t(i)] / piece.count;
            for (int i = 1; i + 1 < piece.count; ++i)
                spanned += 0.5 * (piece.corner[std::size_t(i)] - piece.corner[0])
                                     .cross(piece.corner[std::size_t(i) + 1] - piece.corner[0]);
            const SplitCell* split = lattice.split ? lattice.split->at(lattice.grid.cellIndex(cell)) : nullptr;
            const int bounded = split != nullptr ? split->pieceBoundedBy(std::uint32_t(facet)) : -1;
            if (bounded >= 0 && lattice.elementAt(split->cell, bounded) < 0) return;  // a crumb that was left out
            const std::int32_t e = carrierOf(lattice, middle, normal, facet);
            if (e < 0) return;
            sum[6 * std::size_t(e) + side] += spanned.norm() * middle;
            area[6 * std::size_t(e) + side] += spanned.norm();
        });
    }
    std::vector<Vec3> probes;
    for (std::size_t e = 0; e < sum.size(); ++e)
        if (area[e] > 0) probes.push_back(sum[e] / area[e]);
    if (equilibrium.field.infill)
        for (std::size_t e = 0; e < lattice.elements.size(); ++e)
            if (equilibrium.field.infill->entry[lattice.cellOf[e]] != CellMoments::kEmpty)
                probes.push_back(lattice.grid.lowOf(lattice.cellAt(e)) + 0.5 * lattice.grid.sizeOf(lattice.cellAt(e)));
    return probes;
}

}  // namespace waybench::statics
