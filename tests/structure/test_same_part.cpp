#include <catch2/catch.hpp>
#include <sstream>

#include "core/geometry/import/dxf.h"
#include "core/geometry/import/stl.h"
#include "tests/structure/reference_solids.h"
#include "tests/structure/test_bodies.h"

using namespace waybench;
using namespace waybench::testing;

namespace {

constexpr double kPerDegree = 3.14159265358979323846 / 180;

nlohmann::json entryOf(const std::string& name) {
    for (const auto& entry : referenceSolidEntries())
        if (entry.at("name") == name) return entry;
    throw std::logic_error("no reference solid " + name);
}

double deflectionOf(Solid solid, const nlohmann::json& entry) {
    ReferenceSolid r = referenceSolid(entry);
    r.solid = std::move(solid);
    return r.solve().deflection.value;
}

/// The bored plate as a drawing: outline and circles in mm.
std::string platesDrawing() {
    std::string text = "0\nSECTION\n2\nHEADER\n9\n$INSUNITS\n70\n4\n0\nENDSEC\n0\nSECTION\n2\nENTITIES\n";
    text += "0\nLWPOLYLINE\n8\n0\n90\n4\n70\n1\n";
    for (const auto& [x, y] : {std::pair(-55, -28), std::pair(55, -28), std::pair(55, 28), std::pair(-55, 28)})
        text += "10\n" + std::to_string(x) + "\n20\n" + std::to_string(y) + "\n";
    const auto circle = [&](double x, double y, double radius) {
        text += "0\nCIRCLE\n8\n0\n10\n" + std::to_string(x) + "\n20\n" + std::to_string(y) + "\n40\n" +
                std::to_string(radius) + "\n";
    };
    circle(-36, 0, 10);
    circle(36, 0, 10);
    circle(0, 0, 3.5);
    for (const double x : {-48.0, 48.0})
        for (const double y : {-21.0, 21.0})
            circle(x, y, 3);
    return text + "0\nENDSEC\n0\nEOF\n";
}

}  // namespace

TEST_CASE("the same plate as STEP, STL and DXF deflects alike") {
    const nlohmann::json entry = entryOf("bored_plate");
    const Solid step = referenceSolid(entry).solid;
    std::stringstream surface;
    writeStl(surface, step.mesh);
    std::istringstream drawing(platesDrawing());
    const double byStep = deflectionOf(step, entry);
    CHECK(deflectionOf(segmented(readStl(surface, "plate.stl").mesh), entry) == Approx(byStep).epsilon(0.005));
    CHECK(deflectionOf(extruded(readDxf(drawing, "plate.dxf", 0), 9), entry) == Approx(byStep).epsilon(0.005));
}

TEST_CASE("a part turned about a skew axis, or moved by a third of a cell, deflects as before") {
    for (const char* name : {"bored_plate", "stepped_block", "lightened_arm"}) {
        INFO(name);
        const nlohmann::json entry = entryOf(name);
        ReferenceSolid r = referenceSolid(entry);
        const StructureAnswer still = r.solve();
        const BoundLoadCase bound = bind(r.loadCase, r.solid);
        const Vec3 force = vectorFrom(entry["force"]);
        std::vector<std::uint32_t> held;
        for (const BoundHold& hold : bound.holds)
            held.insert(held.end(), hold.triangles.begin(), hold.triangles.end());
        const auto deflection = [&](const Mat3& turn, const Vec3& shift) {
            const Solid moved = transformed(r.solid, turn, shift);
            Body body = r.body;
            body.solid = &moved;
            StrengthLaw strength;
            strength.inLayer_MPa = 40;
            return solveStructure(body, strength,
                                  loadedBy(moved, turn * force, held, bound.loadedTriangles.front(),
                                           bound.measuredTriangles, turn * force),
                                  Resolution{}, Task())
                .deflection.value;
        };
        const Mat3 turn = Eigen::AngleAxisd(37 * kPerDegree, Vec3(1, 2, 3).normalized()).toRotationMatrix();
        CHECK(deflection(turn, Vec3::Zero()) == Approx(still.deflection.value).epsilon(0.015));
        CHECK(deflection(Mat3::Identity(), Vec3::Constant(still.spacing_mm / 3)) ==
              Approx(still.deflection.value).epsilon(0.005));
    }
}
