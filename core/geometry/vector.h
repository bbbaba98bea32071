#pragma once
#include <Eigen/Core>
#include <Eigen/Geometry>

namespace waybench {

using Vec2 = Eigen::Vector2d;
using Vec3 = Eigen::Vector3d;
using Mat3 = Eigen::Matrix3d;

struct Box3 {
    Vec3 low = Vec3::Constant(1e300), high = Vec3::Constant(-1e300);
    void include(const Vec3& p) {
        low = low.cwiseMin(p);
        high = high.cwiseMax(p);
    }
    bool operator==(const Box3&) const = default;
    Vec3 size() const { return high - low; }
    Vec3 centre() const { return 0.5 * (low + high); }
    bool contains(const Vec3& p, double tolerance = 0) const {
        return ((p - low).array() >= -tolerance).all() && ((high - p).array() >= -tolerance).all();
    }
};

/// One of the six principal directions; how a print stands and from where a mill looks at the part.
enum class Direction { plus_x, minus_x, plus_y, minus_y, plus_z, minus_z };
Vec3 unitVector(Direction d);
const char* nameOf(Direction d);             ///< "+x" ... "-z"
Direction directionFromName(const char* s);  ///< throws InputFault "direction_unknown"
/// Proper rotation R with R * unitVector(d) = +z (right-handed, maps axes onto axes; identity for +z).
Mat3 rotationToUp(Direction d);

}  // namespace waybench
