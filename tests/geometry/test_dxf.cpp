#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <numbers>

#include "core/fault/input_fault.h"
#include "core/geometry/import/dxf_curve.h"
#include "tests/geometry/dxf_text.h"

using namespace waybench;
using waybench::test::DxfText;

namespace {

constexpr double kPi = std::numbers::pi;

double areaOfDrawing(const DxfText& drawing) {
    return areaOf(drawing.profile().region);
}

Profile readText(const std::string& text) {
    std::istringstream in(text);
    return readDxf(in, "test.dxf");
}

std::string replaced(std::string text, const std::string& from, const std::string& to) {
    for (std::size_t at = 0; (at = text.find(from, at)) != std::string::npos; at += to.size())
        text.replace(at, from.size(), to);
    return text;
}

bool mentions(const std::vector<std::string>& notes, const std::string& word) {
    return std::any_of(notes.begin(), notes.end(),
                       [&](const std::string& n) { return n.find(word) != std::string::npos; });
}

}  // namespace

TEST_CASE("lines in any order and direction join to one outline", "[geometry][dxf]") {
    const Profile p = DxfText().line(40, 20, 40, 0).line(0, 0, 40, 0).line(0, 20, 0, 0).line(40, 20, 0, 20).profile();
    REQUIRE(p.region.size() == 1);
    CHECK(signedArea(p.region[0]) == Approx(800));
    CHECK(p.runs[0].size() == 4);
    CHECK(p.unit_mm == 1);
    CHECK(p.unitOrigin == "header $INSUNITS");
    CHECK(p.notes.empty());
}

TEST_CASE("circles, arcs and bulges enclose the area of their formulas within the chord tolerance", "[geometry][dxf]") {
    const double r = 10, chord = 0.005, perimeter = 2 * kPi * r;
    const auto close = [&](double area, double expected, double arcLength) {
        CHECK(area <= expected + 1e-9);
        CHECK(area >= expected - arcLength * chord);
    };
    close(areaOfDrawing(DxfText().circle(5, -3, r)), kPi * r * r, perimeter);
    close(areaOfDrawing(DxfText().arc(0, 0, r, 0, 180).line(-r, 0, r, 0)), kPi * r * r / 2, perimeter / 2);
    close(areaOfDrawing(DxfText().arc(0, 0, r, 350, 170).arc(0, 0, r, 170, 350)), kPi * r * r, perimeter);
    // Bulge = tan(included angle / 4): 1 is a half circle, tan(22.5 deg) a quarter (DXF reference, LWPOLYLINE, code
    // 42).
    close(areaOfDrawing(DxfText().polyline({{-r, 0, 1}, {r, 0, 1}})), kPi * r * r, perimeter);
    const double quarter = std::tan(kPi / 8);
    const DxfText rounded = DxfText().polyline({{20, 10, quarter},
                                                {10, 20, 0},
                                                {-10, 20, quarter},
                                                {-20, 10, 0},
                                                {-20, -10, quarter},
                                                {-10, -20, 0},
                                                {10, -20, quarter},
                                                {20, -10, 0}});
    close(areaOfDrawing(rounded), 1600 - (4 - kPi) * 100, perimeter);
    // Negative bulges bite into the square.
    CHECK(areaOfDrawing(DxfText().polyline({{0, 0, -1}, {20, 0}, {20, 20}, {0, 20}})) ==
          Approx(400 - kPi * 50).epsilon(1e-3));
    close(areaOfDrawing(DxfText().oldPolyline({{-r, 0, 1}, {r, 0, 1}})), kPi * r * r, perimeter);
}

