#include <catch2/catch.hpp>
#include <random>

#include "core/comparison/judgement.h"
#include "tests/comparison/fake_outcome.h"

using namespace waybench;
using namespace waybench::testing;

namespace {

const Figure kTooMuch = Figure::bounded(0.21, 0.18, 0.26, Unit::millimetre);
const Figure kPerhaps = Figure::bounded(0.09, 0.07, 0.13, Unit::millimetre);

bool has(const std::string& text, const std::string& words) {
    return text.find(words) != std::string::npos;
}
bool anyHas(const std::vector<std::string>& lines, const std::string& words) {
    for (const std::string& line : lines)
        if (has(line, words)) return true;
    return false;
}

Comparison judged(Comparison c) {
    judge(c);
    INFO(c.verdict.sentence);
    CHECK_FALSE(c.verdict.sentence.empty());
    CHECK(c.verdict.sentence.back() == '.');
    CHECK_FALSE(c.verdict.reasons.empty());
    CHECK_FALSE(c.verdict.decisionRule.empty());
    return c;
}

}  // namespace

TEST_CASE("a print that bends too much is machined, with the reason and the factor") {
    Comparison c = fakeComparison();
    c.printed.figures[Question::deflection] = kTooMuch;
    c = judged(c);
    CHECK(c.verdict.choice == Choice::machined);
    CHECK(has(c.verdict.sentence, "Machine it: the print bends 0.21 mm (0.18 to 0.26) where 0.1 mm is allowed"));
    CHECK(has(c.verdict.sentence, "by a factor of 2.1"));
    CHECK(has(c.verdict.sentence, "even the favourable bound of the print fails"));
    CHECK(anyHas(c.verdict.wouldChange, "the print would hold with 0.261 mm allowed"));
    CHECK(anyHas(c.verdict.wouldChange, "next limit of the machined part"));
}

TEST_CASE("a failing route is worth mending only when it would be preferred") {
    Comparison c = fakeComparison();
    c.printed.figures[Question::deflection] = kTooMuch;
    CHECK_FALSE(anyHas(judged(c).verdict.wouldChange, "made to hold"));
    c.printed.figures[Question::cost] = Figure::relative(1, 0.1, 0.1, Unit::money);
    CHECK(anyHas(judged(c).verdict.wouldChange, "made to hold, the print would be preferred"));
}

TEST_CASE("a part the mill cannot reach is printed") {
    Comparison c = fakeComparison();
    c.machined.warnings.push_back(
        {"undercut", Severity::blocking, "The channel inside cannot be reached; split the part."});
    checkOutcome(c.machined);
    c = judged(c);
    CHECK(c.verdict.choice == Choice::printed);
    CHECK(has(c.verdict.sentence,
              "Print it: the machined part cannot be made this way: the channel inside cannot be reached, while"));
    CHECK(anyHas(c.verdict.wouldChange, "split the part"));
}

TEST_CASE("a route whose bound is over the limit is not chosen, and the sentence says it might hold") {
    Comparison c = fakeComparison();
    c.printed.figures[Question::deflection] = kPerhaps;
    c.printed.figures[Question::cost] = Figure::relative(0.1, 0.1, 0.1, Unit::money);
    c = judged(c);
    CHECK(c.verdict.choice == Choice::machined);
    CHECK(has(c.verdict.sentence, "the print might hold too"));
    CHECK(anyHas(c.verdict.wouldChange, "would narrow the band"));
}

TEST_CASE("when both fail the verdict is neither, with what would help") {
    Comparison c = fakeComparison();
    c.printed.figures[Question::deflection] = kTooMuch;
    c.machined.figures[Question::strength_margin] = Figure::bounded(1.2, 1.1, 1.4, Unit::none);
    c = judged(c);
    CHECK(c.verdict.choice == Choice::neither);
    CHECK(has(c.verdict.sentence, "Neither way as it stands: the print bends"));
    CHECK(has(c.verdict.sentence, "the machined part's strength margin is"));
    CHECK(has(c.verdict.sentence, "What would help:"));
    CHECK(anyHas(c.verdict.wouldChange, "strong enough with about 55 % of the load"));
}

