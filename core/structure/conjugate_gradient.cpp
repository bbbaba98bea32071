#include "core/structure/conjugate_gradient.h"

#include <cmath>
#include <numeric>

#include "core/fault/input_fault.h"
#include "core/progress/thread_team.h"

namespace waybench::statics {

namespace {

constexpr int kMostIterations = 1500;
constexpr double kRounding = 1e-13;  // residual, relative to the load, below which there is nothing left to solve

/// Steps whose energies are summed to estimate the error left before them.
std::size_t latestSteps(std::size_t iterations) {
    return 2 + iterations / 4;
}
constexpr std::size_t kShare = 1 << 15;

double dot(const std::vector<double>& a, const std::vector<double>& b) {
    return sumInShares(a.size(), kShare, [&](std::size_t begin, std::size_t end) {
        double sum = 0;
        for (std::size_t i = begin; i < end; ++i)
            sum += a[i] * b[i];
        return sum;
    });
}

}  // namespace

Solved solve(const Lattice& lattice, Multigrid& multigrid, const std::vector<double>& load, std::vector<double>& u,
             double tolerance, const Task& task) {
    const std::size_t n = lattice.unknowns();
    std::vector<double> r(n), z(n), p(n), ap(n), last(n);
    const auto multiply = [&](const std::vector<double>& x, std::vector<double>& y) {
        multigrid.elements().product(lattice.matrices.data(), x, y);
    };
    const double whole = std::sqrt(dot(load, load));
    Solved solved;
    u.resize(n, 0.0);
    if (!(whole > 0)) {
        std::fill(u.begin(), u.end(), 0.0);
        return solved;
    }
    multiply(u, ap);
    // A start is scaled to least energy, and dropped where even so it leaves more than it spares.
    const double energy = dot(u, ap);
    const double scale = energy > 0 ? dot(u, load) / energy : 0;
    for (std::size_t i = 0; i < n; ++i) {
        u[i] *= scale;
        r[i] = load[i] - scale * ap[i];
    }
    double found = energy > 0 ? scale * scale * energy : 0;
    if (!(std::sqrt(dot(r, r)) < whole)) {
        std::fill(u.begin(), u.end(), 0.0);
        r = load;
        found = 0;
    }
    double rzOld = 0;
    std::vector<double> gained;  // energy, in each step
    for (;; ++solved.iterations) {
        task.check();
        if (const std::size_t latest = latestSteps(gained.size()); gained.size() >= latest) {
            const double left = std::accumulate(gained.end() - std::ptrdiff_t(latest), gained.end(), 0.0);
            solved.error = std::sqrt(std::max(0.0, left) / found);
            if (solved.error <= tolerance) return solved;
            task.report(std::min(0.95, std::log(std::max(1.0, 1 / solved.error)) / std::log(1 / tolerance)));
        }
        const double residual = std::sqrt(dot(r, r)) / whole;
        if (residual < kRounding) return solved;
        if (!std::isfinite(residual) || solved.iterations >= kMostIterations)
            throw InputFault("solver_stalled", "", "body", "the equations of the structure could not be solved",
                             "check that the part is one closed body held against every motion, or use a finer grid");
        multigrid.apply(r, z);
        const double rz = dot(r, z);
        // Flexible form: single precision makes the preconditioner not quite the same every time.
        const double beta = solved.iterations == 0 ? 0 : (rz - dot(last, z)) / rzOld;
        inShares(n, kShare, [&](std::size_t begin, std::size_t end) {
            for (std::size_t i = begin; i < end; ++i)
                p[i] = z[i] + beta * p[i];
        });
        multiply(p, ap);
        const double alpha = rz / dot(p, ap);
        inShares(n, kShare, [&](std::size_t begin, std::size_t end) {
            for (std::size_t i = begin; i < end; ++i) {
                last[i] = r[i];
                u[i] += alpha * p[i];
                r[i] -= alpha * ap[i];
            }
        });
        rzOld = rz;
        gained.push_back(alpha * rz);
        found += alpha * rz;
    }
}

}  // namespace waybench::statics
