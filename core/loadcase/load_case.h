#pragma once
#include <string>
#include <vector>

#include "core/geometry/solid.h"

namespace waybench {

enum class LoadKind { force, pressure, moment, bearing };
const char* nameOf(LoadKind kind);
LoadKind loadKindFromName(const std::string& name);

struct Hold {
    FaceSelector face;
    bool operator==(const Hold&) const = default;
};

/// force: total vector spread evenly over the faces, N. pressure: MPa, positive pushes into the material.
/// moment: N mm about the faces' area centroid. bearing: total vector on the half of a bore it pushes on, cosine law.
struct Load {
    LoadKind kind = LoadKind::force;
    FaceSelector face;
    Vec3 vector = Vec3::Zero();
    double pressure_MPa = 0;
    bool operator==(const Load&) const = default;
};

enum class Duration { brief, hours, cyclic };
const char* nameOf(Duration duration);
Duration durationFromName(const std::string& name);

struct LoadCase {
    std::string name = "working load";
    std::vector<Hold> holds;
    std::vector<Load> loads;
    FaceSelector measuredFace;
    Vec3 measuredDirection = Vec3::UnitZ();   ///< unit
    double deflectionLimit_mm = 0;
    double strengthFactor = 2;                ///< required strength margin
    double temperature_celsius = 23;
    Duration duration = Duration::brief;
    double duration_h = 0;                    ///< for hours
    double cycles = 0;                        ///< for cyclic
    double loadSpread = 0.1;                  ///< relative uncertainty of the load, +-
    bool operator==(const LoadCase&) const = default;
};

/// Load case bound to facets of one solid.
struct BoundLoadCase {
    LoadCase loadCase;
    std::vector<std::uint32_t> heldTriangles;
    std::vector<std::vector<std::uint32_t>> loadedTriangles;  ///< per load
    std::vector<std::uint32_t> measuredTriangles;
};

/// @throws InputFault "no_support", "no_load", "load_zero", "face_not_found", "direction_zero", "limit_missing",
///         "face_held_and_loaded" ... each naming the entry
BoundLoadCase bind(const LoadCase& loadCase, const Solid& solid);

/// Traction on a facet of a bound load so that the total is exactly right; N/mm2 at a point p of facet t.
Vec3 tractionAt(const Solid& solid, const BoundLoadCase& bound, std::size_t load, std::uint32_t triangle, const Vec3& p);
/// Sum of all load forces, N.
Vec3 totalForce(const Solid& solid, const BoundLoadCase& bound);

}  // namespace waybench
