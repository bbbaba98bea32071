#include <catch2/catch.hpp>
#include <mutex>
#include <set>

#include "core/comparison/evaluator.h"
#include "tests/comparison/fake_outcome.h"

using namespace waybench;
using namespace waybench::testing;

TEST_CASE("a sweep shows its ends, then its middle, then its quarters") {
    std::vector<double> seen;
    const Sweep s = sweepBy(cubicLaw(), fakePart(), thickness(), 4, 12, 5, Fidelity::draft, Task(),
                            [&](const SweepPoint& p) { seen.push_back(p.at); });
    CHECK(seen == std::vector<double>{4, 12, 8, 6, 10});
    REQUIRE(s.points.size() == 5);
    for (std::size_t i = 1; i < 5; ++i)
        CHECK(s.points[i].at > s.points[i - 1].at);
}

TEST_CASE("a cancelled sweep returns the points already done") {
    Task task;
    int done = 0;
    const Sweep s =
        sweepBy(cubicLaw(), fakePart(), thickness(), 4, 12, 9, Fidelity::draft, task, [&](const SweepPoint&) {
            if (++done == 3) task.cancel();
        });
    CHECK(s.points.size() == 3);
}

TEST_CASE("a place the part cannot be built at stays as a point with its reason") {
    const Evaluator law = cubicLaw();
    const Evaluator brittle = [&](const Part& part, RouteKind kind, Fidelity f, const Task& t) {
        if (part.shape.dimensions.at("thickness") > 9)
            throw InputFault("face_not_found", "", "hold 1", "the box takes no surface", "enlarge the box");
        return law(part, kind, f, t);
    };
    const Sweep s = sweepBy(brittle, fakePart(), thickness(), 4, 12, 5, Fidelity::draft, Task());
    REQUIRE(s.points.size() == 5);
    CHECK(s.points[2].valid);
    CHECK_FALSE(s.points[3].valid);
    CHECK(s.points[3].why.find("enlarge the box") != std::string::npos);
    const std::string csv = sweepCsv(s);
    CHECK(csv.find("enlarge the box") != std::string::npos);
}

TEST_CASE("a dimension of one route leaves the other as it was and computes it once") {
    int printedCalls = 0, machinedCalls = 0;
    Variable v = thickness();
    v.name = "printed.thickness";
    const Sweep s =
        sweepBy(cubicLaw(64, &printedCalls, &machinedCalls), fakePart(), v, 4, 12, 5, Fidelity::draft, Task());
    CHECK(printedCalls == 5);
    CHECK(machinedCalls == 1);
    for (const SweepPoint& p : s.points)
        CHECK(p.comparison.machined.at(Question::deflection).value ==
              s.points[0].comparison.machined.at(Question::deflection).value);
}

TEST_CASE("a dimension of both routes replaces what a route had of its own") {
    Part part = fakePart();
    part.printedDimensions["thickness"] = 12;
    const Part varied = with(part, thickness(), 6);
    CHECK(varied.printedDimensions.empty());
    CHECK(varied.shape.dimensions.at("thickness") == 6);
}

TEST_CASE("load, temperature and limit vary the load case and nothing else") {
    const Part part = fakePart();
    const auto all = variablesOf(part, Shop{});
    CHECK(all.front().name == "thickness");
    CHECK(with(part, variableNamed(all, "load"), 2).loadCase.loads[0].vector.z() == -80);
    CHECK(with(part, variableNamed(all, "temperature"), 60).loadCase.temperature_celsius == 60);
    CHECK(with(part, variableNamed(all, "limit"), 0.3).loadCase.deflectionLimit_mm == 0.3);
    CHECK(with(part, variableNamed(all, "load"), 1) == part);
    for (const Variable& v : all) {
        INFO(v.name);
        CHECK(v.minimum < v.maximum);
        if (v.current >= v.minimum && v.current <= v.maximum) {
            const Part same = with(part, v, v.current);
            CHECK(same.recipe == part.recipe);
            CHECK(same.plan == part.plan);
        }
    }
}

TEST_CASE("unknown variables and empty ranges are refused by name") {
    const Part part = fakePart();
    CHECK_THROWS_AS(variableNamed(variablesOf(part, Shop{}), "thicknes"), InputFault);
    CHECK_THROWS_AS(with(part, thickness(), 1e9), InputFault);
    CHECK_THROWS_AS(with(part, thickness(), NAN), InputFault);
    CHECK_THROWS_AS(sweepBy(cubicLaw(), part, thickness(), 5, 5, 3, Fidelity::draft, Task()), InputFault);
    CHECK_THROWS_AS(sweepBy(cubicLaw(), part, thickness(), 4, 5, 1, Fidelity::draft, Task()), InputFault);
}

