// Prints the solver beside second-order tetrahedra (tests/checks/reference_solids): deflection, band, size, time, and
// how many times the peer's mesh and solution took on the machine that made the reference. Run by hand:
//   waybench_reference_measurements [part]
//   waybench_reference_measurements --figures part draft|standard   one answer as JSON, for side_by_side.py

#include <algorithm>
#include <chrono>
#include <cstdio>
#include <string>

#include "tests/structure/reference_solids.h"

namespace {

using namespace waybench;
using Clock = std::chrono::steady_clock;

double since(Clock::time_point t) {
    return std::chrono::duration<double>(Clock::now() - t).count();
}

/// One answer from the STEP file, with the time it took from opening the file.
struct Timed {
    StructureAnswer answer;
    double reference_mm = 0, peerSeconds = 0, seconds = 0;

    Timed(const nlohmann::json& entry, Fidelity fidelity) {
        Resolution resolution;
        resolution.fidelity = fidelity;
        const auto started = Clock::now();
        testing::ReferenceSolid r = testing::referenceSolid(entry);
        answer = r.solve(resolution);
        seconds = since(started);
        reference_mm = r.deflection_mm;
        peerSeconds = r.peerSeconds;
    }
    double error_percent() const { return 100 * (answer.deflection.value / reference_mm - 1); }
    double band_percent() const { return 100 * answer.deflection.relativeAbove(); }
    bool bandHolds() const { return answer.deflection.low <= reference_mm && answer.deflection.high >= reference_mm; }
};

int printFigures(const std::string& part, Fidelity fidelity) {
    for (const auto& entry : testing::referenceSolidEntries()) {
        if (entry.at("name") != part) continue;
        const Timed t(entry, fidelity);
        const nlohmann::json figures{{"error_percent", t.error_percent()}, {"band_percent", t.band_percent()},
                                     {"band_holds", t.bandHolds()},        {"unknowns", t.answer.unknowns},
                                     {"iterations", t.answer.iterations},  {"seconds", t.seconds}};
        std::printf("%s\n", figures.dump().c_str());
        return 0;
    }
    std::fprintf(stderr, "no reference solid %s\n", part.c_str());
    return 1;
}

}  // namespace

int main(int argc, char** argv) {
    if (argc == 4 && std::string(argv[1]) == "--figures")
        return printFigures(argv[2], argv[3] == std::string("draft") ? Fidelity::draft : Fidelity::standard);
    std::printf("%-16s %10s %10s %7s %6s %8s %3s %7s | %7s %6s %7s | %7s %6s %6s\n", "part", "reference", "got",
                "error", "band", "unknowns", "it", "s", "coarse", "band", "s", "peer s", "ratio", "first");
    std::vector<double> errors, ratios;
    int held = 0, all = 0;
    for (const auto& entry : testing::referenceSolidEntries()) {
        const std::string name = entry.at("name");
        if (argc > 1 && name != argv[1]) continue;
        const Timed draft(entry, Fidelity::draft), whole(entry, Fidelity::standard);
        std::printf(
            "%-16s %10.5g %10.5g %+6.2f%% %5.1f%%%c %8zu %3d %7.2f | %+6.1f%% %5.1f%%%c %6.2f | %7.2f %6.1f %6.1f\n",
            name.c_str(), whole.reference_mm, whole.answer.deflection.value, whole.error_percent(),
            whole.band_percent(), whole.bandHolds() ? ' ' : '!', whole.answer.unknowns, whole.answer.iterations,
            whole.seconds, draft.error_percent(), draft.band_percent(), draft.bandHolds() ? ' ' : '!', draft.seconds,
            whole.peerSeconds, whole.peerSeconds / whole.seconds, whole.peerSeconds / draft.seconds);
        std::fflush(stdout);
        errors.push_back(std::abs(whole.error_percent()));
        ratios.push_back(whole.peerSeconds / whole.seconds);
        held += int(whole.bandHolds()) + int(draft.bandHolds());
        all += 2;
    }
    if (errors.empty()) return 1;
    std::sort(errors.begin(), errors.end());
    std::sort(ratios.begin(), ratios.end());
    std::printf("median error %.2f %%, worst %.2f %%; bands hold %d of %d; median speed ratio %.1f, least %.1f\n",
                errors[errors.size() / 2], errors.back(), held, all, ratios[ratios.size() / 2], ratios.front());
}
