#include <unistd.h>

#include <catch2/catch.hpp>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <functional>
#include <nlohmann/json.hpp>

#include "core/comparison/ways_up.h"
#include "tests/comparison/fake_outcome.h"
#include "tests/project/sample_project.h"

using namespace waybench;
using namespace waybench::testing;
using Document = nlohmann::ordered_json;
namespace fs = std::filesystem;

namespace {

bool validatorRuns() {
    static const bool runs = std::system("python3 -c 'import jsonschema' >/dev/null 2>&1") == 0;
    if (!runs) WARN("python3-jsonschema is not installed: schema not checked");
    return runs;
}

/// Judged by the reference library python3-jsonschema through tests/checks/validate_json.py.
bool isValid(const std::string& schema, const std::string& text) {
    const fs::path file = fs::temp_directory_path() / ("waybench-schema-" + std::to_string(::getpid()) + ".json");
    std::ofstream(file, std::ios::binary) << text;
    const std::string source = WAYBENCH_SOURCE;
    const std::string command = "python3 '" + source + "/tests/checks/validate_json.py' '" + source +
                                "/resources/schema/" + schema + ".schema.json' '" + file.string() + "' >/dev/null 2>&1";
    const int status = std::system(command.c_str());
    fs::remove(file);
    return status == 0;
}

std::string comparisonText(const std::function<void(Document&)>& change = {}) {
    Comparison c = fakeComparison();
    c.part = sampleProject().parts[1];
    judge(c);
    Document d = Document::parse(comparisonJson(c));
    if (change) change(d);
    return d.dump();
}

}  // namespace

TEST_CASE("the ranking of the ways up agrees with its schema") {
    if (!validatorRuns()) return;
    const Shop shop = readShop(resourceFolder());
    const Project demo = readProject(std::string(WAYBENCH_SOURCE) + "/demo/hinge_endurance_rig.waybench");
    const Part& part = demo.part("calibration bar");
    const std::string text = waysUpJson(part, waysUp(part, demo.folder(), shop, shop.tariffs.front().key, Task()));
    CHECK(isValid("ways_up", text));
    Document d = Document::parse(text);
    d["ways"][0].erase("why");
    CHECK_FALSE(isValid("ways_up", d.dump()));
}

TEST_CASE("the project file agrees with its schema") {
    if (!validatorRuns()) return;
    const std::string text = projectJson(sampleProject());
    CHECK(isValid("project", text));
    Document d = Document::parse(text);
    d["parts"][0]["load_case"]["loads"][0].erase("force_N");
    CHECK_FALSE(isValid("project", d.dump()));
    d = Document::parse(text);
    d["parts"][0]["load_case"]["deflection_limit_mm"] = "0.1 mm";
    CHECK_FALSE(isValid("project", d.dump()));
}

TEST_CASE("the schema takes one load case or a list of several, not both and not none") {
    if (!validatorRuns()) return;
    Document d = Document::parse(projectJson(sampleProject()));
    d["parts"][3]["load_case"] = d["parts"][0]["load_case"];
    CHECK_FALSE(isValid("project", d.dump()));
    d["parts"][3].erase("load_cases");
    CHECK(isValid("project", d.dump()));
    d["parts"][3].erase("load_case");
    CHECK_FALSE(isValid("project", d.dump()));
}

TEST_CASE("the comparison document agrees with its schema") {
    if (!validatorRuns()) return;
    CHECK(isValid("comparison", comparisonText()));
    Comparison several = fakeComparison();
    several.part = sampleProject().parts[3];
    for (RouteOutcome* outcome : {&several.printed, &several.machined})
        for (const LoadCase& loadCase : several.part.loadCases()) {
            CaseAnswer answer;
            answer.loadCase = loadCase;
            for (const QuestionText& q : questions())
                if (hangsOnLoads(q.question)) answer.figures[q.question] = outcome->at(q.question);
            outcome->cases.push_back(answer);
        }
    judge(several);
    CHECK(isValid("comparison", comparisonJson(several)));
}

TEST_CASE("the validator sees what is wrong with a comparison") {
    if (!validatorRuns()) return;
    const auto breaks = [](const std::function<void(Document&)>& change) {
        CHECK_FALSE(isValid("comparison", comparisonText(change)));
    };
    breaks([](Document& d) { d["routes"]["printed"].erase("cost"); });
    breaks([](Document& d) { d["routes"]["printed"]["cost"]["low"] = 1e6; });
    breaks([](Document& d) { d["routes"]["printed"]["cost"]["unit"] = "g"; });
    breaks([](Document& d) { d["routes"]["machined"]["steps"][0]["seconds"] = 601; });
    breaks([](Document& d) { d["routes"]["machined"]["stock"]["value"] = 120.2; });
    breaks([](Document& d) { d["routes"]["machined"]["feasible"] = false; });
    breaks([](Document& d) { d["verdict"]["choice"] = "both"; });
}
