#include <catch2/catch.hpp>
#include <cmath>
#include <cstring>
#include <limits>
#include <random>
#include <sstream>

#include "core/fault/input_fault.h"
#include "core/geometry/import/stl.h"

using namespace waybench;

namespace {

/// Box with one corner at the origin.
Mesh box(double x, double y, double z) {
    Mesh mesh;
    for (int i = 0; i < 8; ++i)
        mesh.vertices.emplace_back(i & 1 ? x : 0, i & 2 ? y : 0, i & 4 ? z : 0);
    mesh.triangles = {{0, 2, 1}, {1, 2, 3}, {4, 5, 6}, {5, 7, 6}, {0, 1, 4}, {1, 5, 4},
                      {2, 6, 3}, {3, 6, 7}, {0, 4, 2}, {2, 4, 6}, {1, 3, 5}, {3, 7, 5}};
    return mesh;
}

std::string binary(const Mesh& mesh) {
    std::ostringstream out;
    writeStl(out, mesh);
    return out.str();
}

std::string ascii(const Mesh& mesh, const std::string& newline = "\n") {
    std::ostringstream out;
    out.precision(9);
    out << "solid test body" << newline;
    for (const auto& t : mesh.triangles) {
        out << "  facet normal 0 0 0" << newline << "    outer loop" << newline;
        for (const std::uint32_t v : t)
            out << "      vertex " << mesh.vertices[v].x() << " " << mesh.vertices[v].y() << " " << mesh.vertices[v].z()
                << newline;
        out << "    endloop" << newline << "  endfacet" << newline;
    }
    out << "endsolid test body" << newline;
    return out.str();
}

Healed mended(const std::string& content, double unit_mm = 0) {
    std::istringstream in(content);
    return readStl(in, "test.stl", unit_mm);
}

Mesh read(const std::string& content, double unit_mm = 0) {
    return mended(content, unit_mm).mesh;
}

InputFault faultOf(const std::string& content, double unit_mm = 0) {
    try {
        read(content, unit_mm);
    } catch (const InputFault& fault) {
        CHECK(fault.file() == "test.stl");
        CHECK_FALSE(fault.remedy().empty());
        return fault;
    }
    return {"accepted", "", "", "", ""};
}

bool survives(const std::string& content) {
    try {
        const Mesh mesh = read(content);
        if (findLeak(mesh).openEdges != 0) FAIL("mesh leaks");
        if (!(volumeOf(mesh) > 0)) FAIL("mesh has no volume");
        return true;
    } catch (const InputFault&) {
        return false;
    }
}

}  // namespace

TEST_CASE("a binary surface reads back as it was written", "[geometry][stl]") {
    const Mesh original = box(20, 30, 7);
    const std::string content = binary(original);
    CHECK(content.size() == 84 + 50 * 12);
    const Mesh mesh = read(content);
    CHECK(mesh.vertices.size() == 8);
    CHECK(mesh.triangles.size() == 12);
    CHECK(volumeOf(mesh) == Approx(4200));
    CHECK(binary(mesh) == content.substr(0, 80) + binary(mesh).substr(80));
    CHECK(binary(read(binary(mesh))) == binary(mesh));
}

TEST_CASE("an ASCII surface is read with any line ends and capitals", "[geometry][stl]") {
    const Mesh original = box(20, 30, 7);
    for (const std::string newline : {"\n", "\r\n", "\r"})
        CHECK(volumeOf(read(ascii(original, newline))) == Approx(4200));
    std::string loud = ascii(original);
    for (char& c : loud)
        if (c >= 'a' && c <= 'z') c = char(c - 'a' + 'A');
    CHECK(volumeOf(read(loud)) == Approx(4200));
    std::string unnamed = ascii(original);
    unnamed.replace(0, std::strlen("solid test body"), "solid");
    CHECK(volumeOf(read(unnamed)) == Approx(4200));
}

TEST_CASE("a binary file whose head begins with solid is still read as binary", "[geometry][stl]") {
    std::string content = binary(box(20, 30, 7));
    content.replace(0, 5, "solid");
    CHECK(volumeOf(read(content)) == Approx(4200));
}

TEST_CASE("two solids in one ASCII file are one surface", "[geometry][stl]") {
    Mesh far = box(5, 5, 5);
    for (Vec3& v : far.vertices)
        v.x() += 100;
    CHECK(volumeOf(read(ascii(box(20, 30, 7)) + ascii(far))) == Approx(4200 + 125));
}

TEST_CASE("an inverted surface is turned outwards", "[geometry][stl]") {
    Mesh inverted = box(20, 30, 7);
    for (auto& t : inverted.triangles)
        std::swap(t[0], t[1]);
    CHECK(volumeOf(read(binary(inverted))) == Approx(4200));
}