TEST_CASE("an uncertain and a failing route together are still neither") {
    Comparison c = fakeComparison();
    c.printed.figures[Question::deflection] = kTooMuch;
    c.machined.figures[Question::deflection] = kPerhaps;
    c = judged(c);
    CHECK(c.verdict.choice == Choice::neither);
    CHECK(has(c.verdict.sentence, "the machined part may bend more"));
}

TEST_CASE("without a difference the cheaper one is taken and the sentence says it is no sure one") {
    Comparison c = fakeComparison();
    c.machined.figures[Question::cost] = Figure::relative(9.5, 0.1, 0.1, Unit::money);
    c = judged(c);
    CHECK(c.verdict.choice == Choice::machined);
    CHECK(has(c.verdict.sentence, "Either way will do"));
    CHECK(has(c.verdict.sentence, "no ranked figure differs"));
    CHECK(has(c.verdict.sentence, "within the bounds"));
    CHECK(c.verdict.printedScore == Approx(0.5));
}

TEST_CASE("when both hold the weighted ranking decides and names its main reason") {
    Comparison c = fakeComparison();
    c.printed.figures[Question::cost] = Figure::relative(4, 0.1, 0.1, Unit::money);
    c = judged(c);
    CHECK(c.verdict.choice == Choice::printed);
    CHECK(has(c.verdict.sentence,
              "Print it: both ways hold every requirement, and printing is cheaper by a factor of 2.5"));
    CHECK(c.verdict.printedScore > 0.5);
    CHECK(c.verdict.printedScore + c.verdict.machinedScore == Approx(1));
}

TEST_CASE("weights flip the ranking, and the verdict says at which weight it flips") {
    Comparison c = fakeComparison();
    c.printed.figures[Question::cost] = Figure::relative(4, 0.1, 0.1, Unit::money);
    c.machined.figures[Question::mass] = Figure::relative(50, 0.02, 0.02, Unit::gram);
    c.part.weights = {{"cost", 0.6}, {"mass", 0.1}};
    c = judged(c);
    CHECK(c.verdict.choice == Choice::printed);
    CHECK(anyHas(c.verdict.wouldChange, "the ranking turns when 'cost' weighs 0.076 instead of 0.6"));
    c.part.weights = {{"cost", 0.1}, {"mass", 0.6}};
    CHECK(judged(c).verdict.choice == Choice::machined);
}

TEST_CASE("requirements come before any weight") {
    Comparison c = fakeComparison();
    c.printed.figures[Question::deflection] = kTooMuch;
    for (const Question q : {Question::cost, Question::hands_on_time, Question::mass, Question::process_energy})
        c.printed.figures[q] = Figure::relative(0.01, 0.1, 0.1, textOf(q).unit);
    CHECK(judged(c).verdict.choice == Choice::machined);
}

TEST_CASE("swapping the two routes swaps the verdict") {
    std::mt19937 random(3);
    std::lognormal_distribution<double> spread(0, 0.8);
    int decided = 0;
    for (int i = 0; i < 300; ++i) {
        Comparison c = fakeComparison();
        for (RouteOutcome* route : {&c.printed, &c.machined})
            for (const QuestionText& q : questions())
                if (q.question != Question::temperature_margin)
                    route->figures[q.question] =
                        Figure::relative(route->at(q.question).value * spread(random), 0.1, 0.2, q.unit);
        judge(c);
        const Choice forward = c.verdict.choice;
        std::swap(c.printed.figures, c.machined.figures);
        judge(c);
        const Choice expected = forward == Choice::printed    ? Choice::machined
                                : forward == Choice::machined ? Choice::printed
                                                              : Choice::neither;
        CHECK(c.verdict.choice == expected);
        decided += forward != Choice::neither;
    }
    CHECK(decided > 50);
    CHECK(decided < 300);
}

TEST_CASE("a stricter limit never turns a failing route into a passing one") {
    Comparison c = fakeComparison();
    c.printed.figures[Question::deflection] = kPerhaps;
    bool passedBefore = true;
    for (double limit = 0.2; limit > 0.01; limit *= 0.95) {
        c.part.loadCase.deflectionLimit_mm = limit;
        judge(c);
        const bool passes = allPass(c.printedRequirements);
        CHECK((passedBefore || !passes));
        passedBefore = passes;
    }
    CHECK_FALSE(passedBefore);
}
