#include <catch2/catch.hpp>
#include <random>

#include "core/comparison/judgement.h"
#include "tests/comparison/fake_outcome.h"

using namespace waybench;
using namespace waybench::testing;

namespace {

LedgerRow rowOf(const Comparison& c, Question question) {
    for (const LedgerRow& row : c.ledger)
        if (row.question == question) return row;
    throw std::logic_error("no such row");
}

}  // namespace

TEST_CASE("the ledger has one row for every question, in their order") {
    Comparison c = fakeComparison();
    judge(c);
    REQUIRE(c.ledger.size() == questions().size());
    for (std::size_t i = 0; i < c.ledger.size(); ++i)
        CHECK(c.ledger[i].key == questions()[i].key);
}

TEST_CASE("a route is ahead only where the bands do not touch") {
    Comparison c = fakeComparison();
    c.printed.figures[Question::cost] = Figure::bounded(10, 8, 12, Unit::money);
    c.machined.figures[Question::cost] = Figure::bounded(14, 12, 16, Unit::money);
    judge(c);
    CHECK(rowOf(c, Question::cost).ahead == LedgerRow::Ahead::no_difference);
    c.machined.figures[Question::cost] = Figure::bounded(14, 12.01, 16, Unit::money);
    judge(c);
    CHECK(rowOf(c, Question::cost).ahead == LedgerRow::Ahead::printed);
    CHECK(rowOf(c, Question::cost).aheadText.rfind("printed, cheaper by", 0) == 0);
}

TEST_CASE("a larger strength margin is ahead, a larger cost is not") {
    Comparison c = fakeComparison();
    c.printed.figures[Question::strength_margin] = Figure::relative(20, 0.1, 0.1, Unit::none);
    c.printed.figures[Question::cost] = Figure::relative(20, 0.1, 0.1, Unit::money);
    judge(c);
    CHECK(rowOf(c, Question::strength_margin).ahead == LedgerRow::Ahead::printed);
    CHECK(rowOf(c, Question::cost).ahead == LedgerRow::Ahead::machined);
}

TEST_CASE("limits stand on the rows that have one") {
    Comparison c = fakeComparison();
    judge(c);
    CHECK(rowOf(c, Question::deflection).limit == 0.1);
    CHECK(rowOf(c, Question::strength_margin).limit == 2.0);
    CHECK_FALSE(rowOf(c, Question::strength_margin).limitIsUpper);
    CHECK_FALSE(rowOf(c, Question::cost).limit);
}

TEST_CASE("widening a band never puts a route ahead that was not") {
    std::mt19937 random(7);
    std::uniform_real_distribution<double> value(1, 20), width(0, 0.6);
    for (int i = 0; i < 300; ++i) {
        Comparison c = fakeComparison();
        c.printed.figures[Question::cost] = Figure::relative(value(random), width(random), width(random), Unit::money);
        c.machined.figures[Question::cost] = Figure::relative(value(random), width(random), width(random), Unit::money);
        judge(c);
        const auto before = rowOf(c, Question::cost).ahead;
        c.printed.figures[Question::cost] = c.printed.at(Question::cost).widened(0.3, 0.3);
        judge(c);
        const auto after = rowOf(c, Question::cost).ahead;
        CHECK((after == before || after == LedgerRow::Ahead::no_difference));
    }
}

TEST_CASE("an advantage is never larger than one and changes sign with the routes") {
    std::mt19937 random(11);
    std::uniform_real_distribution<double> value(0, 1000);
    for (int i = 0; i < 300; ++i) {
        Comparison c = fakeComparison();
        c.printed.figures[Question::waste] = Figure::relative(value(random), 0.05, 0.05, Unit::gram);
        c.machined.figures[Question::waste] = Figure::relative(i % 10 ? value(random) : 0, 0.05, 0.05, Unit::gram);
        judge(c);
        const double forward = advantageOf(rowOf(c, Question::waste));
        std::swap(c.printed.figures[Question::waste], c.machined.figures[Question::waste]);
        judge(c);
        CHECK(std::fabs(forward) <= 1);
        CHECK(advantageOf(rowOf(c, Question::waste)) == Approx(-forward));
    }
}
