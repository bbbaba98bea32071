#include <catch2/catch.hpp>

#include "core/cost/tool_life.h"

using namespace waybench;

TEST_CASE("Taylor's equation gives the derived lives and speeds") {
    // Case 28, derived arithmetic; constants are representative teaching values (from memory).
    CHECK(taylorLife_min(200, 0.25, 300) == Approx(5.06).epsilon(2e-3));
    CHECK(taylorLife_min(250, 0.35, 500) == Approx(7.25).epsilon(2e-3));
    CHECK(taylorSpeed_m_per_min(60, 0.25, 300) == Approx(107.8).epsilon(2e-3));
}