TEST_CASE("an ellipse and half an ellipse enclose pi a b and its half", "[geometry][dxf]") {
    const auto ellipse = [](double start, double end) {
        return DxfText()
            .add(0, "ELLIPSE")
            .add(8, "0")
            .add(10, 3)
            .add(20, 4)
            .add(11, 12)
            .add(21, 9)
            .add(40, 0.4)
            .add(41, start)
            .add(42, end);
    };
    const double area = kPi * 15 * 6;
    CHECK(areaOfDrawing(ellipse(0, 2 * kPi)) == Approx(area).epsilon(1e-3));
    const DxfText half = ellipse(0, kPi).line(3 - 12, 4 - 9, 3 + 12, 4 + 9);
    CHECK(areaOfDrawing(half) == Approx(area / 2).epsilon(1e-3));
}

TEST_CASE("a rational quadratic spline of nine points is a circle", "[geometry][dxf]") {
    // L. Piegl, W. Tiller, The NURBS Book, section 7.5 (full circle by four arcs); from memory.
    const double w = std::sqrt(0.5), r = 7;
    const double x[] = {1, 1, 0, -1, -1, -1, 0, 1, 1}, y[] = {0, 1, 1, 1, 0, -1, -1, -1, 0};
    DxfText drawing;
    drawing.add(0, "SPLINE").add(8, "0").add(70, 5).add(71, 2).add(72, 12).add(73, 9);
    for (const double knot : {0., 0., 0., 1., 1., 2., 2., 3., 3., 4., 4., 4.})
        drawing.add(40, knot);
    for (int i = 0; i < 9; ++i)
        drawing.add(41, i % 2 == 0 ? 1.0 : w);
    for (int i = 0; i < 9; ++i)
        drawing.add(10, r * x[i]).add(20, r * y[i]).add(30, 0);
    const Profile p = drawing.profile();
    for (const Vec2& point : p.region[0])
        CHECK(point.norm() == Approx(r).epsilon(1e-12));
    CHECK(areaOf(p.region) == Approx(kPi * r * r).epsilon(1e-3));
}

TEST_CASE("a cubic spline with one span is its Bezier curve", "[geometry][dxf]") {
    dxf::SplineCurve s;
    s.knots = {0, 0, 0, 0, 2, 2, 2, 2};
    s.points = {{0, 0}, {1, 3}, {4, 3}, {6, 0}};
    for (const double u : {0.0, 0.125, 0.5, 0.9, 1.0}) {
        const double v = 1 - u;
        const Vec2 bezier = v * v * v * s.points[0] + 3 * v * v * u * s.points[1] + 3 * v * u * u * s.points[2] +
                            u * u * u * s.points[3];
        CHECK((dxf::pointAt(s, 2 * u) - bezier).norm() < 1e-12);
    }
}

TEST_CASE("a uniform cubic spline starts at (P0 + 4 P1 + P2) / 6", "[geometry][dxf]") {
    dxf::SplineCurve s;
    s.knots = {0, 1, 2, 3, 4, 5, 6, 7, 8};
    s.points = {{0, 0}, {2, 5}, {7, 1}, {9, 9}, {12, 0}};
    CHECK((dxf::pointAt(s, 3) - (s.points[0] + 4 * s.points[1] + s.points[2]) / 6).norm() < 1e-12);
    CHECK((dxf::pointAt(s, 5) - (s.points[2] + 4 * s.points[3] + s.points[4]) / 6).norm() < 1e-12);
}