TEST_CASE("progress of a sweep only grows and ends at one") {
    Task task;
    double last = 0;
    sweepBy(cubicLaw(), fakePart(), thickness(), 4, 12, 9, Fidelity::draft, task, [&](const SweepPoint&) {
        CHECK(task.progress() >= last);
        last = task.progress();
    });
    CHECK(task.progress() == Approx(1));
}

TEST_CASE("sweep CSV is RFC 4180 with units in the header and one line a point") {
    const std::string csv = sweepCsv(sweepBy(cubicLaw(), fakePart(), thickness(), 4, 12, 3, Fidelity::draft, Task()));
    CHECK(csv.rfind("thickness [mm],valid,verdict,load case,printed deflection value [mm],", 0) == 0);
    std::size_t lines = 0, at = 0;
    while ((at = csv.find("\r\n", at)) != std::string::npos)
        ++lines, at += 2;
    CHECK(lines == 4);
    const std::string header = csv.substr(0, csv.find("\r\n"));
    const std::string first = csv.substr(header.size() + 2, csv.find("\r\n", header.size() + 2) - header.size() - 2);
    CHECK(std::count(header.begin(), header.end(), ',') == std::count(first.begin(), first.end(), ','));
}

namespace {

/// The closed form read through a coarse grid: off by a share that drifts slowly over the thickness.
Evaluator coarseLaw(std::vector<std::pair<Fidelity, double>>& asked, double drift) {
    const Evaluator law = cubicLaw();
    static std::mutex mutex;
    return [=, &asked](const Part& part, RouteKind kind, Fidelity fidelity, const Task& task) {
        RouteOutcome outcome = law(part, kind, Fidelity::standard, task);
        const double t = part.shape.dimensions.at("thickness");
        if (fidelity != Fidelity::standard) {
            Figure& deflection = outcome.figures[Question::deflection];
            deflection = deflection.times(0.9 + drift * std::sin(t)).widened(0.2, 0.2);
        }
        if (kind == RouteKind::printed) {
            const std::lock_guard lock(mutex);
            asked.emplace_back(fidelity, t);
        }
        return outcome;
    };
}

}  // namespace

TEST_CASE("a long sweep asks for few full answers and lifts the coarse ones between to the closed form") {
    std::vector<std::pair<Fidelity, double>> asked;
    const Evaluator law = coarseLaw(asked, 0.005);
    std::set<double> seen;
    const Sweep s = sweepBy(law, fakePart(), thickness(), 4, 12, 30, Fidelity::standard, Task(),
                            [&](const SweepPoint& p) { CHECK(seen.insert(p.at).second); });
    REQUIRE(s.points.size() == 30);
    CHECK(seen.size() == 30);
    CHECK(std::count_if(asked.begin(), asked.end(), [](const auto& a) { return a.first == Fidelity::standard; }) == 5);
    for (const SweepPoint& p : s.points) {
        INFO(p.at);
        const double exact = 64 / (p.at * p.at * p.at);  // cubicLaw
        const Figure& f = p.comparison.printed.at(Question::deflection);
        CHECK(f.value == Approx(exact).epsilon(0.01));
        CHECK(f.low < exact);
        CHECK(f.high > exact);
        CHECK(f.high - f.value >= 0.099 * exact);  // the full answer's own band stays, the coarse one's does not
        CHECK(f.high - f.value <= 0.115 * exact);
        for (const Requirement& r : p.comparison.printedRequirements)
            if (r.key == "deflection") CHECK(r.factor == Approx(f.value / 0.1));
    }
}

TEST_CASE("where coarse answers foretell each other badly, a sweep asks for more full ones and widens its bands") {
    std::vector<std::pair<Fidelity, double>> asked;
    const Evaluator law = coarseLaw(asked, 0.08);
    const Sweep s = sweepBy(law, fakePart(), thickness(), 4, 12, 30, Fidelity::standard, Task());
    CHECK(std::count_if(asked.begin(), asked.end(), [](const auto& a) { return a.first == Fidelity::standard; }) == 9);
    for (const SweepPoint& p : s.points) {
        INFO(p.at);
        const double exact = 64 / (p.at * p.at * p.at);
        const Figure& f = p.comparison.printed.at(Question::deflection);
        CHECK(f.low < exact);
        CHECK(f.high > exact);
    }
}

TEST_CASE("in a lifted sweep a route the variable leaves alone keeps its one full answer") {
    std::vector<std::pair<Fidelity, double>> asked;
    Variable v = thickness();
    v.name = "machined.thickness";
    const Sweep s = sweepBy(coarseLaw(asked, 0.08), fakePart(), v, 4, 12, 30, Fidelity::standard, Task());
    REQUIRE(asked.size() == 1);
    CHECK(asked[0].first == Fidelity::standard);
    for (const SweepPoint& p : s.points)
        CHECK(p.comparison.printed.at(Question::deflection).high ==
              s.points[0].comparison.printed.at(Question::deflection).high);
}
