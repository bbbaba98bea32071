// Prints how far the structural solver is from the reference cases, how wide its band, how large and how long.
// Not a test: run waybench_measurements by hand.

#include <chrono>
#include <cstdio>
#include <fstream>
#include <nlohmann/json.hpp>

#include "tests/structure/reference_cases.h"

namespace {

/// Cases of the collection that are not run here, and why.
constexpr const char* kLeftOut[][2] = {
    {"S20", "rests on the mid-height line of a round rim; holds are faces"},
    {"S23a", "peak stress at a bore's edge; stress is averaged over a ball, by design"},
    {"S23b", "as S23a"},
    {"S24", "twist between two inner sections and a peak stress; neither is an answer of the solver"},
    {"S30", "stress at a corner point; stress is averaged over a ball"},
    {"S31", "as S30"},
    {"S34", "creep is a factor on the modulus, checked in check_materials"},
    {"S35", "buckling is not computed"},
    {"S36", "run as a patch test in tests/structure"},
};

}  // namespace

int main(int argc, char** argv) {
    using namespace waybench;
    const auto file = nlohmann::json::parse(std::ifstream(WAYBENCH_SOURCE "/tests/checks/structural_cases.json"));
    std::printf("%-5s %-58s %11s %11s %8s %8s %9s %4s %8s\n", "case", "quantity", "expected", "got", "error", "band",
                "unknowns", "it", "seconds");
    for (const auto& entry : file.at("cases")) {
        const std::string id = entry.at("id");
        if (argc > 1 && id != argv[1]) continue;
        const auto started = std::chrono::steady_clock::now();
        const testing::CaseRun run = testing::referenceCases().at(id)();
        const double seconds = std::chrono::duration<double>(std::chrono::steady_clock::now() - started).count();
        for (const auto& q : entry.at("quantities")) {
            const std::string name = q.at("name");
            const double expected = q.contains("solid") ? q.at("solid") : q.at("theory"), got = run.got.at(name);
            std::printf("%-5s %-58s %11.5g %11.5g %+7.2f%%", id.c_str(), name.c_str(), expected, got,
                        100 * (got / expected - 1));
            const auto asked = run.answer.find(name);
            if (asked != run.answer.end())
                std::printf(" %7.2f%% %9zu %4d %8.3f\n", 100 * asked->second.deflection.relativeAbove(),
                            asked->second.unknowns, asked->second.iterations, asked->second.seconds);
            else
                std::printf(" %8s %9s %4s %8.3f\n", "-", "-", "-", seconds);
        }
    }
    for (const auto& [id, why] : kLeftOut)
        if (argc <= 1) std::printf("%-5s left out: %s\n", id, why);
}
