#include <catch2/catch.hpp>
#include <random>

#include "core/fault/input_fault.h"
#include "tests/geometry/dxf_text.h"

using namespace waybench;
using waybench::test::DxfText;

namespace {

InputFault faultOf(const std::string& text) {
    try {
        std::istringstream in(text);
        readDxf(in, "test.dxf");
    } catch (const InputFault& fault) {
        CHECK(fault.file() == "test.dxf");
        CHECK_FALSE(fault.problem().empty());
        CHECK_FALSE(fault.remedy().empty());
        return fault;
    }
    return {"accepted", "", "", "", ""};
}

std::string codeOf(const DxfText& drawing) {
    return faultOf(drawing.text()).code();
}

/// Drawings of every kind of entity, as ground for damage.
std::vector<std::string> sampleTexts() {
    DxfText plate;
    plate.beginBlock("hole").circle(0, 0, 2).endBlock();
    plate.polyline({{0, 0}, {50, 0, 0.4}, {50, 30}, {0, 30}}).insert("hole", 7, 10).add(70, 2).add(44, 8);
    plate.line(20, 10, 25, 10).arc(25, 12, 2, 270, 90).line(25, 14, 20, 14).arc(20, 12, 2, 90, 270);
    DxfText curves(1);
    curves.oldPolyline({{-2, -2}, {2, -2, 0.3}, {2, 2}, {-2, 2}});
    curves.add(0, "ELLIPSE")
        .add(10, 0)
        .add(20, 0)
        .add(11, 1)
        .add(21, 0)
        .add(40, 0.5)
        .add(41, 0)
        .add(42, 6.283185307179586);
    curves.add(0, "SPLINE").add(70, 8).add(71, 3);
    for (const double k : {0., 0., 0., 0., 1., 1., 1., 1.})
        curves.add(40, k);
    for (const double x : {-1., -0.5, 0.5, 1.})
        curves.add(10, x).add(20, 1.2 + x * x / 4);
    curves.line(1, 1.45, 1, 1.1).line(1, 1.1, -1, 1.1).line(-1, 1.1, -1, 1.45);
    return {plate.text(), curves.text()};
}

/// Reads a damaged text; anything but a fault or a good profile fails the test. True when a profile came out.
bool survives(const std::string& text) {
    try {
        std::istringstream in(text);
        const Profile p = readDxf(in, "damaged.dxf");
        if (p.region.empty() || !(areaOf(p.region) > 0) || p.runs.size() != p.region.size())
            FAIL("profile is no profile");
        std::size_t points = 0;
        for (const Ring& ring : p.region)
            points += ring.size();
        if (points > 3000) return true;
        const Solid solid = extruded(p, 5);
        if (findLeak(solid.mesh).openEdges != 0) FAIL("extrusion leaks");
        if (!(volumeOf(solid.mesh) > 0)) FAIL("extrusion has no volume");
        return true;
    } catch (const InputFault&) {
        return false;
    }
}

}  // namespace

TEST_CASE("an open contour is refused with the largest gap and its place", "[geometry][dxf]") {
    const InputFault fault =
        faultOf(DxfText().line(0, 0, 40, 0).line(40, 0, 40, 20).line(40, 20, 0, 20).line(0, 19.5, 0, 0).text());
    CHECK(fault.code() == "contour_open");
    CHECK(fault.problem().find("0.5 mm") != std::string::npos);
    CHECK(fault.place().find("(0 ") != std::string::npos);
    CHECK(fault.place().find("LINE") != std::string::npos);
    CHECK(codeOf(DxfText().arc(0, 0, 10, 0, 90)) == "contour_open");
    CHECK(codeOf(DxfText().rectangle(0, 0, 40, 20).line(5, 5, 10, 5)) == "contour_open");
}

TEST_CASE("contours that cross, touch, branch or fold back are refused", "[geometry][dxf]") {
    const InputFault bow = faultOf(DxfText().polyline({{0, 0}, {40, 20}, {40, 0}, {0, 20}}).text());
    CHECK(bow.code() == "contour_crosses_itself");
    CHECK(bow.place().find("(20 10)") != std::string::npos);
    CHECK(codeOf(DxfText().rectangle(0, 0, 40, 20).circle(40, 10, 5)) == "contour_crosses_itself");
    CHECK(codeOf(DxfText().rectangle(0, 0, 40, 20).rectangle(40, 5, 50, 10)) == "contour_crosses_itself");
    CHECK(codeOf(DxfText().polyline({{0, 0}, {40, 0}, {40, 20}, {40, -10}, {0, -10}})) == "contour_crosses_itself");
    CHECK(codeOf(DxfText().polyline({{0, 0}, {40, 0}})) == "contour_crosses_itself");
    CHECK(codeOf(DxfText().line(0, 0, 9, 0).line(9, 0, 9, 9).line(9, 9, 0, 0).line(0, 0, -9, -9)) ==
          "contour_branches");
}