TEST_CASE("blocks are inserted with base point, scale, rotation, array and nesting", "[geometry][dxf]") {
    DxfText drawing;
    drawing.beginBlock("hole", 1, 1).circle(1, 1, 2).endBlock();
    drawing.beginBlock("pair").insert("hole", -5, 0).insert("hole", 5, 0).endBlock();
    drawing.rectangle(-50, -50, 50, 50);
    drawing.insert("hole", 30, 30).add(41, 2).add(42, 2);
    drawing.insert("pair", -30, 30).add(50, 90);
    drawing.insert("hole", -30, -30).add(70, 3).add(71, 2).add(44, 10).add(45, 8);
    const Profile p = drawing.profile();
    REQUIRE(p.region.size() == 1 + 1 + 2 + 6);
    CHECK(areaOf(p.region) == Approx(10000 - kPi * 4 * (4 + 2 + 6)).epsilon(1e-3));
    const auto hasCircle = [&](double x, double y, double r) {
        return std::any_of(p.runs.begin() + 1, p.runs.end(), [&](const std::vector<ContourRun>& runs) {
            return runs.size() == 1 && runs[0].isFullTurn && (runs[0].centre - Vec2(x, y)).norm() < 1e-9 &&
                   std::abs(runs[0].radius_mm - r) < 1e-9;
        });
    };
    CHECK(hasCircle(30, 30, 4));
    CHECK(hasCircle(-30, 25, 2));
    CHECK(hasCircle(-30, 35, 2));
    CHECK(hasCircle(-10, -22, 2));
}

TEST_CASE("an unevenly scaled circle becomes an ellipse and is no bore", "[geometry][dxf]") {
    DxfText drawing;
    drawing.beginBlock("hole").circle(0, 0, 2).endBlock();
    drawing.rectangle(-20, -20, 20, 20).insert("hole", 0, 0).add(41, 3);
    const Profile p = drawing.profile();
    CHECK(areaOf(p.region) == Approx(1600 - kPi * 12).epsilon(1e-4));
    CHECK(p.runs[1][0].kind == SurfaceKind::other);
}

TEST_CASE("an entity seen from below is mirrored in x", "[geometry][dxf]") {
    // Arbitrary axis algorithm for (0, 0, -1): own x axis is world -x, own y axis world +y (DXF reference).
    const Profile p =
        DxfText().rectangle(-30, -10, 0, 10).circle(20, 4, 2).add(210, 0).add(220, 0).add(230, -1).profile();
    REQUIRE(p.runs.size() == 2);
    CHECK((p.runs[1][0].centre - Vec2(-20, 4)).norm() < 1e-12);
    // The upper half of a circle stays the upper half.
    const Profile half = DxfText().arc(0, 0, 10, 0, 180).add(230, -1).line(-10, 0, 10, 0).profile();
    CHECK(std::all_of(half.region[0].begin(), half.region[0].end(), [](const Vec2& q) { return q.y() > -1e-9; }));
    // A mirrored polyline keeps its bulges on the right side.
    CHECK(areaOf(DxfText().polyline({{0, 0, 1}, {20, 0}, {20, 20}, {0, 20}}).add(230, -1).profile().region) ==
          Approx(400 + kPi * 50).epsilon(1e-3));
}

TEST_CASE("units come from the header, or are chosen, or are said to be assumed", "[geometry][dxf]") {
    const auto side = [](int code, double chosen) {
        const Profile p = DxfText(code).rectangle(0, 0, 2, 2).profile(chosen);
        return std::sqrt(areaOf(p.region));
    };
    CHECK(side(1, 0) == Approx(50.8));
    CHECK(side(4, 0) == Approx(2));
    CHECK(side(5, 0) == Approx(20));
    CHECK(side(6, 0) == Approx(2000));
    CHECK(side(1, 10) == Approx(20));
    CHECK(DxfText(1).rectangle(0, 0, 2, 2).profile(10).unitOrigin == "chosen");
    CHECK(DxfText(0).rectangle(0, 0, 2, 2).profile().unitOrigin == "assumed mm: the file does not say");
    CHECK(DxfText(-1).rectangle(0, 0, 2, 2).profile().unitOrigin == "assumed mm: the file does not say");
}

TEST_CASE("line ends, byte order mark, comments, blanks and an R12 file without header are all read",
          "[geometry][dxf]") {
    const std::string text = DxfText().rectangle(0, 0, 20, 10).circle(5, 5, 2).text();
    const double area = areaOf(readText(text).region);
    CHECK(areaOf(readText(replaced(text, "\n", "\r\n")).region) == area);
    CHECK(areaOf(readText(replaced(text, "\n", "\r")).region) == area);
    CHECK(areaOf(readText("\xef\xbb\xbf" + text).region) == area);
    CHECK(areaOf(readText("999\nmade by hand\n" + text).region) == area);
    CHECK(areaOf(readText(replaced(text, "\n10\n", "\n  10  \n")).region) == area);
    CHECK(areaOf(readText(text.substr(text.find("0\nSECTION\n2\nENTITIES"))).region) == area);
}

