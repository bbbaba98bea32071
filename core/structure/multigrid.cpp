#include "core/structure/multigrid.h"

#include <Eigen/LU>
#include <cmath>

#include "core/progress/thread_team.h"
#include "core/structure/coarsening.h"

namespace waybench::statics {

namespace {

// Multiplications the direct solver may cost, at least and per unknown of the finest grid: deeper bottoms need more
// iterations, higher ones a longer factorisation (measured on boxes, plates and bars).
constexpr double kBottomWork = 1.5e8, kBottomWorkPerUnknown = 16000;
constexpr int kPowerSteps = 8;
constexpr float kEigenvalueMargin = 1.3F, kSmoothedRange = 5.0F;
constexpr std::size_t kShare = 1 << 14;  // nodes one thread takes at a time

/// Calls work(first, last) for shares of the nodes.
template <class Work>
void overNodes(std::size_t nodes, const Work& work) {
    inShares(nodes, kShare, work);
}

double squaredNorm(const std::vector<float>& x) {
    return sumInShares(x.size(), kShare, [&](std::size_t begin, std::size_t end) {
        double sum = 0;
        for (std::size_t i = begin; i < end; ++i)
            sum += double(x[i]) * double(x[i]);
        return sum;
    });
}

/// The interpolation read from the coarse side: which fine nodes a coarse one gathers from.
Interpolation transposed(const Interpolation& p, std::size_t coarseNodes) {
    Interpolation t;
    t.start.assign(coarseNodes + 1, 0);
    for (const std::int32_t c : p.coarse)
        ++t.start[std::size_t(c) + 1];
    for (std::size_t c = 0; c < coarseNodes; ++c)
        t.start[c + 1] += t.start[c];
    t.coarse.resize(p.coarse.size());
    t.weight.resize(p.coarse.size());
    std::vector<std::int32_t> next(t.start.begin(), t.start.end() - 1);
    for (std::size_t n = 0; n + 1 < p.start.size(); ++n)
        for (auto i = std::size_t(p.start[n]); i < std::size_t(p.start[n + 1]); ++i) {
            const auto to = std::size_t(next[std::size_t(p.coarse[i])]++);
            t.coarse[to] = std::int32_t(n);
            t.weight[to] = p.weight[i];
        }
    return t;
}

/// y := y0 + sum of weights times x, or the sum alone.
void gather(const Interpolation& rows, const std::vector<float>& x, std::vector<float>& y, bool addsUp) {
    overNodes(rows.start.size() - 1, [&](std::size_t begin, std::size_t end) {
        for (std::size_t n = begin; n < end; ++n) {
            float sum[3] = {0, 0, 0};
            for (auto i = std::size_t(rows.start[n]); i < std::size_t(rows.start[n + 1]); ++i)
                for (std::size_t k = 0; k < 3; ++k)
                    sum[k] += rows.weight[i] * x[3 * std::size_t(rows.coarse[i]) + k];
            for (std::size_t k = 0; k < 3; ++k)
                y[3 * n + k] = (addsUp ? y[3 * n + k] : 0.0F) + sum[k];
        }
    });
}

}  // namespace

struct Multigrid::Level {
    PartedElements elements;
    std::vector<float> matrices, inverseDiagonal;  // nine per node
    Interpolation interpolation, restriction;      // from the next coarser level, and to it
    float largestEigenvalue = 1;
    std::vector<float> right, solution, residual, step, product;

