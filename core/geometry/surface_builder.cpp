#include "core/geometry/surface_builder.h"

#include <cmath>
#include <stdexcept>

namespace waybench {

SpaceRing Frame::at(const Ring& ring, double height) const {
    SpaceRing placed;
    placed.reserve(ring.size());
    for (const Vec2& p : ring)
        placed.push_back(at(p, height));
    return placed;
}

std::uint32_t SurfaceBuilder::add(Face face) {
    for (const Face& there : solid_.faces)
        if (there.name == face.name) throw std::logic_error("two faces called '" + face.name + "'");
    solid_.faces.push_back(std::move(face));
    return static_cast<std::uint32_t>(solid_.faces.size() - 1);
}

std::uint32_t SurfaceBuilder::vertex(const Vec3& p) {
    // Corners that two faces compute in their own ways may differ in the last bits; they count as one within 1e-9 mm.
    constexpr double kCell_mm = 1e-7, kSlack = 0.01;
    std::array<std::int64_t, 3> low{}, high{}, key{};
    for (int i = 0; i < 3; ++i) {
        const auto axis = static_cast<std::size_t>(i);
        low[axis] = std::llround(p[i] / kCell_mm - kSlack);
        high[axis] = std::llround(p[i] / kCell_mm + kSlack);
    }
    for (key[0] = low[0]; key[0] <= high[0]; ++key[0])
        for (key[1] = low[1]; key[1] <= high[1]; ++key[1])
            for (key[2] = low[2]; key[2] <= high[2]; ++key[2])
                if (const auto there = vertices_.find(key); there != vertices_.end()) return there->second;
    const auto next = static_cast<std::uint32_t>(solid_.mesh.vertices.size());
    vertices_[low] = next;
    solid_.mesh.vertices.push_back(p + Vec3::Zero());  // adding zero turns -0 into 0
    return next;
}

void SurfaceBuilder::triangle(std::uint32_t face, const Vec3& a, const Vec3& b, const Vec3& c) {
    const std::uint32_t ia = vertex(a), ib = vertex(b), ic = vertex(c);
    solid_.mesh.triangles.push_back({ia, ib, ic});
    solid_.faceOfTriangle.push_back(face);
}

void SurfaceBuilder::flat(const std::string& name, const Vec3& outward, const SpaceRing& outer, const Holes& holes) {
    Face face;
    face.name = name;
    face.kind = SurfaceKind::plane;
    face.direction = outward.normalized();
    const std::uint32_t id = add(face);
    const Vec3 u = outward.unitOrthogonal(), v = face.direction.cross(u);
    Region island;
    std::vector<const Vec3*> points;
    const auto lay = [&](const SpaceRing& ring, bool isHole) {
        Ring flattened;
        for (const Vec3& p : ring)
            flattened.emplace_back(u.dot(p), v.dot(p));
        const bool turned = (signedArea(flattened) > 0) == isHole;
        if (turned) flattened = Ring(flattened.rbegin(), flattened.rend());
        for (std::size_t i = 0; i < ring.size(); ++i)
            points.push_back(&ring[turned ? ring.size() - 1 - i : i]);
        island.push_back(std::move(flattened));
    };
    lay(outer, false);
    for (const SpaceRing& hole : holes)
        lay(hole, true);
    for (const auto& t : triangulate(island))
        triangle(id, *points[t[0]], *points[t[1]], *points[t[2]]);
}

void SurfaceBuilder::walls(const Outline& outline, const Frame& frame, double height, bool hollow,
                           const std::map<std::string, Holes>& holesIn) {
    const SpaceRing low = frame.at(outline.points), high = frame.at(outline.points, height);
    const std::size_t n = low.size();
    std::size_t edge = 0;
    for (const OutlineRun& run : outline.runs) {
        const std::size_t first = edge, last = (first + 1) % n;
        if (const auto holes = holesIn.find(run.name); holes != holesIn.end()) {
            const Vec3 outward = (low[last] - low[first]).cross(frame.normal()) * (hollow ? -1 : 1);
            flat(run.name, outward, {low[first], low[last], high[last], high[first]}, holes->second);
            edge += run.edges;
            continue;
        }
        Face face;
        face.name = run.name;
        if (run.isArc) {
            face.kind = SurfaceKind::cylinder;
            face.point = frame.at(run.centre);
            face.direction = frame.normal();
            face.radius_mm = run.radius_mm;
            face.isHollow = hollow;
            face.isFullTurn = run.isFullTurn;
        } else {
            face.kind = SurfaceKind::plane;
            face.direction = (low[last] - low[first]).cross(frame.normal()).normalized() * (hollow ? -1 : 1);
        }
        const std::uint32_t id = add(face);
        for (std::size_t k = 0; k < run.edges; ++k, ++edge) {
            const std::size_t i = edge, j = (edge + 1) % n;
            if (hollow) {
                triangle(id, low[j], low[i], high[i]);
                triangle(id, low[j], high[i], high[j]);
            } else {
                triangle(id, low[i], low[j], high[j]);
                triangle(id, low[i], high[j], high[i]);
            }
        }
    }
    if (edge != n) throw std::logic_error("the runs of an outline must take all its edges");
}

SurfaceBuilder::Bore SurfaceBuilder::bore(const std::string& name, const Frame& frame, const Vec2& centre,
                                          double radius, double length) {
    const Outline circle = circular(name, centre, radius);
    walls(circle, frame, length, true);
    return {frame.at(circle.points), frame.at(circle.points, length)};
}

void SurfaceBuilder::plate(const Outline& outline, const std::vector<Outline>& through, const Frame& frame,
                           double height, const std::string& bottom, const std::string& top, const Holes& moreInTop) {
    walls(outline, frame, height, false);
    Holes low, high = moreInTop;
    for (const Outline& hole : through) {
        walls(hole, frame, height, true);
        low.push_back(frame.at(hole.points));
        high.push_back(frame.at(hole.points, height));
    }
    flat(bottom, -frame.normal(), frame.at(outline.points), low);
    flat(top, frame.normal(), frame.at(outline.points, height), high);
}

Solid SurfaceBuilder::finished() {
    const Leak leak = findLeak(solid_.mesh);
    if (leak.openEdges > 0 || !(volumeOf(solid_.mesh) > 0))
        throw std::logic_error("surface of a shape family does not close");
    measureFaces(solid_);
    return std::move(solid_);
}

}  // namespace waybench