TEST_CASE("the file unit scales the surface", "[geometry][stl]") {
    CHECK(volumeOf(read(binary(box(2, 3, 1)), 25.4)) == Approx(6 * std::pow(25.4, 3)).epsilon(1e-6));
}

TEST_CASE("corners that differ by rounding are merged", "[geometry][stl]") {
    Mesh mesh = box(20, 30, 7);
    Mesh loose;
    double jitter = 1e-5;
    for (const auto& t : mesh.triangles) {
        for (const std::uint32_t v : t)
            loose.vertices.push_back(mesh.vertices[v] + Vec3(jitter, -jitter, jitter));
        const auto n = static_cast<std::uint32_t>(loose.vertices.size());
        loose.triangles.push_back({n - 3, n - 2, n - 1});
        jitter = -jitter;
    }
    CHECK(read(binary(loose)).vertices.size() == 8);
}

TEST_CASE("a leaking surface is refused with the place", "[geometry][stl]") {
    Mesh mesh = box(20, 30, 7);
    mesh.triangles.pop_back();
    const InputFault missing = faultOf(binary(mesh));
    CHECK(missing.code() == "surface_leaks");
    CHECK(missing.place().find("20") != std::string::npos);
    CHECK(missing.problem().find("3 edges") != std::string::npos);
}

TEST_CASE("small faults are mended and told, and a sound surface has none", "[geometry][stl]") {
    const Mesh sound = box(20, 30, 7);
    CHECK(mended(binary(sound)).notes.empty());
    const auto mends = [&](const Mesh& mesh, const std::string& word) {
        const Healed result = mended(binary(mesh));
        CHECK(findLeak(result.mesh).openEdges == 0);
        CHECK(volumeOf(result.mesh) == Approx(4200).epsilon(2e-3));
        REQUIRE(result.notes.size() == 1);
        INFO(result.notes[0]);
        CHECK(result.notes[0].find(word) != std::string::npos);
    };
    Mesh flipped = sound;
    std::swap(flipped.triangles[0][0], flipped.triangles[0][1]);
    mends(flipped, "1 facet faced the other way");
    Mesh twice = sound;
    twice.triangles.push_back(sound.triangles[3]);
    twice.triangles.push_back(sound.triangles[7]);
    mends(twice, "2 facets stood twice");
    Mesh flap = sound;  // a fin of no thickness
    flap.vertices.emplace_back(30, 10, 3);
    flap.triangles.push_back({0, 1, 8});
    flap.triangles.push_back({1, 0, 8});
    mends(flap, "2 facets stood twice");
    Mesh cracked = sound;  // one facet's corner 0.01 mm off
    cracked.vertices.push_back(sound.vertices[7] + Vec3(0.006, 0.008, 0));
    for (std::uint32_t& v : cracked.triangles[5 + 6])
        if (v == 7) v = 8;
    mends(cracked, "cracks up to 0.01");
    Mesh cornered = sound;  // the upper edge of one side in two pieces that the top knows nothing of
    cornered.vertices.emplace_back(10, 0, 7);
    for (std::size_t i = 0; i < cornered.triangles.size(); ++i)
        if (cornered.triangles[i] == std::array<std::uint32_t, 3>{1, 5, 4}) cornered.triangles[i] = {1, 5, 8};
    cornered.triangles.push_back({1, 8, 4});
    mends(cornered, "corner on an edge");
}

TEST_CASE("a gap too wide to be a slip and a missing facet stay refused", "[geometry][stl]") {
    Mesh gap = box(20, 30, 7);
    gap.vertices.push_back(gap.vertices[7] + Vec3(0.5, 0, 0));
    for (std::uint32_t& v : gap.triangles[11])
        if (v == 7) v = 8;
    CHECK(faultOf(binary(gap)).code() == "surface_leaks");
}