    void multiply(const std::vector<float>& u, std::vector<float>& y) const { elements.product(matrices.data(), u, y); }
    std::size_t nodes() const { return inverseDiagonal.size() / 9; }
    /// Inverse diagonal block of node n times x.
    void block(std::size_t n, const float* x, float* z) const {
        const float* d = inverseDiagonal.data() + 9 * n;
        for (std::size_t k = 0; k < 3; ++k)
            z[k] = d[3 * k] * x[0] + d[3 * k + 1] * x[1] + d[3 * k + 2] * x[2];
    }
    void timesInverseDiagonal(const std::vector<float>& r, std::vector<float>& z) const {
        overNodes(nodes(), [&](std::size_t begin, std::size_t end) {
            for (std::size_t n = begin; n < end; ++n)
                block(n, r.data() + 3 * n, z.data() + 3 * n);
        });
    }
    void prepare(const LevelMesh& mesh) {
        elements = PartedElements(mesh.elements, mesh.cellOf);
        matrices.resize(mesh.matrices.size());
        inShares(matrices.size(), 576 * 1024, [&](std::size_t begin, std::size_t end) {
            for (std::size_t i = begin; i < end; ++i)
                matrices[i] = float(mesh.matrices[i]);
        });
        const std::size_t nodes = mesh.nodeAt.size();
        std::vector<Mat3> diagonal(nodes, Mat3::Zero());
        for (const ElementLink& e : mesh.elements)
            for (int a = 0; a < 8; ++a)
                diagonal[std::size_t(e.node[std::size_t(a)])] +=
                    Eigen::Map<const Matrix24>(mesh.matrices.data() + 576 * std::size_t(e.matrix))
                        .block<3, 3>(3 * a, 3 * a);
        double stiffest = 0;
        for (const Mat3& d : diagonal)
            stiffest = std::max(stiffest, d.trace());
        inverseDiagonal.resize(9 * nodes);
        overNodes(nodes, [&](std::size_t begin, std::size_t end) {
            for (std::size_t n = begin; n < end; ++n) {
                Mat3 d = diagonal[n];
                d.diagonal().array() += 1e-5 * d.trace() + 1e-12 * stiffest;
                const Mat3 inverse = d.inverse();
                for (int i = 0; i < 3; ++i)
                    for (int j = 0; j < 3; ++j)
                        inverseDiagonal[9 * n + std::size_t(3 * i + j)] = float(inverse(i, j));
            }
        });
        for (auto* v : {&right, &solution, &residual, &step, &product})
            v->assign(3 * nodes, 0.0F);
    }
    /// Power method on inverse diagonal times matrix, from a fixed start.
    void findLargestEigenvalue() {
        std::uint32_t seed = 12345;
        for (float& x : solution) {
            seed = seed * 1664525U + 1013904223U;
            x = float(seed >> 8) / float(1U << 24) - 0.5F;
        }
        double value = 1;
        for (int i = 0; i < kPowerSteps; ++i) {
            const double norm = std::sqrt(squaredNorm(solution));
            if (!(norm > 0)) break;
            for (float& x : solution)
                x = float(x / norm);
            multiply(solution, product);
            timesInverseDiagonal(product, solution);
            value = std::sqrt(squaredNorm(solution));
        }
        largestEigenvalue = float(value) * kEigenvalueMargin;
    }
    /// Two Chebyshev steps on right - A solution; `fromZero` spares the first product.
    void smooth(bool fromZero) {
        const float high = largestEigenvalue, low = high / kSmoothedRange;
        const float middle = 0.5F * (high + low), half = 0.5F * (high - low);
        const float sigma = middle / half;
        const float rhoOld = 1 / sigma, rho = 1 / (2 * sigma - rhoOld);
        if (!fromZero) multiply(solution, product);
        overNodes(nodes(), [&](std::size_t begin, std::size_t end) {
            for (std::size_t n = begin; n < end; ++n) {
                float z[3];
                for (std::size_t i = 3 * n; i < 3 * n + 3; ++i)
                    residual[i] = fromZero ? right[i] : right[i] - product[i];
                block(n, residual.data() + 3 * n, z);
                for (std::size_t k = 0; k < 3; ++k) {
                    step[3 * n + k] = z[k] / middle;
                    solution[3 * n + k] = (fromZero ? 0.0F : solution[3 * n + k]) + step[3 * n + k];
                }
            }
        });
        multiply(step, product);
        overNodes(nodes(), [&](std::size_t begin, std::size_t end) {
            for (std::size_t n = begin; n < end; ++n) {
                float z[3];
                for (std::size_t i = 3 * n; i < 3 * n + 3; ++i)
                    residual[i] -= product[i];
                block(n, residual.data() + 3 * n, z);
                for (std::size_t k = 0; k < 3; ++k)
                    solution[3 * n + k] += rho * rhoOld * step[3 * n + k] + 2 * rho / half * z[k];
            }
        });
    }
};

Multigrid::~Multigrid() = default;

Multigrid::Multigrid(const Lattice& lattice, const Task& task) {
    LevelMesh mesh = finestLevel(lattice);
    const double bottomWork = std::max(kBottomWork, kBottomWorkPerUnknown * double(lattice.unknowns()));
    while (true) {
        task.check();
        levels_.push_back(std::make_unique<Level>());
        Level& level = *levels_.back();
        level.prepare(mesh);
        const bool cheap = BottomSolver::workFor(mesh.nodeAt) < bottomWork;
        LevelMesh coarse;
        if (cheap || !coarsen(mesh, coarse, level.interpolation, task)) {
            bottom_ = std::make_unique<BottomSolver>(mesh.nodeAt, mesh.elements, mesh.matrices, task);
            break;
        }
        level.restriction = transposed(level.interpolation, coarse.nodeAt.size());
        level.findLargestEigenvalue();
        mesh = std::move(coarse);
    }
}

const PartedElements& Multigrid::elements() const {
    return levels_.front()->elements;
}

void Multigrid::cycle(std::size_t index) {
    Level& level = *levels_[index];
    if (index + 1 == levels_.size()) {
        bottom_->solve(level.right.data(), level.solution.data());
        return;
    }
    level.smooth(true);
    level.multiply(level.solution, level.product);
    Level& coarse = *levels_[index + 1];
    overNodes(level.nodes(), [&](std::size_t begin, std::size_t end) {
        for (std::size_t i = 3 * begin; i < 3 * end; ++i)
            level.residual[i] = level.right[i] - level.product[i];
    });
    gather(level.restriction, level.residual, coarse.right, false);
    cycle(index + 1);
    gather(level.interpolation, coarse.solution, level.solution, true);
    level.smooth(false);
}

void Multigrid::apply(const std::vector<double>& r, std::vector<double>& z) {
    // Scaled to unit size: single precision must not over- or underflow for tiny or huge loads.
    double largest = 0;
    for (double x : r)
        largest = std::max(largest, std::abs(x));
    if (!(largest > 0)) {
        std::fill(z.begin(), z.end(), 0.0);
        return;
    }
    Level& top = *levels_.front();
    for (std::size_t i = 0; i < r.size(); ++i)
        top.right[i] = float(r[i] / largest);
    cycle(0);
    for (std::size_t i = 0; i < r.size(); ++i)
        z[i] = double(top.solution[i]) * largest;
}

}  // namespace waybench::statics
