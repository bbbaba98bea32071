// Prints the solver beside second-order tetrahedra (tests/checks/reference_solids): deflection, band, size, time, and
// how many times the peer's mesh and solution took on the machine that made the reference. Run by hand.

#include <algorithm>
#include <chrono>
#include <cstdio>

#include "tests/structure/reference_solids.h"

int main(int argc, char** argv) {
    using namespace waybench;
    using Clock = std::chrono::steady_clock;
    const auto since = [](Clock::time_point t) { return std::chrono::duration<double>(Clock::now() - t).count(); };
    std::printf("%-16s %10s %10s %7s %6s %8s %3s %7s | %7s %6s %7s | %7s %6s %6s\n", "part", "reference", "got",
                "error", "band", "unknowns", "it", "s", "coarse", "band", "s", "peer s", "ratio", "first");
    std::vector<double> errors, ratios;
    int held = 0, all = 0;
    for (const auto& entry : testing::referenceSolidEntries()) {
        if (argc > 1 && entry.at("name") != argv[1]) continue;
        const auto started = Clock::now();
        testing::ReferenceSolid r = testing::referenceSolid(entry);
        const double reading = since(started);
        Resolution coarse;
        coarse.fidelity = Fidelity::draft;
        auto clock = Clock::now();
        const StructureAnswer draft = r.solve(coarse);
        const double first = reading + since(clock);
        clock = Clock::now();
        const StructureAnswer a = r.solve();
        const double whole = reading + since(clock);
        const auto error = [&](const StructureAnswer& x) { return 100 * (x.deflection.value / r.deflection_mm - 1); };
        const auto holds = [&](const StructureAnswer& x) {
            return x.deflection.low <= r.deflection_mm && x.deflection.high >= r.deflection_mm;
        };
        std::printf(
            "%-16s %10.5g %10.5g %+6.2f%% %5.1f%%%c %8zu %3d %7.2f | %+6.1f%% %5.1f%%%c %6.2f | %7.2f %6.1f %6.1f\n",
            r.name.c_str(), r.deflection_mm, a.deflection.value, error(a), 100 * a.deflection.relativeAbove(),
            holds(a) ? ' ' : '!', a.unknowns, a.iterations, whole, error(draft), 100 * draft.deflection.relativeAbove(),
            holds(draft) ? ' ' : '!', first, r.peerSeconds, r.peerSeconds / whole, r.peerSeconds / first);
        std::fflush(stdout);
        errors.push_back(std::abs(error(a)));
        ratios.push_back(r.peerSeconds / whole);
        held += int(holds(a)) + int(holds(draft));
        all += 2;
    }
    if (errors.empty()) return 1;
    std::sort(errors.begin(), errors.end());
    std::sort(ratios.begin(), ratios.end());
    std::printf("median error %.2f %%, worst %.2f %%; bands hold %d of %d; median speed ratio %.1f, least %.1f\n",
                errors[errors.size() / 2], errors.back(), held, all, ratios[ratios.size() / 2], ratios.front());
}