TEST_CASE("several bodies in one drawing are refused", "[geometry][dxf]") {
    CHECK(codeOf(DxfText().rectangle(0, 0, 10, 10).rectangle(20, 0, 30, 10)) == "several_bodies");
    const InputFault island = faultOf(DxfText().rectangle(0, 0, 60, 60).circle(30, 30, 20).circle(30, 30, 5).text());
    CHECK(island.code() == "several_bodies");
    CHECK(island.remedy().find("frame") != std::string::npos);
}

TEST_CASE("files that are no ASCII drawing are refused clearly", "[geometry][dxf]") {
    CHECK(faultOf("").code() == "file_not_dxf");
    CHECK(faultOf("hello\nworld\n").code() == "file_not_dxf");
    CHECK(faultOf("solid cube\nfacet normal 0 0 1\n").code() == "file_not_dxf");
    CHECK(faultOf(std::string("%PDF-1.7\n\0\0", 11)).code() == "file_not_dxf");
    const InputFault binary = faultOf(std::string("Some Binary DXF\r\n\x1a\0\0\0", 21));
    CHECK(binary.code() == "file_not_dxf");
    CHECK(binary.problem().find("binary") != std::string::npos);
    CHECK(faultOf("0\nSECTION\n2\nHEADER\n0\nENDSEC\n0\nEOF\n").code() == "drawing_empty");
    CHECK(codeOf(DxfText()) == "drawing_empty");
    CHECK(codeOf(DxfText().add(0, "TEXT").add(1, "nothing")) == "drawing_empty");
}

TEST_CASE("a drawing cut off in the middle is refused, even where the contours read so far are closed",
          "[geometry][dxf]") {
    const std::string text = DxfText().rectangle(0, 0, 40, 20).circle(10, 10, 3).circle(30, 10, 3).text();
    for (std::size_t keep = 0; keep + 12 < text.size(); ++keep) {
        INFO("first " << keep << " bytes");
        CHECK(faultOf(text.substr(0, keep)).code() != "accepted");
    }
}

TEST_CASE("numbers that cannot be read are named with their line", "[geometry][dxf]") {
    for (const char* bad : {"abc", "1,5", "nan", "inf", "", "1e999", "0x10"}) {
        const InputFault fault = faultOf(DxfText().add(0, "CIRCLE").add(10, 0).add(20, 0).add(40, bad).text());
        INFO(bad);
        CHECK(fault.code() == "number_unreadable");
        CHECK(fault.place().find("line 2") != std::string::npos);
    }
    CHECK(codeOf(DxfText().add(0, "CIRCLE").add(10, 0).add(40, 5)) == "number_unreadable");
    CHECK(codeOf(DxfText().add(0, "LWPOLYLINE").add(70, 1).add(10, 0).add(10, 5).add(20, 5)) == "number_unreadable");
}

TEST_CASE("absurd sizes, tilted entities, wrong splines and lost blocks are refused", "[geometry][dxf]") {
    CHECK(codeOf(DxfText().circle(0, 0, 0)) == "size_absurd");
    CHECK(codeOf(DxfText().circle(0, 0, -3)) == "size_absurd");
    CHECK(codeOf(DxfText().circle(0, 0, 1e8)) == "size_absurd");
    CHECK(codeOf(DxfText().circle(1e12, 0, 5)) == "size_absurd");
    CHECK(codeOf(DxfText().circle(0, 0, 0.01)) == "size_absurd");
    CHECK(codeOf(DxfText(6).circle(0, 0, 50)) == "size_absurd");
    CHECK(codeOf(DxfText().circle(0, 0, 5).add(210, 1).add(220, 0).add(230, 0)) == "entity_not_flat");
    CHECK(codeOf(DxfText().line(0, 0, 5, 5).add(30, 0).add(31, 7)) == "entity_not_flat");
    CHECK(codeOf(DxfText().add(0, "SPLINE").add(71, 3).add(11, 0).add(21, 0)) == "spline_unusable");
    CHECK(codeOf(DxfText().add(0, "SPLINE").add(71, 3).add(10, 0).add(20, 0).add(40, 1)) == "spline_unusable");
    CHECK(codeOf(DxfText().add(0, "SPLINE").add(71, 1000000000).add(10, 0).add(20, 0)) == "spline_unusable");
    DxfText spread;
    spread.beginBlock("hole").circle(0, 0, 1).endBlock().rectangle(-9, -9, 9, 9);
    CHECK(codeOf(spread.insert("hole", 0, 0).add(70, 2).add(44, "1e308").add(50, 45)) == "size_absurd");
    CHECK(codeOf(DxfText().insert("ghost", 0, 0)) == "block_missing");
    DxfText loop;
    loop.beginBlock("a").insert("b", 0, 0).endBlock().beginBlock("b").insert("a", 1, 1).endBlock().insert("a", 0, 0);
    CHECK(codeOf(loop) == "block_recursive");
}