TEST_CASE("small gaps are closed and named in the notes", "[geometry][dxf]") {
    const Profile p =
        DxfText().line(0, 0, 40, 0).line(40.012, 0, 40, 20).line(40, 20, 0, 20).line(0, 20, 0, 0).profile();
    CHECK(areaOf(p.region) == Approx(800).epsilon(1e-3));
    CHECK(mentions(p.notes, "0.012 mm"));
}

TEST_CASE("segments shorter than the joining tolerance are kept", "[geometry][dxf]") {
    DxfText drawing;
    const int n = 4000;  // 0.008 mm each, tolerance 0.02
    for (int i = 0; i < n; ++i) {
        const double a = 2 * kPi * i / n, b = 2 * kPi * (i + 1) / n;
        drawing.line(5 * std::cos(a), 5 * std::sin(a), 5 * std::cos(b), 5 * std::sin(b));
    }
    CHECK(areaOfDrawing(drawing) == Approx(25 * kPi).epsilon(1e-4));
}

TEST_CASE("lines drawn twice are dropped with a note", "[geometry][dxf]") {
    DxfText drawing;
    drawing.line(0, 0, 40, 0).line(40, 0, 40, 20).line(40, 20, 0, 20).line(0, 20, 0, 0);
    drawing.line(40, 0, 0, 0).line(40, 0, 40, 20);
    drawing.circle(10, 10, 3).circle(10, 10, 3);
    const Profile p = drawing.profile();
    CHECK(p.region.size() == 2);
    CHECK(mentions(p.notes, "3 lines drawn twice"));
}

TEST_CASE("what is no contour is left out and counted", "[geometry][dxf]") {
    DxfText drawing;
    drawing.rectangle(0, 0, 40, 20);
    drawing.add(0, "TEXT").add(8, "NOTES").add(10, 1).add(20, 1).add(1, "5 holes");
    drawing.add(0, "DIMENSION").add(8, "NOTES").add(0, "DIMENSION").add(8, "NOTES");
    drawing.add(0, "LINE").add(67, 1).add(10, 0).add(20, 0).add(11, 5).add(21, 5);
    const Profile p = drawing.profile();
    CHECK(mentions(p.notes, "2 DIMENSION, 1 TEXT"));
    CHECK(mentions(p.notes, "1 hidden"));
}

TEST_CASE("the result does not depend on the order of the entities", "[geometry][dxf]") {
    DxfText forward, backward;
    forward.rectangle(0, 0, 60, 40).circle(10, 10, 3).circle(10, 30, 2).circle(50, 20, 4).rectangle(20, 10, 30, 20);
    backward.rectangle(20, 10, 30, 20).circle(50, 20, 4).circle(10, 30, 2).circle(10, 10, 3);
    backward.line(0, 40, 0, 0).line(60, 40, 0, 40).line(60, 0, 60, 40).line(0, 0, 60, 0);
    const Solid a = extruded(forward.profile(), 8), b = extruded(backward.profile(), 8);
    REQUIRE(a.faces.size() == b.faces.size());
    for (std::size_t i = 0; i < a.faces.size(); ++i) {
        CHECK(a.faces[i].name == b.faces[i].name);
        CHECK((a.faces[i].centroid - b.faces[i].centroid).norm() < 1e-9);
    }
}

