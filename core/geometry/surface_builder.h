#pragma once
#include <array>
#include <cstdint>
#include <map>
#include <string>
#include <vector>

#include "core/geometry/outline.h"
#include "core/geometry/solid.h"

namespace waybench {

/// Ring of points in space.
using SpaceRing = std::vector<Vec3>;

/// Where a drawing plane stands in the part: drawing x along u, y along v, outward normal u x v.
struct Frame {
    Vec3 origin = Vec3::Zero(), u = Vec3::UnitX(), v = Vec3::UnitY();
    Vec3 normal() const { return u.cross(v); }
    Vec3 at(const Vec2& p, double height = 0) const { return origin + p.x() * u + p.y() * v + height * normal(); }
    SpaceRing at(const Ring& ring, double height = 0) const;
    Frame raised(double height) const { return {origin + height * normal(), u, v}; }
};

/// Makes a closed, named surface out of flat stretches, walls and bores.
///
/// Rings are made once and handed to the wall and to both flat stretches they end in, so that all share the same
/// corners to the last bit and the surface closes without gaps.
class SurfaceBuilder {
public:
    using Holes = std::vector<SpaceRing>;

    /// Flat face. outer and holes may wind either way; `outward` decides where it looks.
    void flat(const std::string& name, const Vec3& outward, const SpaceRing& outer, const Holes& holes = {});
    /// Walls of an outline that stands on the frame, height along its normal. Material lies within the outline, or
    /// around it when hollow. holesIn: holes in straight runs, by the run's name.
    void walls(const Outline& outline, const Frame& frame, double height, bool hollow,
               const std::map<std::string, Holes>& holesIn = {});
    /// Round hole from the frame along its normal; rings become holes of the two faces it opens into.
    struct Bore {
        SpaceRing begin, end;
    };
    Bore bore(const std::string& name, const Frame& frame, const Vec2& centre, double radius, double length);
    /// Walls with both end faces, through holes included: a plate of any outline.
    void plate(const Outline& outline, const std::vector<Outline>& through, const Frame& frame, double height,
               const std::string& bottom, const std::string& top, const Holes& moreInTop = {});

    /// The finished body, its faces measured. @throws std::logic_error if it does not close
    Solid finished();

private:
    std::uint32_t add(Face face);
    std::uint32_t vertex(const Vec3& p);
    void triangle(std::uint32_t face, const Vec3& a, const Vec3& b, const Vec3& c);

    Solid solid_;
    std::map<std::array<std::int64_t, 3>, std::uint32_t> vertices_;
};

}  // namespace waybench