TEST_CASE("a million facets are read in whole", "[geometry][stl]") {
    // a box whose top is a fine grid of waves, closed by walls down to the floor
    constexpr int kSide = 700;
    Mesh mesh;
    for (int j = 0; j <= kSide; ++j)
        for (int i = 0; i <= kSide; ++i)
            mesh.vertices.emplace_back(0.1 * i, 0.1 * j, 10 + std::sin(0.05 * i) * std::cos(0.04 * j));
    const auto top = [&](int i, int j) { return static_cast<std::uint32_t>(j * (kSide + 1) + i); };
    for (int j = 0; j < kSide; ++j)
        for (int i = 0; i < kSide; ++i) {
            mesh.triangles.push_back({top(i, j), top(i + 1, j), top(i, j + 1)});
            mesh.triangles.push_back({top(i + 1, j), top(i + 1, j + 1), top(i, j + 1)});
        }
    std::vector<std::uint32_t> rim;
    for (int i = 0; i < kSide; ++i)
        rim.push_back(top(i, 0));
    for (int j = 0; j < kSide; ++j)
        rim.push_back(top(kSide, j));
    for (int i = kSide; i > 0; --i)
        rim.push_back(top(i, kSide));
    for (int j = kSide; j > 0; --j)
        rim.push_back(top(0, j));
    const auto foot = static_cast<std::uint32_t>(mesh.vertices.size());
    for (const std::uint32_t v : rim)
        mesh.vertices.emplace_back(mesh.vertices[v].x(), mesh.vertices[v].y(), 0);
    const auto middle = static_cast<std::uint32_t>(mesh.vertices.size());
    mesh.vertices.emplace_back(35, 35, 0);
    const auto count = static_cast<std::uint32_t>(rim.size());
    for (std::uint32_t k = 0; k < count; ++k) {
        const std::uint32_t n = (k + 1) % count;
        mesh.triangles.push_back({rim[k], foot + k, rim[n]});
        mesh.triangles.push_back({rim[n], foot + k, foot + n});
        mesh.triangles.push_back({middle, foot + n, foot + k});
    }
    REQUIRE(mesh.triangles.size() > 980000);
    const Healed result = mended(binary(mesh));
    CHECK(result.notes.empty());
    CHECK(result.mesh.triangles.size() == mesh.triangles.size());
    CHECK(volumeOf(result.mesh) == Approx(volumeOf(mesh)).epsilon(1e-5));
}

TEST_CASE("damaged, empty and absurd surfaces are refused", "[geometry][stl]") {
    const Mesh mesh = box(20, 30, 7);
    const std::string content = binary(mesh), text = ascii(mesh);
    CHECK(faultOf("").code() == "file_not_stl");
    CHECK(faultOf("hello").code() == "file_not_stl");
    CHECK(faultOf("0\nSECTION\n2\nENTITIES\n" + std::string(200, 'x')).code() == "file_not_stl");
    CHECK(faultOf(content.substr(0, 300)).code() == "file_truncated");
    CHECK(faultOf(text.substr(0, 400)).code() == "file_truncated");
    CHECK(faultOf("solid nothing\nendsolid nothing\n").code() == "surface_empty");
    CHECK(faultOf(binary(Mesh{})).code() == "surface_empty");
    CHECK(faultOf(binary(box(0.1, 0.1, 0.1))).code() == "size_absurd");
    CHECK(faultOf(binary(box(1e6, 1, 1))).code() == "size_absurd");
    CHECK(faultOf(content, -1).code() == "size_absurd");
    CHECK(faultOf(content, std::numeric_limits<double>::quiet_NaN()).code() == "size_absurd");
    Mesh flat = box(20, 30, 7);
    flat.triangles = {{0, 1, 3}, {3, 1, 0}};
    CHECK(faultOf(binary(flat)).code() == "surface_empty");
    std::string promising = content;
    std::memset(promising.data() + 80, 0xff, 4);
    CHECK(faultOf(promising).code() == "file_truncated");
}

TEST_CASE("coordinates that are no numbers are named with facet or line", "[geometry][stl]") {
    std::string content = binary(box(20, 30, 7));
    const float nan = std::numeric_limits<float>::quiet_NaN();
    std::memcpy(content.data() + 84 + 50 * 4 + 12, &nan, 4);
    const InputFault facet = faultOf(content);
    CHECK(facet.code() == "number_unreadable");
    CHECK(facet.place() == "facet 5");
    std::string text = ascii(box(20, 30, 7));
    text.replace(text.find("vertex 0 0 0"), 12, "vertex 0 x 0");
    const InputFault line = faultOf(text);
    CHECK(line.code() == "number_unreadable");
    CHECK(line.place() == "line 4");
}

TEST_CASE("no damage to a surface brings anything but a fault or a closed body", "[geometry][stl][fuzz]") {
    std::mt19937 random(99);
    const auto below = [&](std::size_t n) { return std::uniform_int_distribution<std::size_t>(0, n - 1)(random); };
    const Mesh mesh = box(20, 30, 7);
    std::size_t accepted = 0;
    for (const std::string& content : {binary(mesh), ascii(mesh)}) {
        REQUIRE(survives(content));
        for (int i = 0; i < 1500; ++i) {
            std::string damaged = content;
            for (std::size_t n = 1 + below(3); n > 0; --n)
                damaged[below(damaged.size())] = char(below(256));
            accepted += survives(damaged);
        }
        for (int i = 0; i < 300; ++i)
            accepted += survives(content.substr(0, below(content.size())));
        for (int i = 0; i < 300; ++i)
            accepted += survives(content + std::string(below(200), char(below(256))));
    }
    for (int i = 0; i < 500; ++i) {
        std::string garbage(below(2000), ' ');
        for (char& c : garbage)
            c = char(below(256));
        if (i % 2 == 0) garbage = "solid " + garbage;
        CHECK_FALSE(survives(garbage));
    }
    CHECK(accepted > 100);  // damage to normals and names does no harm
}
