#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>
#include <random>

#include "core/bench/shop.h"
#include "core/comparison/judgement.h"
#include "core/comparison/ranking.h"
#include "core/comparison/solved_limit.h"
#include "core/fault/input_fault.h"
#include "tests/comparison/fake_outcome.h"

using namespace waybench;
using namespace waybench::testing;

namespace {

/// Invented figures of one load case.
struct Told {
    double deflection_mm, margin, kelvin = 40;
};

Part partWith(const std::vector<std::pair<double, double>>& limitAndFactor) {
    Part part = fakePart();
    const std::vector<std::string> names{"stop", "run", "hold", "creep"};
    for (std::size_t i = 0; i < limitAndFactor.size(); ++i) {
        LoadCase c = part.loadCase;
        c.name = names[i];
        std::tie(c.deflectionLimit_mm, c.strengthFactor) = limitAndFactor[i];
        if (i == 0)
            part.loadCase = c;
        else
            part.furtherLoadCases.push_back(c);
    }
    return part;
}

RouteOutcome outcomeWith(RouteKind kind, const Part& part, const std::vector<Told>& told) {
    RouteOutcome o = fakeOutcome(kind);
    for (std::size_t i = 0; i < told.size(); ++i) {
        CaseAnswer a;
        a.loadCase = part.loadCaseAt(i);
        for (const QuestionText& q : questions())
            if (hangsOnLoads(q.question)) a.figures[q.question] = o.at(q.question);
        a.figures[Question::deflection] = Figure::relative(told[i].deflection_mm, 0.1, 0.1, Unit::millimetre);
        a.figures[Question::strength_margin] = Figure::relative(told[i].margin, 0.1, 0.1, Unit::none);
        a.figures[Question::temperature_margin] = Figure::exact(told[i].kelvin, Unit::kelvin);
        a.workings[Question::deflection] = "invented, case " + std::to_string(i + 1);
        o.cases.push_back(a);
    }
    return o;
}

Comparison compared(const Part& part, const std::vector<Told>& printed, const std::vector<Told>& machined) {
    Comparison c;
    c.part = part;
    c.printed = outcomeWith(RouteKind::printed, part, printed);
    c.machined = outcomeWith(RouteKind::machined, part, machined);
    judge(c);
    return c;
}

/// A bar of the family, quick to compute, with a second load case of another load, measured face and hold.
Part realBar(bool withSecond) {
    Part part;
    part.name = "bar";
    part.shape.family = "bar";
    part.loadCase.name = "working load";
    part.loadCase.holds = {{FaceSelector::byName("end -x")}};
    part.loadCase.loads = {{LoadKind::force, FaceSelector::byName("end +x"), Vec3(0, 0, -5), 0}};
    part.loadCase.measuredFace = FaceSelector::byName("end +x");
    part.loadCase.measuredDirection = -Vec3::UnitZ();
    part.loadCase.deflectionLimit_mm = 1;
    LoadCase second = part.loadCase;
    second.name = "other way";
    second.holds = {{FaceSelector::byName("end +x")}};
    second.loads = {{LoadKind::force, FaceSelector::byName("end -x"), Vec3(0, 9, 0), 0}};
    second.measuredFace = FaceSelector::byName("end -x");
    second.measuredDirection = Vec3::UnitY();
    second.deflectionLimit_mm = 2;
    second.temperature_celsius = 40;
    if (withSecond)
        part.furtherLoadCases = {second};
    else
        part.loadCase = second;
    return part;
}

}  // namespace

