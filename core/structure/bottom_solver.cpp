#include "core/structure/bottom_solver.h"

#include <Eigen/Cholesky>
#include <algorithm>

namespace waybench::statics {

namespace {

std::vector<std::vector<std::int32_t>> planesAlong(std::size_t axis, const std::vector<Index3>& nodeAt) {
    int last = 0;
    for (const Index3& n : nodeAt)
        last = std::max(last, n[axis]);
    std::vector<std::vector<std::int32_t>> planes(std::size_t(last) + 1);
    for (std::size_t n = 0; n < nodeAt.size(); ++n)
        planes[std::size_t(nodeAt[n][axis])].push_back(std::int32_t(n));
    return planes;
}

double workAlong(std::size_t axis, const std::vector<Index3>& nodeAt) {
    double work = 0;
    for (const auto& plane : planesAlong(axis, nodeAt)) {
        const double size = 3.0 * double(plane.size());
        work += 2.4 * size * size * size;
    }
    return work;
}

std::size_t bestAxis(const std::vector<Index3>& nodeAt) {
    std::size_t best = 0;
    for (std::size_t axis = 1; axis < 3; ++axis)
        if (workAlong(axis, nodeAt) < workAlong(best, nodeAt)) best = axis;
    return best;
}

}  // namespace

double BottomSolver::workFor(const std::vector<Index3>& nodeAt) {
    return workAlong(bestAxis(nodeAt), nodeAt);
}

BottomSolver::BottomSolver(const std::vector<Index3>& nodeAt, const std::vector<ElementLink>& elements,
                           const std::vector<double>& matrices, const Task& task) {
    const std::size_t axis = bestAxis(nodeAt);
    plane_ = planesAlong(axis, nodeAt);
    std::vector<Eigen::Index> place(nodeAt.size());
    for (const auto& plane : plane_)
        for (std::size_t i = 0; i < plane.size(); ++i)
            place[std::size_t(plane[i])] = Eigen::Index(3 * i);
    std::vector<Eigen::MatrixXd> diagonal, coupling;
    for (std::size_t p = 0; p < plane_.size(); ++p) {
        const auto size = Eigen::Index(3 * plane_[p].size());
        diagonal.push_back(Eigen::MatrixXd::Zero(size, size));
        coupling.push_back(p == 0 ? Eigen::MatrixXd()
                                  : Eigen::MatrixXd::Zero(size, Eigen::Index(3 * plane_[p - 1].size())));
    }
    for (const ElementLink& e : elements) {
        const Eigen::Map<const Eigen::Matrix<double, 24, 24>> k(matrices.data() + 576 * std::size_t(e.matrix));
        for (int a = 0; a < 8; ++a)
            for (int b = 0; b < 8; ++b) {
                const auto na = std::size_t(e.node[std::size_t(a)]), nb = std::size_t(e.node[std::size_t(b)]);
                const auto pa = std::size_t(nodeAt[na][axis]), pb = std::size_t(nodeAt[nb][axis]);
                if (pa == pb) diagonal[pa].block<3, 3>(place[na], place[nb]) += k.block<3, 3>(3 * a, 3 * b);
                if (pa == pb + 1) coupling[pa].block<3, 3>(place[na], place[nb]) += k.block<3, 3>(3 * a, 3 * b);
            }
    }
    for (std::size_t p = 0; p < plane_.size(); ++p) {
        task.check();
        if (plane_[p].empty()) continue;
        // A trace of extra stiffness keeps the factorisation alive under rounding; it only preconditions.
        diagonal[p].diagonal() *= 1 + 1e-9;
        if (p > 0 && !plane_[p - 1].empty()) {
            // coupling := B L^-T, diagonal -= that * its transpose
            coupling[p] =
                diagonal[p - 1].triangularView<Eigen::Lower>().solve(coupling[p].transpose().eval()).transpose().eval();
            diagonal[p].selfadjointView<Eigen::Lower>().rankUpdate(coupling[p], -1.0);
        }
        Eigen::LLT<Eigen::MatrixXd> factor(diagonal[p]);
        for (double lift = 1e-8; factor.info() != Eigen::Success && lift < 1; lift *= 10) {
            diagonal[p].diagonal().array() += lift * diagonal[p].diagonal().cwiseAbs().maxCoeff();
            factor.compute(diagonal[p]);
        }
        diagonal[p] = factor.matrixL();
    }
    for (std::size_t p = 0; p < plane_.size(); ++p) {
        diagonal_.push_back(diagonal[p].cast<float>());
        coupling_.push_back(coupling[p].cast<float>());
    }
}

void BottomSolver::solve(const float* right, float* solution) const {
    std::vector<Eigen::VectorXf> part(plane_.size());
    for (std::size_t p = 0; p < plane_.size(); ++p) {
        part[p].resize(Eigen::Index(3 * plane_[p].size()));
        for (std::size_t i = 0; i < plane_[p].size(); ++i)
            for (std::size_t k = 0; k < 3; ++k)
                part[p][Eigen::Index(3 * i + k)] = right[3 * std::size_t(plane_[p][i]) + k];
        if (p > 0 && part[p].size() > 0 && part[p - 1].size() > 0) part[p].noalias() -= coupling_[p] * part[p - 1];
        if (part[p].size() > 0) diagonal_[p].triangularView<Eigen::Lower>().solveInPlace(part[p]);
    }
    for (std::size_t p = plane_.size(); p-- > 0;) {
        if (p + 1 < plane_.size() && part[p].size() > 0 && part[p + 1].size() > 0)
            part[p].noalias() -= coupling_[p + 1].transpose() * part[p + 1];
        if (part[p].size() > 0) diagonal_[p].triangularView<Eigen::Lower>().transpose().solveInPlace(part[p]);
        for (std::size_t i = 0; i < plane_[p].size(); ++i)
            for (std::size_t k = 0; k < 3; ++k)
                solution[3 * std::size_t(plane_[p][i]) + k] = part[p][Eigen::Index(3 * i + k)];
    }
}

}  // namespace waybench::statics
