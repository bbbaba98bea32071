#include "core/structure/multigrid.h"

#include <Eigen/LU>
#include <cmath>

#include "core/structure/coarsening.h"

namespace waybench::statics {

namespace {

// Multiplications the direct solver may cost, at least and per unknown of the finest grid: deeper bottoms need more
// iterations, higher ones a longer factorisation (measured on boxes, plates and bars).
constexpr double kBottomWork = 1.5e8, kBottomWorkPerUnknown = 4000;
constexpr int kPowerSteps = 16;
constexpr float kEigenvalueMargin = 1.3F, kSmoothedRange = 5.0F;

}  // namespace

struct Multigrid::Level {
    std::vector<ElementLink> elements;
    std::vector<float> matrices, inverseDiagonal;  // nine per node
    Interpolation interpolation;                   // from the next coarser level
    float largestEigenvalue = 1;
    std::vector<float> right, solution, residual, step, product;

    void multiply(const std::vector<float>& u, std::vector<float>& y) const {
        std::fill(y.begin(), y.end(), 0.0F);
        addProduct(elements, matrices.data(), u.data(), y.data());
    }
    void timesInverseDiagonal(const std::vector<float>& r, std::vector<float>& z) const {
        const std::size_t nodes = inverseDiagonal.size() / 9;
        for (std::size_t n = 0; n < nodes; ++n) {
            const float* d = inverseDiagonal.data() + 9 * n;
            const float* x = r.data() + 3 * n;
            for (std::size_t k = 0; k < 3; ++k)
                z[3 * n + k] = d[3 * k] * x[0] + d[3 * k + 1] * x[1] + d[3 * k + 2] * x[2];
        }
    }
    void prepare(const LevelMesh& mesh) {
        elements = mesh.elements;
        matrices.assign(mesh.matrices.begin(), mesh.matrices.end());
        const std::size_t nodes = mesh.nodeAt.size();
        std::vector<Mat3> diagonal(nodes, Mat3::Zero());
        for (const ElementLink& e : elements)
            for (int a = 0; a < 8; ++a)
                diagonal[std::size_t(e.node[std::size_t(a)])] +=
                    Eigen::Map<const Matrix24>(mesh.matrices.data() + 576 * std::size_t(e.matrix))
                        .block<3, 3>(3 * a, 3 * a);
        double stiffest = 0;
        for (const Mat3& d : diagonal)
            stiffest = std::max(stiffest, d.trace());
        inverseDiagonal.resize(9 * nodes);
        for (std::size_t n = 0; n < nodes; ++n) {
            Mat3 d = diagonal[n];
            d.diagonal().array() += 1e-5 * d.trace() + 1e-12 * stiffest;
            const Mat3 inverse = d.inverse();
            for (int i = 0; i < 3; ++i)
                for (int j = 0; j < 3; ++j)
                    inverseDiagonal[9 * n + std::size_t(3 * i + j)] = float(inverse(i, j));
        }
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
            double norm = 0;
            for (float x : solution)
                norm += double(x) * double(x);
            norm = std::sqrt(norm);
            if (!(norm > 0)) break;
            for (float& x : solution)
                x = float(x / norm);
            multiply(solution, product);
            timesInverseDiagonal(product, solution);
            double next = 0;
            for (float x : solution)
                next += double(x) * double(x);
            value = std::sqrt(next);
        }
        largestEigenvalue = float(value) * kEigenvalueMargin;
    }
    /// Two Chebyshev steps on right - A solution; `fromZero` spares the first product.
    void smooth(bool fromZero) {
        const float high = largestEigenvalue, low = high / kSmoothedRange;
        const float middle = 0.5F * (high + low), half = 0.5F * (high - low);
        const std::size_t n = right.size();
        if (fromZero) {
            std::fill(solution.begin(), solution.end(), 0.0F);
            residual = right;
        } else {
            multiply(solution, product);
            for (std::size_t i = 0; i < n; ++i)
                residual[i] = right[i] - product[i];
        }
        timesInverseDiagonal(residual, step);
        for (std::size_t i = 0; i < n; ++i)
            step[i] /= middle;
        const float sigma = middle / half;
        const float rhoOld = 1 / sigma, rho = 1 / (2 * sigma - rhoOld);
        for (std::size_t i = 0; i < n; ++i)
            solution[i] += step[i];
        multiply(step, product);
        for (std::size_t i = 0; i < n; ++i)
            residual[i] -= product[i];
        timesInverseDiagonal(residual, product);
        for (std::size_t i = 0; i < n; ++i)
            solution[i] += rho * rhoOld * step[i] + 2 * rho / half * product[i];
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
        level.findLargestEigenvalue();
        mesh = std::move(coarse);
    }
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
    std::fill(coarse.right.begin(), coarse.right.end(), 0.0F);
    const Interpolation& p = level.interpolation;
    const std::size_t nodes = p.start.size() - 1;
    for (std::size_t n = 0; n < nodes; ++n)
        for (auto i = std::size_t(p.start[n]); i < std::size_t(p.start[n + 1]); ++i)
            for (std::size_t k = 0; k < 3; ++k)
                coarse.right[3 * std::size_t(p.coarse[i]) + k] +=
                    p.weight[i] * (level.right[3 * n + k] - level.product[3 * n + k]);
    cycle(index + 1);
    for (std::size_t n = 0; n < nodes; ++n)
        for (auto i = std::size_t(p.start[n]); i < std::size_t(p.start[n + 1]); ++i)
            for (std::size_t k = 0; k < 3; ++k)
                level.solution[3 * n + k] += p.weight[i] * coarse.solution[3 * std::size_t(p.coarse[i]) + k];
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
