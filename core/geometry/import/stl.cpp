#include "core/geometry/import/stl.h"

#include <algorithm>
#include <bit>
#include <cmath>
#include <numeric>
#include <ostream>
#include <stdexcept>

#include "core/fault/input_fault.h"
#include "core/geometry/import/stl_facets.h"
#include "core/quantity/quantity_text.h"

namespace waybench {

namespace {

constexpr std::size_t kLargestFile = std::size_t{512} << 20;
constexpr std::size_t kHeadBytes = 84, kFacetBytes = 50;
constexpr double kMerged = 1e-5;                   // of the size
constexpr double kCrack_mm = 0.02, kCrack = 1e-4;  // closed: the greater of the two, the second of the size
constexpr double kFlatVolume = 1e-9;               // of the bounding box's cube
constexpr double kSmallest_mm = 0.5, kLargest_mm = 20000, kFarthest_mm = 1e6;

std::string contentOf(std::istream& in) {
    std::string content;
    std::vector<char> block(1 << 16);
    while (in.read(block.data(), static_cast<std::streamsize>(block.size())) || in.gcount() > 0) {
        content.append(block.data(), static_cast<std::size_t>(in.gcount()));
        if (content.size() > kLargestFile)
            throw InputFault("file_too_large", "", "", "the surface is larger than 512 MB",
                             "export it again with coarser facets");
    }
    return content;
}

std::size_t promisedBytes(const std::string& content) {
    std::size_t count = 0;
    for (int i = 3; i >= 0; --i)
        count = count << 8 | static_cast<unsigned char>(content[80 + i]);
    return kHeadBytes + count * kFacetBytes;
}

/// Begins like a text and holds no byte a text cannot hold near its start.
bool looksLikeText(const std::string& content) {
    const std::size_t begin = content.find_first_not_of(" \t\r\n");
    if (begin == std::string::npos || content.size() < begin + 5) return false;
    std::string word = content.substr(begin, 5);
    for (char& c : word)
        if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
    return word == "solid" && content.substr(0, 1024).find('\0') == std::string::npos;
}

std::vector<Vec3> cornersOf(const std::string& content) {
    if (content.size() >= kHeadBytes && promisedBytes(content) == content.size()) return stl::cornersOfBinary(content);
    if (looksLikeText(content)) return stl::cornersOfText(content);
    const bool isPlausibleBinary = content.size() >= kHeadBytes && content.find('\0') != std::string::npos;
    if (!isPlausibleBinary)
        throw InputFault("file_not_stl", "", "", "this is not an STL surface", "export the surface again as STL");
    return stl::cornersOfBinary(content);  // names what is missing; bytes behind the facets do no harm
}

std::vector<Vec3> someCornersOf(const std::string& content) {
    std::vector<Vec3> corners = cornersOf(content);
    if (corners.empty())
        throw InputFault("surface_empty", "", "", "the surface has no facet", "export the body again as STL");
    return corners;
}

/// Corners with equal coordinates become one vertex, numbered by first use.
Mesh sharedVertices(const std::vector<Vec3>& corners) {
    std::vector<std::uint32_t> order(corners.size());
    std::iota(order.begin(), order.end(), 0u);
    std::sort(order.begin(), order.end(), [&](std::uint32_t a, std::uint32_t b) {
        for (int i = 0; i < 3; ++i)
            if (corners[a][i] != corners[b][i]) return corners[a][i] < corners[b][i];
        return a < b;
    });
    std::vector<std::uint32_t> firstUse(corners.size()), number(corners.size());
    for (std::size_t i = 0; i < order.size(); ++i) {
        const bool isSame = i > 0 && corners[order[i]] == corners[order[i - 1]];
        firstUse[order[i]] = isSame ? firstUse[order[i - 1]] : order[i];
    }
    Mesh mesh;
    for (std::uint32_t c = 0; c < corners.size(); ++c) {
        if (firstUse[c] == c) {
            number[c] = static_cast<std::uint32_t>(mesh.vertices.size());
            mesh.vertices.push_back(corners[c]);
        } else {
            number[c] = number[firstUse[c]];
        }
    }
    for (std::size_t c = 0; c + 2 < corners.size(); c += 3)
        mesh.triangles.push_back({number[c], number[c + 1], number[c + 2]});
    return mesh;
}

Box3 boundsOf(const std::vector<Vec3>& corners) {
    Box3 box;
    for (const Vec3& p : corners)
        box.include(p);
    return box;
}

double checkedSize(const std::vector<Vec3>& corners) {
    const Box3 box = boundsOf(corners);
    const double size = box.size().maxCoeff(),
                 farthest = std::max(box.low.cwiseAbs().maxCoeff(), box.high.cwiseAbs().maxCoeff());
    if (!(size >= kSmallest_mm && size <= kLargest_mm))
        throw InputFault("size_absurd", "", "", "the surface would be " + plainNumber(size) + " mm large",
                         "choose the unit of the file (mm per file unit); STL itself carries none");
    if (farthest > kFarthest_mm)
        throw InputFault("size_absurd", "", "", "the surface lies farther than 1 km from the origin",
                         "move it to the origin and export again");
    return size;
}

Healed closedMesh(const std::string& content, double unit_mm) {
    if (unit_mm == 0) unit_mm = 1;
    if (!(unit_mm > 0) || !std::isfinite(unit_mm))
        throw InputFault("size_absurd", "", "unit", "the file unit is not above zero", "enter mm per file unit");
    std::vector<Vec3> corners = someCornersOf(content);
    for (Vec3& p : corners)
        p *= unit_mm;
    const double size = checkedSize(corners);
    Healed sound = healed(welded(sharedVertices(corners), kMerged * size), std::max(kCrack_mm, kCrack * size));
    Mesh& mesh = sound.mesh;
    const Leak leak = findLeak(mesh);
    if (leak.openEdges > 0) {
        const auto tenth = [](double v) { return plainNumber(std::round(v * 10) / 10); };
        throw InputFault(
            "surface_leaks", "",
            "at (" + tenth(leak.place.x()) + " " + tenth(leak.place.y()) + " " + tenth(leak.place.z()) + ")",
            "the surface is not closed: " + std::to_string(leak.openEdges) +
                " edges do not join exactly two facets that agree on what is outside",
            "repair the surface where it was made and export again");
    }
    const double volume = volumeOf(mesh);
    if (std::abs(volume) <= kFlatVolume * size * size * size)
        throw InputFault("surface_empty", "", "", "the surface encloses no volume", "export a solid body");
    if (volume < 0)
        for (auto& t : mesh.triangles)
            std::swap(t[1], t[2]);
    return sound;
}

void putWord(std::ostream& out, std::uint32_t value, int bytes) {
    for (int i = 0; i < bytes; ++i)
        out.put(static_cast<char>(value >> (8 * i) & 0xff));
}

void putVector(std::ostream& out, const Vec3& v) {
    for (int i = 0; i < 3; ++i)
        putWord(out, std::bit_cast<std::uint32_t>(static_cast<float>(v[i])), 4);
}

}  // namespace

Healed readStl(std::istream& in, const std::string& fileName, double unit_mm) {
    try {
        return closedMesh(contentOf(in), unit_mm);
    } catch (const InputFault& fault) {
        throw fault.inFile(fileName);
    }
}

Vec3 sizeOfStl(std::istream& in, const std::string& fileName) {
    try {
        return boundsOf(someCornersOf(contentOf(in))).size();
    } catch (const InputFault& fault) {
        throw fault.inFile(fileName);
    }
}

void writeStl(std::ostream& out, const Mesh& mesh) {
    if (mesh.triangles.size() > UINT32_MAX) throw std::logic_error("too many facets for STL");
    std::string head = "binary STL, mm";
    head.resize(80, ' ');
    out.write(head.data(), static_cast<std::streamsize>(head.size()));
    putWord(out, static_cast<std::uint32_t>(mesh.triangles.size()), 4);
    for (std::size_t t = 0; t < mesh.triangles.size(); ++t) {
        putVector(out, normalOf(mesh, t));
        for (const std::uint32_t v : mesh.triangles[t])
            putVector(out, mesh.vertices[v]);
        putWord(out, 0, 2);
    }
}

}  // namespace waybench
