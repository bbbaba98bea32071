#include <catch2/catch.hpp>

#include "core/project/key_check.h"

using namespace waybench;

TEST_CASE("edit distance counts insertions, deletions, replacements and swaps") {
    // kitten/sitting = 3 is the usual example of Levenshtein's distance; ca/abc = 3 tells optimal string alignment
    // from the unrestricted distance (2). Both from memory.
    CHECK(editDistance("kitten", "sitting") == 3);
    CHECK(editDistance("ca", "abc") == 3);
    CHECK(editDistance("walls", "wlals") == 1);
    CHECK(editDistance("", "abc") == 3);
    CHECK(editDistance("same", "same") == 0);
}

TEST_CASE("the nearest name is offered only when it is near") {
    const std::vector<std::string> known{"deflection_limit_mm", "duration", "duration_h"};
    CHECK(nearestName("deflection_limt_mm", known) == "deflection_limit_mm");
    CHECK(nearestName("duratoin", known) == "duration");
    CHECK(nearestName("colour", known).empty());
    CHECK(nearestName(std::string(100000, 'x'), known).empty());
    CHECK(nearestName("x", {}).empty());
}
