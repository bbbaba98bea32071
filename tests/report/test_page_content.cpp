#include <catch2/catch.hpp>
#include <fstream>
#include <iterator>

#include "core/report/content_hash.h"
#include "core/report/page_content.h"
#include "core/report/program_version.h"
#include "tests/comparison/fake_outcome.h"

using namespace waybench;
using namespace waybench::testing;

namespace {

bool anyHas(const std::vector<std::string>& lines, const std::string& words) {
    for (const std::string& line : lines)
        if (line.find(words) != std::string::npos) return true;
    return false;
}

Project fakeProject() {
    Project project;
    project.title = "invented rig";
    project.author = "A. Builder";
    project.identification = "R-7";
    project.date = "2024-05-01";
    project.parts = {fakePart()};
    return project;
}

Comparison judgedComparison() {
    Comparison c = fakeComparison();
    c.printed.figures[Question::deflection] = Figure::bounded(0.21, 0.18, 0.26, Unit::millimetre);
    judge(c);
    return c;
}

const PageRow& rowTitled(const PageContent& page, const std::string& title) {
    for (const PageRow& row : page.rows)
        if (row.title == title) return row;
    throw std::logic_error("no row " + title);
}

}  // namespace

TEST_CASE("with several load cases the page names each, how it is held, and the worst") {
    Comparison c = fakeComparison();
    c.part.loadCase.name = "running";
    LoadCase stop = c.part.loadCase;
    stop.name = "emergency stop";
    stop.deflectionLimit_mm = 0.02;
    stop.holds = {{FaceSelector::byName("bore 1"), HoldKind::bolted, 12},
                  {FaceSelector::byName("foot"), HoldKind::sliding}};
    c.part.furtherLoadCases = {stop};
    judge(c);
    Project project = fakeProject();
    project.parts = {c.part};
    const PageContent page = pageContent(project, c, nullptr, Shop{});
    CHECK(anyHas(page.requirement, "worst load case, shown here: emergency stop"));
    CHECK(anyHas(page.requirement, "running: force"));
    CHECK(anyHas(page.requirement, "emergency stop: force"));
    CHECK(anyHas(page.requirement, "held: bolted face 'bore 1', head 12 mm, sliding face 'foot'"));
    CHECK(anyHas(page.requirement, "deflection at most 0.02 mm under emergency stop: both fail"));
    CHECK(rowTitled(page, "deflection").limit == "at most 0.02 mm");
    CHECK(rowTitled(page, "– running").limit == "at most 0.1 mm");
}

TEST_CASE("the page carries the verdict, title block and identity of the comparison") {
    const Project project = fakeProject();
    const Comparison c = judgedComparison();
    const PageContent page = pageContent(project, c, nullptr, Shop{});
    CHECK(page.verdict == c.verdict.sentence);
    CHECK(page.reasons == c.verdict.reasons);
    CHECK(page.wouldChange == c.verdict.wouldChange);
    CHECK(page.partName == "test plate");
    CHECK(page.author == "A. Builder");
    CHECK(page.date == "2024-05-01");
    CHECK(page.sheet == "1 of 1");
    CHECK(page.fileHash == contentHash(projectJson(project)));
    CHECK_FALSE(page.isDraft);
    CHECK(page.decisionRule == "A requirement passes only if the unfavourable bound passes.");
    CHECK_FALSE(page.bandMeaning.empty());
    CHECK_FALSE(page.cautions.empty());
    CHECK(page.plotX.empty());
}

TEST_CASE("a draft is marked as one") {
    Comparison c = judgedComparison();
    c.fidelity = Fidelity::draft;
    CHECK(pageContent(fakeProject(), c, nullptr, Shop{}).isDraft);
}

TEST_CASE("page rows show both routes rounded by their bands, in one unit, with limit") {
    Comparison c = judgedComparison();
    c.printed.figures[Question::elapsed_time] = Figure::relative(30000, 0.1, 0.1, Unit::second);
    c.machined.figures[Question::elapsed_time] = Figure::relative(3000, 0.1, 0.1, Unit::second);
    judge(c);
    const PageContent page = pageContent(fakeProject(), c, nullptr, Shop{});
    CHECK(page.rows.size() == questions().size());
    const PageRow& deflection = rowTitled(page, "deflection");
    CHECK(page.rows.front().title == "deflection");
    CHECK(deflection.printed == "0.21 mm (0.18 to 0.26)");
    CHECK(deflection.limit == "at most 0.1 mm");
    CHECK(deflection.aheadRoute == LedgerRow::Ahead::machined);
    CHECK(rowTitled(page, "strength margin").limit == "at least 2");
    const PageRow& elapsed = rowTitled(page, "elapsed time");
    CHECK(elapsed.printed.find(" min (") != std::string::npos);
    CHECK(elapsed.machined.find(" min (") != std::string::npos);
}

