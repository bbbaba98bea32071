#include <cmath>

#include "core/fault/input_fault.h"
#include "core/geometry/import/dxf.h"
#include "core/geometry/orientation.h"
#include "core/quantity/quantity_text.h"

namespace waybench {

namespace {

constexpr double kThickest_mm = 2000;

bool isCorner(const Ring& ring, std::size_t i) {
    const std::size_t n = ring.size();
    const Vec2 a = ring[i] - ring[(i + n - 1) % n], b = ring[(i + 1) % n] - ring[i];
    return std::abs(a.x() * b.y() - a.y() * b.x()) > 1e-6 * a.norm() * b.norm() || a.dot(b) < 0;
}

/// Every straight stretch of the ring a run. The stretch that wraps round the ring's start is found under the last run.
std::vector<ContourRun> straightRuns(const Ring& ring) {
    std::vector<ContourRun> runs;
    for (std::size_t i = 0; i < ring.size(); ++i) {
        if (!isCorner(ring, i)) continue;
        ContourRun run;
        run.first = i;
        runs.push_back(run);
    }
    if (runs.empty()) runs.push_back({});
    return runs;
}

Face sideFace(const ContourRun& run, const Vec2& from, const Vec2& to, double thickness_mm) {
    Face face;
    face.kind = run.kind;
    if (run.kind == SurfaceKind::plane) {
        const Vec2 along = (to - from).normalized();
        face.direction = Vec3(along.y(), -along.x(), 0);
        face.point = Vec3(from.x(), from.y(), thickness_mm / 2);
    } else if (run.kind == SurfaceKind::cylinder) {
        face.direction = Vec3::UnitZ();
        face.point = Vec3(run.centre.x(), run.centre.y(), thickness_mm / 2);
        face.radius_mm = run.radius_mm;
        face.isHollow = run.isHollow;
        face.isFullTurn = run.isFullTurn;
    }
    return face;
}

Face capFace(const std::string& name, const Vec3& direction) {
    Face face;
    face.name = name;
    face.kind = SurfaceKind::plane;
    face.direction = direction;
    return face;
}

}  // namespace

Solid extruded(const Profile& profile, double thickness_mm) {
    if (!(thickness_mm > 0) || thickness_mm > kThickest_mm)
        throw InputFault("dimension_out_of_range", "", "thickness",
                         "a thickness of " + plainNumber(thickness_mm) + " mm cannot be made",
                         "enter a thickness above 0 and up to 2000 mm");
    Solid solid;
    std::vector<std::size_t> offsets;
    std::size_t count = 0;
    for (const Ring& ring : profile.region) {
        offsets.push_back(count);
        count += ring.size();
    }
    for (const double z : {0.0, thickness_mm})
        for (const Ring& ring : profile.region)
            for (const Vec2& p : ring)
                solid.mesh.vertices.emplace_back(p.x(), p.y(), z);
    const auto top = static_cast<std::uint32_t>(count);
    const auto put = [&](std::uint32_t a, std::uint32_t b, std::uint32_t c, std::size_t face) {
        solid.mesh.triangles.push_back({a, b, c});
        solid.faceOfTriangle.push_back(static_cast<std::uint32_t>(face));
    };

    solid.faces = {capFace("bottom", -Vec3::UnitZ()), capFace("top", Vec3::UnitZ())};
    for (const auto& t : triangulate(profile.region)) {
        put(t[0], t[2], t[1], 0);
        put(t[0] + top, t[1] + top, t[2] + top, 1);
    }
    std::size_t sides = 0, holes = 0;
    for (std::size_t r = 0; r < profile.region.size(); ++r) {
        const Ring& ring = profile.region[r];
        const std::size_t n = ring.size();
        const std::vector<ContourRun> runs = r < profile.runs.size() ? profile.runs[r] : straightRuns(ring);
        for (std::size_t k = 0; k < runs.size(); ++k) {
            const std::size_t begin = runs[k].first;
            const std::size_t end = k + 1 < runs.size() ? runs[k + 1].first : n + runs.front().first;
            Face face = sideFace(runs[k], ring[begin], ring[(begin + 1) % n], thickness_mm);
            const bool isHole = r > 0 && runs[k].isFullTurn;
            face.name = isHole ? "hole " + std::to_string(++holes) : "side " + std::to_string(++sides);
            for (std::size_t i = begin; i < end; ++i) {
                const auto a = static_cast<std::uint32_t>(offsets[r] + i % n);
                const auto b = static_cast<std::uint32_t>(offsets[r] + (i + 1) % n);
                put(a, b, b + top, solid.faces.size());
                put(a, b + top, a + top, solid.faces.size());
            }
            solid.faces.push_back(std::move(face));
        }
    }
    measureFaces(solid);
    return solid;
}

}  // namespace waybench
