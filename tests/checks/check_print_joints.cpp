#include <catch2/catch.hpp>

#include "core/printed/bend_coupon.h"
#include "core/printed/screw_joint.h"

// printed-route.md section 7: coupons and joints.
using namespace waybench::printed;

TEST_CASE("K17: the crosshead of an ASTM D790 test moves at 1.302 and 1.365 mm/min", "[check][printed]") {
    // ASTM D790, rate of crosshead motion; a maker's sheet prints 1.3 mm/min at 50 mm span (SABIC flexural row, S65)
    CHECK(crossheadSpeed_mm_per_min({50, 12.7, 3.2}) == Approx(1.302083).epsilon(1e-6));
    CHECK(crossheadSpeed_mm_per_min({51.2, 12.7, 3.2}) == Approx(1.365333).epsilon(1e-6));
    CHECK(crossheadSpeed_mm_per_min({50, 12.7, 3.2}) == Approx(1.3).margin(0.05));
}

TEST_CASE("K25: an M3 screw strips 6 mm of PLA at 565 N and may pull 141 N for long", "[check][printed]") {
    // rule read second-hand (S29), arithmetic derived
    const double strip = threadStripForce_N(20, 3, 6);
    CHECK(strip == Approx(565.487).epsilon(1e-6));
    CHECK(kSustainedShare * strip == Approx(141.372).margin(5e-4));  // the last digit printed
}

TEST_CASE("K26: a washer keeps the pressure of a clamped kilonewton below 10 MPa, the head alone does not",
          "[check][printed]") {
    // derived (geometry); 10 MPa for PLA is common practice, no source
    CHECK(bearingPressure_MPa(1000, 5.5, 15) == Approx(6.538).epsilon(1e-3));
    CHECK(bearingPressure_MPa(1000, 5.5, 8.5) == Approx(30.315).epsilon(1e-3));
}

TEST_CASE("K33: shear adds 1.27 % to a slender bar's deflection and 13 % to a stubby one's", "[check][printed]") {
    // derived (Timoshenko)
    CHECK(shearShare({64, 10, 4}, 0.35) == Approx(0.012656).epsilon(1e-4));
    CHECK(shearShare({20, 10, 4}, 0.35) == Approx(0.1296).epsilon(1e-4));
}