TEST_CASE("rows that decide stand before rows that only repeat") {
    const PageContent page = pageContent(fakeProject(), judgedComparison(), nullptr, Shop{});
    bool repeatsBegan = false;
    for (const PageRow& row : page.rows) {
        const bool repeats = row.limit.empty() && row.aheadRoute == LedgerRow::Ahead::not_ranked;
        CHECK((repeats || !repeatsBegan));
        repeatsBegan = repeatsBegan || repeats;
    }
}

TEST_CASE("requirements are said for both routes, risks worst first") {
    Comparison c = judgedComparison();
    c.machined.warnings.push_back({"undercut", Severity::blocking, "cannot be reached"});
    checkOutcome(c.machined);
    judge(c);
    const PageContent page = pageContent(fakeProject(), c, nullptr, Shop{});
    CHECK(anyHas(page.requirement, "deflection at most 0.1 mm: printed fails, machined holds"));
    CHECK(anyHas(page.requirement, "force (0, 0, -40) N"));
    CHECK(page.risks.front() == "machined: cannot be reached");
    CHECK(page.assumptions.front().first == "printed, modulus");
    CHECK(page.assumptions.front().second.find("MPa") != std::string::npos);
}

TEST_CASE("sources are those the figures name, with their texts") {
    Shop shop;
    shop.sources["P-S6"] = {"P-S6", "an invented handbook"};
    shop.sources["P-S60"] = {"P-S60", "not used"};
    Comparison c = judgedComparison();
    c.printed.assumptions[0].figure.note = "P-S6, printed bars";
    const PageContent page = pageContent(fakeProject(), c, nullptr, shop);
    CHECK(page.sources == std::vector<std::string>{"P-S6: an invented handbook"});
}

TEST_CASE("the page's plot shows the valid points and states the finding") {
    const Evaluator law = cubicLaw();
    const Evaluator holed = [&](const Part& part, RouteKind kind, Fidelity f, const Task& t) {
        if (part.shape.dimensions.at("thickness") == 16) throw InputFault("dimension_conflict", "", "", "no", "none");
        return law(part, kind, f, t);
    };
    const Sweep whatIf = sweepBy(holed, fakePart(), thickness(), 2, 16, 8, Fidelity::draft, Task());
    const PageContent page = pageContent(fakeProject(), judgedComparison(), &whatIf, Shop{});
    CHECK(page.plotX == std::vector<double>{2, 4, 6, 8, 10, 12, 14});
    CHECK(page.plotPrinted.size() == page.plotX.size());
    CHECK(page.plotMachined.size() == page.plotX.size());
    CHECK(page.plotAxis == "thickness in mm");
    CHECK(page.plotLimit == 0.1);
    CHECK(page.plotHere == 8);
    // 64 / t^3 is moved through the final 0.21 at 8, by 1.68: its upper bound, 1.1 times as much, meets 0.1 at 10.6.
    CHECK(page.plotTitle.find("printed surely holds from 10.6") != std::string::npos);
    CHECK(page.plotTitle.find("machined surely holds from 2.9") != std::string::npos);
    CHECK(page.plotPrinted[3].value == Approx(0.21));
    // A draft has no final figure to go through.
    Comparison draft = judgedComparison();
    draft.fidelity = Fidelity::draft;
    const PageContent coarse = pageContent(fakeProject(), draft, &whatIf, Shop{});
    CHECK(coarse.plotTitle.find("printed surely holds from 8.9") != std::string::npos);
    CHECK(coarse.plotPrinted[3].value == Approx(0.125));
}

TEST_CASE("a plot without a crossing says so") {
    const Sweep whatIf = sweepBy(cubicLaw(), fakePart(), thickness(), 20, 30, 3, Fidelity::draft, Task());
    const PageContent page = pageContent(fakeProject(), judgedComparison(), &whatIf, Shop{});
    CHECK(page.plotCrossings == std::vector<std::string>{"no crossing in this range"});
    CHECK(page.plotTitle.find("printed surely holds throughout") != std::string::npos);
}

TEST_CASE("the content hash is FNV-1a of 64 bits") {
    // Test vectors of draft-eastlake-fnv, appendix C; from memory
    CHECK(contentHash("") == "cbf29ce484222325");
    CHECK(contentHash("a") == "af63dc4c8601ec8c");
    CHECK(contentHash("foobar") == "85944171f73967e8");
}

TEST_CASE("the program's version is that of the build") {
    std::ifstream in(WAYBENCH_SOURCE "/CMakeLists.txt");
    const std::string text{std::istreambuf_iterator<char>(in), {}};
    CHECK(text.find("project(Waybench VERSION " + std::string(kProgramVersion)) != std::string::npos);
}
