// The solver against fixture-like parts solved with second-order tetrahedra by general-purpose programs (gmsh and
// CalculiX): reference_solids/reference_solids.json, made by reference_solids/make_reference.py. They are independent
// of the solver in method, mesh and code; parts, loads and figures are our own invention.

#include <algorithm>
#include <catch2/catch.hpp>

#include "tests/structure/reference_solids.h"

using namespace waybench;

TEST_CASE("solids, prints and layered bodies deflect as second-order tetrahedra say, and the band holds it") {
    std::vector<double> errors;
    int held = 0, all = 0;
    for (const auto& entry : testing::referenceSolidEntries()) {
        testing::ReferenceSolid r = testing::referenceSolid(entry);
        INFO(r.name);
        CHECK(r.uncertainty_percent < 0.7);
        CHECK(volumeOf(r.solid.mesh) == Approx(entry["volume_mm3"].get<double>()).epsilon(2e-3));
        Resolution draft;
        draft.fidelity = Fidelity::draft;
        for (const Resolution& resolution : {draft, Resolution{}}) {
            const Figure got = r.solve(resolution).deflection;
            ++all;
            held += got.low <= r.deflection_mm && r.deflection_mm <= got.high ? 1 : 0;
            if (resolution.fidelity == Fidelity::draft) continue;
            const double error = std::abs(got.value / r.deflection_mm - 1);
            CHECK(error < (r.isPrinted || r.isLayered ? 0.025 : 0.02));
            errors.push_back(error);
        }
    }
    REQUIRE(errors.size() >= 22);
    std::sort(errors.begin(), errors.end());
    CHECK(errors[errors.size() / 2] < 0.007);
    CHECK(held >= int(std::ceil(0.95 * all)));
}
