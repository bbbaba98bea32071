// Surfaces as they come from careless exports, all the way from the STL file to the deflection: either the answer of
// the sound body or one clear line. (Readers alone: tests/geometry; slots narrower than a cell: test_structure.)

#include <catch2/catch.hpp>
#include <sstream>

#include "core/fault/input_fault.h"
#include "core/geometry/import/stl.h"
#include "tests/structure/test_bodies.h"

using namespace waybench;
using namespace waybench::testing;

namespace {

constexpr double kLength_mm = 80, kWidth_mm = 20, kHeight_mm = 9;

Mesh soundBar() {
    return boxMesh(steps(0, kLength_mm, 4), steps(0, kWidth_mm, 2), {0, kHeight_mm});
}

/// Written as a file, read, parted into faces, held at x = 0 and pressed down at the other end.
StructureAnswer answerFor(const Mesh& written, std::size_t* notes = nullptr) {
    std::stringstream file;
    writeStl(file, written);
    Healed read = readStl(file, "bar.stl");
    if (notes) *notes = read.notes.size();
    const Solid solid = segmented(std::move(read.mesh));
    LoadCase load;
    load.holds = {{FaceSelector::byPoint({0, kWidth_mm / 2, kHeight_mm / 2}, -Vec3::UnitX())}};
    Load press;
    press.face = load.measuredFace = FaceSelector::byPoint({kLength_mm, 5, 4}, Vec3::UnitX());
    press.vector = load.measuredDirection = {0, 0, -30};
    load.loads = {press};
    load.deflectionLimit_mm = 1;
    Body body;
    body.solid = &solid;
    body.law = isotropicLaw(2000, 0.35);
    StrengthLaw strength;
    strength.inLayer_MPa = 40;
    return solveStructure(body, strength, bind(load, solid), Resolution{}, Task());
}

double deflectionOf(const Mesh& written, std::size_t notes) {
    std::size_t found = 0;
    const double deflection = answerFor(written, &found).deflection.value;
    CHECK(found == notes);
    return deflection;
}

}  // namespace

TEST_CASE("a bar inside out, with doubled facets or a leak of 0.01 mm deflects as the sound one") {
    const Mesh sound = soundBar();
    const double expected = deflectionOf(sound, 0);
    CHECK(expected == Approx(30 * 512000 / (3 * 2000 * 20 * 729 / 12.0)).epsilon(0.03));  // F L^3/3EI, plus shear
    Mesh inverted = sound;
    for (auto& t : inverted.triangles)
        std::swap(t[0], t[1]);
    CHECK(deflectionOf(inverted, 0) == Approx(expected).epsilon(1e-5));
    Mesh mixed = sound;
    for (std::size_t t = 0; t < mixed.triangles.size(); t += 3)
        std::swap(mixed.triangles[t][0], mixed.triangles[t][1]);
    CHECK(deflectionOf(mixed, 1) == Approx(expected).epsilon(1e-5));
    Mesh doubled = sound;
    doubled.triangles.insert(doubled.triangles.end(), sound.triangles.begin(), sound.triangles.begin() + 7);
    CHECK(deflectionOf(doubled, 1) == Approx(expected).epsilon(1e-5));
    Mesh leaking = sound;  // one facet's corner at the middle of the upper side, 0.01 mm off
    const auto loose = std::uint32_t(leaking.vertices.size());
    bool isMoved = false;
    for (auto& t : leaking.triangles)
        for (std::uint32_t& v : t)
            if (!isMoved && (sound.vertices[v] - Vec3(40, 10, kHeight_mm)).norm() < 1e-9) {
                leaking.vertices.push_back(sound.vertices[v] + Vec3(0.006, 0.008, 0));
                v = loose;
                isMoved = true;
            }
    REQUIRE(isMoved);
    CHECK(deflectionOf(leaking, 1) == Approx(expected).epsilon(1e-4));
}

TEST_CASE("two bodies that do not touch are refused in one clear line") {
    const Mesh both = joined(soundBar(), boxMesh({0, 20}, {25, 35}, {0, kHeight_mm}));
    try {
        answerFor(both);
        FAIL("accepted");
    } catch (const InputFault& fault) {
        CHECK(fault.code() == "body_free");
        CHECK_FALSE(fault.problem().empty());
        CHECK_FALSE(fault.remedy().empty());
        CHECK(std::string(fault.what()).find('\n') == std::string::npos);
    }
}

TEST_CASE("a bar of a hundred thousand facets deflects as that of a few") {
    const Mesh fine = boxMesh(steps(0, kLength_mm, 320), steps(0, kWidth_mm, 64), steps(0, kHeight_mm, 14));
    CHECK(deflectionOf(fine, 0) == Approx(deflectionOf(soundBar(), 0)).epsilon(1e-3));
}

// Some ten seconds; reading a million facets is in the suite (test_stl).
TEST_CASE("a bar of a million facets deflects as that of a few", "[.][cost]") {
    const Mesh fine = boxMesh(steps(0, kLength_mm, 1000), steps(0, kWidth_mm, 200), steps(0, kHeight_mm, 46));
    REQUIRE(fine.triangles.size() >= 1000000);
    CHECK(deflectionOf(fine, 0) == Approx(deflectionOf(soundBar(), 0)).epsilon(1e-3));
}