TEST_CASE("an extruded profile is closed and its faces carry what the drawing says", "[geometry][dxf]") {
    DxfText drawing;
    drawing.polyline({{0, 0}, {50, 0}, {60, 10, 0}, {60, 30, 1}, {40, 30}, {0, 30}});
    drawing.circle(15, 20, 4).circle(15, 8, 3);
    drawing.polyline({{35, 6}, {45, 6, 1}, {45, 10}, {35, 10, 1}});  // slot
    const Profile p = drawing.profile();
    const Solid solid = extruded(p, 12);
    CHECK(findLeak(solid.mesh).openEdges == 0);
    CHECK(volumeOf(solid.mesh) == Approx(12 * areaOf(p.region)));
    const auto face = [&](const std::string& name) {
        const auto it =
            std::find_if(solid.faces.begin(), solid.faces.end(), [&](const Face& f) { return f.name == name; });
        REQUIRE(it != solid.faces.end());
        return *it;
    };
    CHECK(face("bottom").direction == Vec3(-Vec3::UnitZ()));
    CHECK(face("top").area_mm2 == Approx(areaOf(p.region)));
    const Face hole = face("hole 1");
    CHECK(hole.kind == SurfaceKind::cylinder);
    CHECK(hole.isHollow);
    CHECK(hole.isFullTurn);
    CHECK(hole.radius_mm == Approx(3));
    CHECK((hole.point - Vec3(15, 8, 6)).norm() < 1e-9);
    CHECK(face("hole 2").radius_mm == Approx(4));
    const Face first = face("side 1");
    CHECK(first.kind == SurfaceKind::plane);
    CHECK((first.direction - Vec3(0, -1, 0)).norm() < 1e-12);
    std::size_t bosses = 0, slotEnds = 0;
    for (const Face& f : solid.faces) {
        if (f.kind != SurfaceKind::cylinder || f.isFullTurn) continue;
        bosses += f.isHollow ? 0 : 1;
        slotEnds += f.isHollow ? 1 : 0;
    }
    CHECK(bosses == 1);
    CHECK(slotEnds == 2);
    CHECK(solid.faces.size() == 2 + 6 + 2 + 4);
    for (std::size_t t = 0; t < solid.mesh.triangles.size(); ++t) {
        const Face& f = solid.faces[solid.faceOfTriangle[t]];
        const Vec3 n = normalOf(solid.mesh, t);
        if (f.kind == SurfaceKind::plane) CHECK(n.dot(f.direction) == Approx(1));
        if (f.kind == SurfaceKind::cylinder) {
            const Vec3& v = solid.mesh.vertices[solid.mesh.triangles[t][0]];
            Vec3 radial = v - f.point;
            radial.z() = 0;
            CHECK(radial.norm() == Approx(f.radius_mm).epsilon(1e-6));
            CHECK((n.dot(radial) < 0) == f.isHollow);
        }
    }
}

TEST_CASE("collinear pieces and arcs of one circle are one face", "[geometry][dxf]") {
    DxfText drawing;
    drawing.polyline({{0, 0}, {10, 0}, {25, 0}, {40, 0}, {40, 20}, {0, 20}});
    drawing.arc(20, 10, 5, 0, 120).arc(20, 10, 5, 120, 240).arc(20, 10, 5, 240, 360);
    const Solid solid = extruded(drawing.profile(), 5);
    REQUIRE(solid.faces.size() == 2 + 4 + 1);
    CHECK(solid.faces.back().name == "hole 1");
    CHECK(solid.faces.back().isFullTurn);
}

TEST_CASE("a profile without runs extrudes with a face per straight stretch", "[geometry][dxf]") {
    Profile p;
    p.region = {{{5, 0}, {10, 0}, {10, 10}, {0, 10}, {0, 0}}};
    const Solid solid = extruded(p, 5);
    CHECK(solid.faces.size() == 2 + 4);
    CHECK(findLeak(solid.mesh).openEdges == 0);
    for (const double thickness : {0.0, -1.0, std::nan(""), 1e9})
        CHECK_THROWS_AS(extruded(p, thickness), InputFault);
}
