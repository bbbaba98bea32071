#include "core/geometry/polygon.h"

#include <algorithm>
#include <clipper.hpp>
#include <cmath>
#include <stdexcept>

namespace waybench {

namespace {

using ClipperLib::cInt;
using ClipperLib::IntPoint;
using ClipperLib::Path;
using ClipperLib::Paths;

constexpr double kUnitsPerMm = 1e4;
constexpr double kLargest_mm = 1e8;
constexpr double kSmallestPiece_mm2 = 1e-3;
constexpr double kRoundPrecision_mm = 0.005, kRoundClean_mm = 0.002;

Path toPath(const Ring& ring) {
    Path path;
    path.reserve(ring.size());
    for (const Vec2& p : ring) {
        if (!(p.cwiseAbs().maxCoeff() < kLargest_mm)) throw std::logic_error("polygon point is not a finite size");
        path.emplace_back(static_cast<cInt>(std::llround(p.x() * kUnitsPerMm)),
                          static_cast<cInt>(std::llround(p.y() * kUnitsPerMm)));
    }
    return path;
}

Paths toPaths(const Region& region) {
    Paths paths;
    paths.reserve(region.size());
    for (const Ring& ring : region)
        paths.push_back(toPath(ring));
    return paths;
}

Region toRegion(const Paths& paths, double smallest_mm2 = 0) {
    Region region;
    region.reserve(paths.size());
    for (const Path& path : paths) {
        if (path.size() < 3) continue;
        Ring ring;
        ring.reserve(path.size());
        for (const IntPoint& p : path)
            ring.emplace_back(static_cast<double>(p.X) / kUnitsPerMm, static_cast<double>(p.Y) / kUnitsPerMm);
        if (smallest_mm2 > 0 && std::abs(signedArea(ring)) < smallest_mm2) continue;
        region.push_back(std::move(ring));
    }
    return region;
}

Region clipped(ClipperLib::ClipType type, const Region& a, const Region& b) {
    ClipperLib::Clipper clipper;
    clipper.AddPaths(toPaths(a), ClipperLib::ptSubject, true);
    clipper.AddPaths(toPaths(b), ClipperLib::ptClip, true);
    Paths result;
    clipper.Execute(type, result, ClipperLib::pftNonZero, ClipperLib::pftNonZero);
    return toRegion(result);
}

int windingAround(const Ring& ring, const Vec2& p) {
    int winding = 0;
    for (std::size_t i = 0, j = ring.size() - 1; i < ring.size(); j = i++) {
        const Vec2 &a = ring[j], &b = ring[i];
        if ((a.y() <= p.y()) == (b.y() <= p.y())) continue;
        const double side = (b.x() - a.x()) * (p.y() - a.y()) - (p.x() - a.x()) * (b.y() - a.y());
        if (b.y() > a.y() ? side > 0 : side < 0) winding += b.y() > a.y() ? 1 : -1;
    }
    return winding;
}

/// Most corners and edge middles of the inner ring lie inside the outer one; a touching corner decides nothing.
bool liesInside(const Ring& inner, const Ring& outer) {
    int votes = 0;
    for (std::size_t i = 0, j = inner.size() - 1; i < inner.size(); j = i++)
        votes += windingAround(outer, 0.5 * (inner[i] + inner[j])) != 0 ? 1 : -1;
    return votes > 0;
}

}  // namespace

double signedArea(const Ring& ring) {
    if (ring.size() < 3) return 0;
    const Vec2 origin = ring.front();
    double twice = 0;
    for (std::size_t i = 1; i + 1 < ring.size(); ++i) {
        const Vec2 a = ring[i] - origin, b = ring[i + 1] - origin;
        twice += a.x() * b.y() - a.y() * b.x();
    }
    return twice / 2;
}

double areaOf(const Region& region) {
    double area = 0;
    for (const Ring& ring : region)
        area += signedArea(ring);
    return area;
}

double perimeterOf(const Ring& ring) {
    double length = 0;
    for (std::size_t i = 0, j = ring.size() - 1; i < ring.size(); j = i++)
        length += (ring[i] - ring[j]).norm();
    return length;
}

double perimeterOf(const Region& region) {
    double length = 0;
    for (const Ring& ring : region)
        length += perimeterOf(ring);
    return length;
}

bool contains(const Region& region, const Vec2& p) {
    int winding = 0;
    for (const Ring& ring : region)
        if (!ring.empty()) winding += windingAround(ring, p);
    return winding != 0;
}

Region unionOf(const Region& a, const Region& b) {
    return clipped(ClipperLib::ctUnion, a, b);
}

Region unionOf(const std::vector<Region>& regions) {
    ClipperLib::Clipper clipper;
    for (const Region& region : regions)
        clipper.AddPaths(toPaths(region), ClipperLib::ptSubject, true);
    Paths result;
    clipper.Execute(ClipperLib::ctUnion, result, ClipperLib::pftNonZero, ClipperLib::pftNonZero);
    return toRegion(result);
}

Region intersectionOf(const Region& a, const Region& b) {
    return clipped(ClipperLib::ctIntersection, a, b);
}

Region differenceOf(const Region& a, const Region& b) {
    return clipped(ClipperLib::ctDifference, a, b);
}

Region offsetBy(const Region& region, double distance_mm, Corner corner) {
    if (!(std::abs(distance_mm) < kLargest_mm)) throw std::logic_error("offset distance is not a finite size");
    ClipperLib::ClipperOffset offset(/*miterLimit*/ 2.0, /*roundPrecision*/ kRoundPrecision_mm * kUnitsPerMm);
    offset.AddPaths(toPaths(region), corner == Corner::round ? ClipperLib::jtRound : ClipperLib::jtMiter,
                    ClipperLib::etClosedPolygon);
    Paths result;
    offset.Execute(result, distance_mm * kUnitsPerMm);
    // Every facet of a round edge gets a round corner of its own: without this, offsets of offsets grow ever more
    // points.
    if (corner == Corner::round) ClipperLib::CleanPolygons(result, kRoundClean_mm * kUnitsPerMm);
    return toRegion(result, kSmallestPiece_mm2);
}

std::vector<Region> islandsOf(const Region& region) {
    struct Outer {
        double area;
        std::size_t ring, island;
    };
    std::vector<Outer> outers;
    std::vector<Region> islands;
    for (std::size_t i = 0; i < region.size(); ++i) {
        const double area = signedArea(region[i]);
        if (area <= 0) continue;
        outers.push_back({area, i, islands.size()});
        islands.push_back({region[i]});
    }
    std::stable_sort(outers.begin(), outers.end(), [](const Outer& a, const Outer& b) { return a.area < b.area; });
    for (const Ring& ring : region) {
        if (ring.size() < 3 || !(signedArea(ring) < 0)) continue;
        const double area = -signedArea(ring);
        for (const Outer& outer : outers) {
            if (outer.area < area || !liesInside(ring, region[outer.ring])) continue;
            islands[outer.island].push_back(ring);
            break;
        }
    }
    return islands;
}

std::vector<Segment2> hatch(const Region& region, double angle_rad, double spacing_mm, double phase_mm) {
    if (!(spacing_mm > 0)) throw std::logic_error("hatch spacing must be positive");
    const Vec2 along(std::cos(angle_rad), std::sin(angle_rad)), across(-along.y(), along.x());
    double low = 1e300, high = -1e300;
    for (const Ring& ring : region)
        for (const Vec2& p : ring) {
            low = std::min(low, across.dot(p));
            high = std::max(high, across.dot(p));
        }
    std::vector<Segment2> segments;
    if (!(low < high)) return segments;
    const auto lineIndex = [&](double offset) { return std::ceil((offset - phase_mm) / spacing_mm); };
    const double first = lineIndex(low);
    const double count = lineIndex(high) - first + 1;
    if (!(count < 1e7)) throw std::logic_error("hatch spacing is far too small for the region");

    struct Crossing {
        std::uint32_t line;
        int turn;
        double at;
    };
    std::vector<Crossing> crossings;
    for (const Ring& ring : region)
        for (std::size_t i = 0, j = ring.size() - 1; i < ring.size(); j = i++) {
            const double va = across.dot(ring[j]), vb = across.dot(ring[i]);
            if (va == vb) continue;
            const double ua = along.dot(ring[j]), ub = along.dot(ring[i]);
            // A line at offset v crosses when min <= v < max, so that shared corners count once.
            const double begin = lineIndex(std::min(va, vb)), end = lineIndex(std::max(va, vb));
            for (double k = begin; k < end; ++k) {
                const double v = phase_mm + k * spacing_mm;
                crossings.push_back({static_cast<std::uint32_t>(k - first), vb > va ? 1 : -1,
                                     ua + (ub - ua) * std::clamp((v - va) / (vb - va), 0.0, 1.0)});
            }
        }
    std::sort(crossings.begin(), crossings.end(), [](const Crossing& a, const Crossing& b) {
        return a.line != b.line ? a.line < b.line : a.at != b.at ? a.at < b.at : a.turn < b.turn;
    });
    int winding = 0;
    for (std::size_t i = 0; i < crossings.size(); ++i) {
        const bool wasInside = winding != 0;
        winding += crossings[i].turn;
        const double v = phase_mm + (first + crossings[i].line) * spacing_mm;
        const Vec2 p = crossings[i].at * along + v * across;
        if (!wasInside && winding != 0) segments.push_back({p, p});
        if (wasInside && winding == 0) {
            segments.back().to = p;
            if ((segments.back().to - segments.back().from).norm() < 1e-9) segments.pop_back();
        }
    }
    return segments;
}

}  // namespace waybench
