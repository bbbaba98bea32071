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

/// A point of an outline and how the stretch to the next one bulges: tan of a quarter of its angle, 0 straight.
struct Corner {
    double x, y, bulge = 0;
};

struct Round {
    double x, y, radius;
};

/// Closed outlines and circles as a drawing in mm.
std::string drawing(const std::vector<std::vector<Corner>>& outlines, const std::vector<Round>& circles) {
    std::string text = "0\nSECTION\n2\nHEADER\n9\n$INSUNITS\n70\n4\n0\nENDSEC\n0\nSECTION\n2\nENTITIES\n";
    const auto pair = [&](int code, double value) {
        text += std::to_string(code) + "\n" + std::to_string(value) + "\n";
    };
    for (const auto& outline : outlines) {
        text += "0\nLWPOLYLINE\n8\n0\n90\n" + std::to_string(outline.size()) + "\n70\n1\n";
        for (const Corner& c : outline) {
            pair(10, c.x);
            pair(20, c.y);
            if (c.bulge != 0) pair(42, c.bulge);
        }
    }
    for (const Round& c : circles) {
        text += "0\nCIRCLE\n8\n0\n";
        pair(10, c.x);
        pair(20, c.y);
        pair(40, c.radius);
    }
    return text + "0\nENDSEC\n0\nEOF\n";
}

std::vector<Corner> rectangle(double x0, double y0, double x1, double y1) {
    return {{x0, y0}, {x1, y0}, {x1, y1}, {x0, y1}};
}

/// Parts of tests/checks/reference_solids that are one outline swept, as drawings, with the height of the sweep.
struct Drawn {
    const char* name;
    double height;
    std::string text;
};

std::vector<Drawn> drawnParts() {
    const double quarter = std::tan(22.5 * kPerDegree);
    std::vector<Round> bores{{-36, 0, 10}, {36, 0, 10}, {0, 0, 3.5}};
    for (const double x : {-48.0, 48.0})
        for (const double y : {-21.0, 21.0})
            bores.push_back({x, y, 3});
    std::vector<std::vector<Corner>> slotted{rectangle(0, 0, 90, 50)};
    for (const double y : {14.0, 36.0})
        slotted.push_back({{25, y - 4}, {65, y - 4, 1}, {65, y + 4}, {25, y + 4, 1}});
    return {
        {"bored_plate", 9, drawing({rectangle(-55, -28, 55, 28)}, bores)},
        {"slotted_plate", 6, drawing(slotted, {})},
        {"quarter_shell", 24, drawing({{{30, 0}, {33, 0, quarter}, {0, 33}, {0, 30, -quarter}}}, {})},
    };
}

}  // namespace

TEST_CASE("the same part as STEP, STL and DXF deflects alike") {
    for (const Drawn& drawn : drawnParts()) {
        INFO(drawn.name);
        const nlohmann::json entry = entryOf(drawn.name);
        const Solid step = referenceSolid(entry).solid;
        std::stringstream surface;
        writeStl(surface, step.mesh);
        std::istringstream lines(drawn.text);
        const double byStep = deflectionOf(step, entry);
        CHECK(deflectionOf(segmented(readStl(surface, "part.stl").mesh), entry) == Approx(byStep).epsilon(0.005));
        CHECK(deflectionOf(extruded(readDxf(lines, "part.dxf", 0), drawn.height), entry) ==
              Approx(byStep).epsilon(0.005));
    }
}

TEST_CASE("a part turned about a skew axis, or moved by a third of a cell, deflects as before") {
    for (const char* name : {"bored_plate", "stepped_block", "lightened_arm", "tee_rail"}) {
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