TEST_CASE("the worst load case is the one with the greatest demand over capacity, and both routes show it") {
    const Part part = partWith({{0.1, 2}, {0.5, 2}, {0.2, 3}});
    // demands of the print: 0.5; 0.9; 3/4; of the machined part: small
    const Comparison c = compared(part, {{0.05, 8}, {0.45, 8}, {0.02, 4}}, {{0.01, 30}, {0.02, 30}, {0.01, 30}});
    CHECK(c.worstCase == 1);
    CHECK(c.printed.shownCase == 1);
    CHECK(c.machined.shownCase == 1);
    CHECK(c.printed.at(Question::deflection).value == 0.45);
    CHECK(c.machined.at(Question::deflection).value == 0.02);
    CHECK(c.printed.workings.at(Question::deflection) == "invented, case 2");
    // by strength: 3/2.5 = 1.2 beats 0.9
    CHECK(compared(part, {{0.05, 8}, {0.45, 8}, {0.02, 2.5}}, {{0.01, 30}, {0.02, 30}, {0.01, 30}}).worstCase == 2);
}

TEST_CASE("like is compared with like where the routes' own worst cases differ") {
    const Part part = partWith({{0.1, 2}, {0.1, 2}});
    const Comparison c = compared(part, {{0.08, 8}, {0.02, 8}}, {{0.01, 8}, {0.05, 8}});
    CHECK(worstCaseOf(c.printed) == 0);
    CHECK(worstCaseOf(c.machined) == 1);
    CHECK(c.worstCase == 0);
    const LedgerRow& row = c.ledger.front();
    CHECK(row.title == "deflection, stop");
    CHECK(row.printed.value == 0.08);
    CHECK(row.machined.value == 0.01);
    CHECK(row.ahead == LedgerRow::Ahead::machined);
    const LedgerRow& further = c.ledger.at(1);
    CHECK(further.title == "deflection, run");
    CHECK(further.isFurther);
    CHECK(further.printed.value == 0.02);
    CHECK(further.machined.value == 0.05);
    CHECK(further.ahead == LedgerRow::Ahead::not_ranked);
    // a further row of the deflection, which weighs nothing; strength and temperature are alike
    CHECK(c.ledger.size() == questions().size() + 1);
    CHECK(compared(part, {{0.08, 8, 40}, {0.02, 7, 30}}, {{0.01, 8}, {0.05, 8}}).ledger.size() ==
          questions().size() + 3);
    Comparison single = c;
    single.part.furtherLoadCases.clear();
    judgeShowing(single, 0);
    CHECK(rankingOf(single).weightSum == rankingOf(c).weightSum);
    CHECK(rankingOf(single).balance == rankingOf(c).balance);
}

TEST_CASE("every load case must hold, and the one that does not is named") {
    const Part part = partWith({{0.1, 2}, {0.5, 2}});
    const Comparison c = compared(part, {{0.05, 8}, {0.9, 8}}, {{0.01, 30}, {0.02, 30}});
    CHECK_FALSE(allPass(c.printedRequirements));
    CHECK(c.verdict.choice == Choice::machined);
    CHECK(c.verdict.sentence.find("'run'") != std::string::npos);
    CHECK(c.verdict.sentence.find("0.5 mm") != std::string::npos);
    REQUIRE(c.printedRequirements.size() == 8);
    CHECK(c.printedRequirements[0].standing == Standing::passes);
    CHECK(c.printedRequirements[1].standing == Standing::fails);
    CHECK(c.printedRequirements[1].loadCase == 1);
    CHECK(c.printedRequirements[1].factor == Approx(1.8));
    CHECK(c.printedRequirements[1].text.find("under 'run'") != std::string::npos);
    bool named = false;
    for (const std::string& reason : c.verdict.reasons)
        named = named || reason == "worst of 2 load cases: 'run'";
    CHECK(named);
}

TEST_CASE("heat is judged in each load case by itself") {
    const Part part = partWith({{0.1, 2}, {0.1, 2}});
    Comparison c = compared(part, {{0.05, 8, 30}, {0.05, 8, -5}}, {{0.01, 30}, {0.02, 30}});
    CHECK(c.printedRequirements[4].standing == Standing::passes);
    CHECK(c.printedRequirements[5].standing == Standing::fails);
    // a blocking warning speaks for its own load case
    c.printed.warnings.push_back(
        {"temperature_above_service", Severity::blocking, "[stop] 80 is above 60. Take other"});
    judge(c);
    CHECK(c.printedRequirements[4].standing == Standing::fails);
    CHECK(c.printedRequirements[5].text.find("80 is above") == std::string::npos);
}

