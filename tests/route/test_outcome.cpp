#include <catch2/catch.hpp>
#include <limits>
#include <set>
#include <stdexcept>

#include "core/route/outcome.h"

using namespace waybench;

namespace {

RouteOutcome completeOutcome() {
    RouteOutcome outcome;
    for (const QuestionText& text : questions())
        outcome.figures[text.question] = Figure::exact(1, text.unit);
    outcome.figures[Question::mass] = Figure::exact(80, Unit::gram);
    outcome.figures[Question::waste] = Figure::exact(20, Unit::gram);
    outcome.figures[Question::stock] = Figure::exact(100, Unit::gram);
    outcome.steps = {
        {"prepare", 300, 0, 300}, {"run", 6000, 6000, 60}, {"cool down", 600, 600, 0}, {"clean", 120, 0, 120}};
    setTimes(outcome, 0.1, 0.2, 0.3, 0.5);
    return outcome;
}

std::string complaintAbout(RouteOutcome outcome) {
    try {
        checkOutcome(outcome);
    } catch (const std::logic_error& e) {
        return e.what();
    }
    return "";
}

bool contains(const std::string& text, const std::string& part) {
    return text.find(part) != std::string::npos;
}

}  // namespace

TEST_CASE("every question has one text, one key and a sensible weight", "[route]") {
    std::set<std::string> keys, titles;
    for (int i = 0; i <= static_cast<int>(Question::setups); ++i) {
        const QuestionText& text = textOf(static_cast<Question>(i));
        CHECK(keys.insert(text.key).second);
        CHECK(titles.insert(text.title).second);
        CHECK(questionNamed(text.key) == &text);
        CHECK(text.meaning.size() > 20);
        CHECK(text.meaning.back() == '.');
        CHECK(text.standardWeight >= 0);
        CHECK(text.standardWeight <= 1);
        if (!text.isRanked) CHECK(text.standardWeight == 0);
    }
    CHECK(questions().size() == keys.size());
    CHECK(questionNamed("beauty") == nullptr);
}

TEST_CASE("times are sums over the steps, hands-on work overlapping the machine counted once", "[route]") {
    const RouteOutcome outcome = completeOutcome();
    CHECK(outcome.at(Question::machine_time).value == 6600);
    CHECK(outcome.at(Question::machine_time).low == Approx(5940));
    CHECK(outcome.at(Question::machine_time).high == Approx(7920));
    CHECK(outcome.at(Question::hands_on_time).value == 480);
    CHECK(outcome.at(Question::hands_on_time).high == Approx(720));
    CHECK(outcome.at(Question::elapsed_time).value == 7020);
    CHECK(outcome.at(Question::elapsed_time).low == Approx(6600 * 0.9 + 420 * 0.7));
    CHECK(outcome.at(Question::elapsed_time).high == Approx(6600 * 1.2 + 420 * 1.5));
}

TEST_CASE("a complete outcome passes and is feasible exactly when nothing blocks it", "[route]") {
    RouteOutcome outcome = completeOutcome();
    outcome.warnings = {{"overhang", Severity::caution, "an overhang needs support"}};
    CHECK_NOTHROW(checkOutcome(outcome));
    CHECK(outcome.feasible);
    outcome.warnings.push_back({"undercut", Severity::blocking, "no tool reaches the channel"});
    CHECK_NOTHROW(checkOutcome(outcome));
    CHECK_FALSE(outcome.feasible);
}

TEST_CASE("a broken outcome is caught and the broken invariant named", "[route]") {
    RouteOutcome outcome = completeOutcome();
    REQUIRE(complaintAbout(outcome).empty());

    SECTION("a question without an answer") {
        outcome.figures.erase(Question::carbon);
        CHECK(contains(complaintAbout(outcome), "carbon"));
    }
    SECTION("a figure that is not a number") {
        outcome.figures[Question::cost].value = std::numeric_limits<double>::quiet_NaN();
        CHECK(contains(complaintAbout(outcome), "cost"));
    }
    SECTION("a figure outside its bounds") {
        outcome.figures[Question::cost].high = 0.5;
        CHECK(contains(complaintAbout(outcome), "cost"));
    }
    SECTION("a figure in another unit") {
        outcome.figures[Question::cost].unit = Unit::gram;
        CHECK(contains(complaintAbout(outcome), "cost"));
    }
    SECTION("steps that do not add up") {
        outcome.steps[1].seconds += 0.3;
        CHECK(contains(complaintAbout(outcome), "elapsed_time"));
    }
    SECTION("a step that takes less than no time") {
        outcome.steps[0].seconds = -5;
        CHECK(contains(complaintAbout(outcome), "prepare"));
    }
    SECTION("material that vanishes") {
        outcome.figures[Question::waste] = Figure::exact(19.8, Unit::gram);
        CHECK(contains(complaintAbout(outcome), "waste"));
    }
    SECTION("a detail outside its bounds") {
        outcome.details = {{"layers", Figure::exact(4, Unit::none)}};
        outcome.details[0].second.low = 5;
        CHECK(contains(complaintAbout(outcome), "layers"));
    }
}
