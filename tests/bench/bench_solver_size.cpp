// Prints how time, memory and iterations of the solver grow with the number of unknowns, on a plate with bores, with
// one thread and with all. Run by hand: waybench_size_measurements [largest size in millions of unknowns, 3; 10 takes
// minutes and 3 GB]

#include <sys/resource.h>

#include <chrono>
#include <cmath>
#include <cstdio>
#include <cstdlib>

#include "core/progress/thread_team.h"
#include "tests/structure/reference_cases.h"

namespace {

using namespace waybench;
using namespace waybench::statics;
using namespace waybench::testing;

double peakMegabytes() {
    rusage usage{};
    getrusage(RUSAGE_SELF, &usage);
    return double(usage.ru_maxrss) / 1024;
}

Problem boredPlate() {
    Problem p;
    p.mesh = extruded({{{-60, -30}, {60, -30}, {60, 30}, {-60, 30}},
                       circle(3.3, 48, true),
                       circle(11, 64, true, {-40, 0}),
                       circle(11, 64, true, {40, 0}),
                       circle(3.3, 48, true, {0, 20}),
                       circle(3.3, 48, true, {0, -20})},
                      10);
    p.law = isotropicLaw(70000, 0.33);
    p.supports.push_back({facetsOn(p.mesh, 0, -60)});
    const auto end = facetsOn(p.mesh, 0, 60);
    p.tractions = {evenForce(p.mesh, end, {0, 0, -100})};
    p.measured = end;
    return p;
}

}  // namespace

int main(int argc, char** argv) {
    const double most = argc > 1 ? std::atof(argv[1]) : 3;
    const Problem problem = boredPlate();
    const double volume = volumeOf(problem.mesh);
    std::printf("%10s %4s | %8s %8s %6s | %12s %14s\n", "unknowns", "it", "1 thread", "all", "gain", "unknowns/s",
                "bytes/unknown");
    for (const double millions : {0.02, 0.1, 0.3, 1.0, 3.0, 10.0}) {
        if (millions > most) break;
        const double spacing = std::cbrt(3 * volume / (1e6 * millions)) * (millions < 0.1 ? 1.15 : 1.05);
        const Grid grid = snappedGrid(boundsOf(problem.mesh), axisParallelPlanes(problem.mesh), spacing);
        double seconds[2] = {0, 0};
        std::size_t unknowns = 0;
        int iterations = 0;
        for (const std::size_t threads : {std::size_t(0), std::size_t(1)}) {
            setMostThreads(threads);
            const auto started = std::chrono::steady_clock::now();
            const Equilibrium e = solveOnGrid(problem, grid, 1e-5, nullptr, Task());
            seconds[threads] = std::chrono::duration<double>(std::chrono::steady_clock::now() - started).count();
            unknowns = e.lattice.unknowns();
            iterations = e.iterations;
        }
        std::printf("%10zu %4d | %7.2fs %7.2fs %6.2f | %12.0f %14.0f\n", unknowns, iterations, seconds[1], seconds[0],
                    seconds[1] / seconds[0], double(unknowns) / seconds[0],
                    peakMegabytes() * 1048576 / double(unknowns));
        std::fflush(stdout);
    }
}