TEST_CASE("load and limit vary in all load cases in proportion, the temperature by the same step") {
    Part part = partWith({{0.1, 2}, {0.4, 2}});
    part.loadCase.temperature_celsius = 20;
    part.furtherLoadCases[0].temperature_celsius = 60;
    part.furtherLoadCases[0].loads[0].vector = Vec3(10, 0, 0);
    const auto all = variablesOf(part, Shop{});
    CHECK(with(part, variableNamed(all, "load"), 3).furtherLoadCases[0].loads[0].vector == Vec3(30, 0, 0));
    const Part limited = with(part, variableNamed(all, "limit"), 0.2);
    CHECK(limited.loadCase.deflectionLimit_mm == 0.2);
    CHECK(limited.furtherLoadCases[0].deflectionLimit_mm == Approx(0.8));
    const Part warm = with(part, variableNamed(all, "temperature"), 30);
    CHECK(warm.loadCase.temperature_celsius == 30);
    CHECK(warm.furtherLoadCases[0].temperature_celsius == 70);
}

TEST_CASE("sizing and crossings hold in the load case that asks most, a curve is of one load case") {
    // deflections 64/t^3 and 16/t^2: the first asks most below 4 mm, the second above; limits alike 0.16
    const Part part = partWith({{0.16, 1}, {0.16, 1}});
    const Evaluator law = [](const Part& p, RouteKind kind, Fidelity, const Task&) {
        const double t = p.shape.dimensions.at("thickness");
        return outcomeWith(kind, p, {{64 / (t * t * t), 9}, {16 / (t * t), 9}});
    };
    const auto sized = solveForLimitBy(law, part, thickness(), RouteKind::printed, 2, 20, Fidelity::draft, Task());
    REQUIRE(sized);
    CHECK(sized->at == Approx(10).epsilon(0.002));
    const Sweep s = sweepBy(law, part, thickness(), 2, 20, 40, Fidelity::draft, Task());
    CHECK(s.shownCase == 0);
    for (const SweepPoint& point : s.points)
        CHECK(point.comparison.printed.at(Question::deflection).value == Approx(64 / std::pow(point.at, 3)));
    bool found = false;
    for (const Crossing& c : crossings(s, Question::deflection))
        if (c.route == RouteKind::printed) {
            found = true;
            CHECK(c.at == Approx(10).epsilon(0.01));
            CHECK(c.holdsAbove);
        }
    CHECK(found);
}

TEST_CASE("the document says every load case of both routes, and of one load case nothing new") {
    const Comparison c = compared(partWith({{0.1, 2}, {0.5, 2}}), {{0.05, 8}, {0.9, 8}}, {{0.01, 30}, {0.02, 30}});
    const auto d = nlohmann::json::parse(comparisonJson(c));
    CHECK(d["worst_load_case"] == "run");
    CHECK(d["further_load_cases"].size() == 1);
    CHECK(d["routes"]["printed"]["load_cases"].size() == 2);
    CHECK(d["routes"]["printed"]["load_cases"][1]["name"] == "run");
    CHECK(d["routes"]["printed"]["load_cases"][1]["deflection"]["value"] == 0.9);
    CHECK(d["routes"]["printed"]["load_cases"][1]["demand"] == 1.8);
    CHECK(d["routes"]["printed"]["requirements"][1]["load_case"] == "run");
    CHECK(d["ledger"][1]["load_case"] == "stop");
    const auto one = nlohmann::json::parse(comparisonJson(compared(partWith({{0.1, 2}}), {{0.05, 8}}, {{0.01, 30}})));
    CHECK_FALSE(one.contains("worst_load_case"));
    CHECK_FALSE(one.contains("further_load_cases"));
    CHECK_FALSE(one["ledger"][0].contains("load_case"));
}

