#pragma once
#include <string>
#include <vector>

#include "core/geometry/solid.h"

namespace waybench {

enum class LoadKind { force, pressure, moment, bearing };
const char* nameOf(LoadKind kind);
LoadKind loadKindFromName(const std::string& name);

/// fixed: clamped, no point of the face moves. sliding: rests on a smooth plane or guide, only the motion normal to the
/// face is stopped, both ways. bolted: a fitted screw in a bore, whose wall cannot move off or into the shank, with the
/// rings under its head and at the bore's other end pressed on by a bedding of finite stiffness.
enum class HoldKind { fixed, sliding, bolted };
const char* nameOf(HoldKind kind);
HoldKind holdKindFromName(const std::string& name);

struct Hold {
    FaceSelector face;
    HoldKind kind = HoldKind::fixed;
    double headDiameter_mm = 0;  ///< of the head or washer of a bolted hold; 0: twice the bore's diameter
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

/// Something heavy fastened to a face: its weight counts where gravity does, its mass in the natural frequency.
struct AttachedMass {
    FaceSelector face;
    double mass_g = 0;
    bool operator==(const AttachedMass&) const = default;
};

inline constexpr double kStandardGravity_m_per_s2 = 9.80665;  ///< ISO 80000-3, 3-9.2

enum class Duration { brief, hours, cyclic };
const char* nameOf(Duration duration);
Duration durationFromName(const std::string& name);

struct LoadCase {
    std::string name = "working load";
    std::vector<Hold> holds;
    std::vector<Load> loads;
    Vec3 gravity = Vec3::Zero();  ///< way the weight pulls, in multiples of standard gravity; zero: weight left out
    std::vector<AttachedMass> masses;
    FaceSelector measuredFace;
    Vec3 measuredDirection = Vec3::UnitZ();  ///< unit
    double deflectionLimit_mm = 0;
    double strengthFactor = 2;  ///< required strength margin
    double temperature_celsius = 23;
    Duration duration = Duration::brief;
    double duration_h = 0;    ///< for hours
    double cycles = 0;        ///< for cyclic
    double loadSpread = 0.1;  ///< relative uncertainty of the load, +-
    bool operator==(const LoadCase&) const = default;
};

/// The first load case of a part and the further ones in one row.
std::vector<LoadCase> inOneRow(const LoadCase& first, const std::vector<LoadCase>& further);

/// How one load acts on its facets, at a point p of a facet with outward unit normal n:
/// constant + angular x (p - centre) - n (pressure + q), q = -cosine . n where half . n < 0. Unused terms are zero.
///
/// force: constant = F/A. pressure: -p n. moment: angular = J^-1 M about the area centroid, J the second moment of
/// the facets' area, so that the force is zero and the moment exactly M. bearing: pressure proportional to the cosine
/// of the angle to the force over the half of the bore towards which the force points (the usual assumption for
/// a close-fitting pin: common practice, no source; a loose pin concentrates the load), with `cosine` solved from the
/// facets so that their sum is exactly F.
struct TractionLaw {
    Vec3 constant = Vec3::Zero();
    Vec3 angular = Vec3::Zero(), centre = Vec3::Zero();
    double pressure_MPa = 0;
    Vec3 cosine = Vec3::Zero(), half = Vec3::Zero();
};

/// A hold bound to facets.
struct BoundHold {
    HoldKind kind = HoldKind::fixed;
    std::vector<std::uint32_t> triangles;                      ///< bolted: the wall of the bore
    std::vector<std::uint32_t> ring{};                         ///< bolted: under the head and at the bore's other end
    double boreRadius_mm = 0, headRadius_mm = 0, grip_mm = 0;  ///< bolted; grip: length of the bore
};

/// Load case bound to facets of one solid.
struct BoundLoadCase {
    LoadCase loadCase;
    std::vector<BoundHold> holds;
    std::vector<std::vector<std::uint32_t>> loadedTriangles;    ///< per load
    std::vector<std::vector<std::uint32_t>> attachedTriangles;  ///< per attached mass
    std::vector<std::uint32_t> measuredTriangles;
    std::vector<TractionLaw> laws;  ///< per load, filled by bind
};

/// The solid with its facets cut along the planes of every box selector of the load case, so that a box takes exactly
/// the part of a face inside it, and along the heads of its bolted holds. Call before bind when the load case has boxes
/// or bolts; otherwise returns the solid as it is. Bolts that bind would refuse are passed over.
Solid refinedFor(const LoadCase& loadCase, const Solid& solid);

/// Facets and laws for every entry; measuredDirection comes back as a unit vector.
/// @throws InputFault "no_support", "no_load", "load_zero", "face_not_found", "direction_zero", "limit_missing",
///         "face_held_and_loaded", "number_not_finite", "strength_factor_missing", "duration_missing",
///         "cycles_missing", "mass_absurd", "load_spread_absurd", "temperature_absurd", "bearing_not_on_bore",
///         "bearing_along_axis", "bearing_pushes_on_nothing", "bolt_not_in_bore", "bolt_head_absurd",
///         "bolt_without_seat", each naming the entry
/// What lies under a bolt's head carries no load: a load on a face with a bolt goes on the rest of it.
BoundLoadCase bind(const LoadCase& loadCase, const Solid& solid);

/// bind for every load case of a part; refinedFor must have been called for each. With several, faults name theirs.
/// @throws InputFault those of bind, and "load_case_name_twice"
std::vector<BoundLoadCase> bindAll(const std::vector<LoadCase>& loadCases, const Solid& solid);

/// Traction on a facet of a bound load so that the total is exactly right; N/mm2 at a point p of facet t.
Vec3 tractionAt(const Solid& solid, const BoundLoadCase& bound, std::size_t load, std::uint32_t triangle,
                const Vec3& p);
/// Sum of all load forces, N.
Vec3 totalForce(const Solid& solid, const BoundLoadCase& bound);

}  // namespace waybench