TEST_CASE("a drawing that multiplies without end is refused in good time", "[geometry][dxf]") {
    DxfText array;
    array.beginBlock("hole").circle(0, 0, 1).endBlock();
    array.insert("hole", 0, 0).add(70, 30000).add(71, 30000).add(44, 3).add(45, 3);
    CHECK(codeOf(array) == "drawing_too_complex");
    DxfText doubling;
    doubling.beginBlock("b0").circle(0, 0, 1).endBlock();
    for (int i = 1; i < 16; ++i) {
        const std::string inner = "b" + std::to_string(i - 1);
        doubling.beginBlock("b" + std::to_string(i));
        for (int k = 0; k < 4; ++k)
            doubling.insert(inner, k, k);
        doubling.endBlock();
    }
    CHECK(codeOf(doubling.insert("b15", 0, 0)) == "drawing_too_complex");
    DxfText promising;
    promising.add(0, "LWPOLYLINE").add(90, 2000000000).add(70, 1).add(10, 0).add(20, 0).add(10, 9).add(20, 0);
    promising.add(10, 9).add(20, 9);
    CHECK(codeOf(promising) == "accepted");
}

TEST_CASE("no damage to a drawing brings anything but a fault or a sound profile", "[geometry][dxf][fuzz]") {
    std::mt19937 random(20240501);
    const auto below = [&](std::size_t n) { return std::uniform_int_distribution<std::size_t>(0, n - 1)(random); };
    std::size_t accepted = 0;
    for (const std::string& text : sampleTexts()) {
        REQUIRE(survives(text));
        for (int i = 0; i < 400; ++i) {
            std::string damaged = text;
            for (std::size_t n = 1 + below(3); n > 0; --n)
                damaged[below(damaged.size())] = char(32 + below(95));
            accepted += survives(damaged);
        }
        for (int i = 0; i < 400; ++i) {  // digits only: the structure holds and the geometry suffers
            std::string damaged = text;
            for (std::size_t n = 1 + below(4); n > 0; --n) {
                char& c = damaged[below(damaged.size())];
                if (c >= '0' && c <= '9') c = char('0' + below(10));
            }
            accepted += survives(damaged);
        }
        for (int i = 0; i < 150; ++i)
            survives(text.substr(0, below(text.size())));
        for (int i = 0; i < 150; ++i) {  // a stretch lost
            std::string damaged = text;
            const std::size_t at = below(damaged.size());
            damaged.erase(at, below(80));
            accepted += survives(damaged);
        }
    }
    for (int i = 0; i < 300; ++i) {
        std::string garbage(below(400), ' ');
        for (char& c : garbage)
            c = char(below(256));
        CHECK_FALSE(survives(garbage));
    }
    CHECK(accepted > 50);
}

TEST_CASE("random entities bring a fault or a sound profile", "[geometry][dxf][fuzz]") {
    std::mt19937 random(77);
    std::uniform_real_distribution<double> place(-30, 30), bulge(-2, 2);
    std::uniform_int_distribution<int> count(3, 7);
    std::size_t accepted = 0;
    for (int i = 0; i < 1500; ++i) {
        DxfText drawing;
        std::vector<DxfText::Corner> corners;
        for (int n = count(random); n > 0; --n)
            corners.push_back({place(random), place(random), i % 2 == 0 ? 0 : 0.3 * bulge(random)});
        drawing.polyline(corners);
        if (i % 3 == 0) drawing.circle(place(random) / 4, place(random) / 4, 1);
        accepted += survives(drawing.text());
    }
    CHECK(accepted > 100);
}