TEST_CASE("property: all hold exactly when each alone does, whatever the order; the worst is the worst of each alone") {
    std::mt19937 random(5);
    const auto between = [&](double low, double high) { return low + (high - low) * double(random() % 1000) / 999; };
    for (int trial = 0; trial < 200; ++trial) {
        const std::size_t n = 1 + random() % 4;
        std::vector<std::pair<double, double>> asked;
        std::vector<Told> p, m;
        for (std::size_t i = 0; i < n; ++i) {
            asked.emplace_back(between(0.05, 0.5), between(1, 3));
            p.push_back({between(0.01, 0.5), between(1, 9), between(-10, 60)});
            m.push_back({between(0.01, 0.5), between(1, 9), between(-10, 60)});
        }
        const Comparison all = compared(partWith(asked), p, m);
        bool each = true;
        double worst = 0;
        for (std::size_t i = 0; i < n; ++i) {
            const Comparison alone = compared(partWith({asked[i]}), {p[i]}, {m[i]});
            each = each && allPass(alone.printedRequirements);
            worst = std::max({worst, demandOf(alone.printed.cases[0]), demandOf(alone.machined.cases[0])});
        }
        CHECK(allPass(all.printedRequirements) == each);
        CHECK(std::max(demandOf(all.printed.cases[all.worstCase]), demandOf(all.machined.cases[all.worstCase])) ==
              worst);
        std::reverse(asked.begin(), asked.end());
        std::reverse(p.begin(), p.end());
        std::reverse(m.begin(), m.end());
        CHECK(compared(partWith(asked), p, m).verdict.choice == all.verdict.choice);
    }
}

TEST_CASE("a load case among several gives the figures it gives alone, on both routes") {
    const Shop shop = readShop(WAYBENCH_SOURCE "/resources");
    const Comparison both = compare(realBar(true), {}, shop, "workshop", Fidelity::draft, Task());
    const Comparison second = compare(realBar(false), {}, shop, "workshop", Fidelity::draft, Task());
    for (const RouteKind route : {RouteKind::printed, RouteKind::machined}) {
        REQUIRE(both.outcome(route).cases.size() == 2);
        REQUIRE(second.outcome(route).cases.size() == 1);
        for (const QuestionText& q : questions()) {
            if (!hangsOnLoads(q.question)) continue;
            INFO(q.key);
            CHECK(both.outcome(route).at(q.question, 1).value == second.outcome(route).at(q.question).value);
            CHECK(both.outcome(route).at(q.question, 1).high == second.outcome(route).at(q.question).high);
        }
        CHECK(both.outcome(route).at(Question::cost).value == second.outcome(route).at(Question::cost).value);
    }
}

TEST_CASE("two load cases of one name, or one at fault, are refused by name") {
    const Shop shop = readShop(WAYBENCH_SOURCE "/resources");
    const auto faultOf = [&](const Part& part) {
        try {
            compare(part, {}, shop, "workshop", Fidelity::draft, Task());
        } catch (const InputFault& fault) {
            return fault.code() + " " + fault.place();
        }
        return std::string("none");
    };
    Part part = realBar(true);
    part.furtherLoadCases[0].name = part.loadCase.name;
    CHECK(faultOf(part).find("load_case_name_twice") == 0);
    part = realBar(true);
    part.furtherLoadCases[0].holds.clear();
    CHECK(faultOf(part).find("no_support") == 0);
    CHECK(faultOf(part).find("load case 'other way'") != std::string::npos);
    part = realBar(true);
    part.furtherLoadCases[0].holds = {{FaceSelector::byName("end +x"), HoldKind::bolted}};
    CHECK(faultOf(part).find("bolt_not_in_bore") == 0);
    CHECK(faultOf(part).find("load case 'other way', hold 1") != std::string::npos);
}
