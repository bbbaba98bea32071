#include "core/structure/hold_supports.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <set>

#include "core/geometry/facet.h"

namespace waybench::statics {

double boltBedding_N_per_mm3(double modulus_MPa, double grip_mm, double boreDiameter_mm, double headDiameter_mm) {
    const double d = boreDiameter_mm, head = headDiameter_mm, cone = 1.155 * grip_mm / 2;
    const double stiffness = 0.5774 * std::numbers::pi * modulus_MPa * d /
                             std::log((cone + head - d) * (head + d) / ((cone + head + d) * (head - d)));
    return stiffness / (std::numbers::pi / 4 * (head * head - d * d));
}

std::vector<std::string> seatCautions(const Solid& solid, const BoundLoadCase& loads) {
    constexpr double kWhole = 0.9;
    std::vector<std::string> cautions;
    for (const BoundHold& hold : loads.holds) {
        if (hold.kind != HoldKind::bolted || hold.ring.empty()) continue;
        // one seat, or one at either end of the bore: told apart by the way they face
        Vec3 sum[2] = {Vec3::Zero(), Vec3::Zero()};
        Vec3 first = Vec3::Zero();
        for (const std::uint32_t t : hold.ring) {
            const Vec3 facing = facetOf(solid.mesh, t).areaVector;
            if (first.isZero()) first = facing;
            sum[facing.dot(first) > 0 ? 0 : 1] += facing;
        }
        const double annulus =
            std::numbers::pi * (hold.headRadius_mm * hold.headRadius_mm - hold.boreRadius_mm * hold.boreRadius_mm);
        for (const Vec3& seat : sum)
            if (!seat.isZero() && seat.norm() < kWhole * annulus) {
                cautions.push_back(
                    "a bolt's head reaches past the flat face it presses on: what lies under it counts as clamped all "
                    "over; look at the head's diameter");
                break;
            }
    }
    return cautions;
}

bool hasBolts(const BoundLoadCase& loads) {
    return std::any_of(loads.holds.begin(), loads.holds.end(),
                       [](const BoundHold& hold) { return hold.kind == HoldKind::bolted; });
}

std::vector<Support> supportsOf(const Body& body, const BoundLoadCase& loads, const Mat3& rotation,
                                bool boltsAreRigid) {
    const auto normalAt = [&body, rotation](std::uint32_t t, const Vec3& p) {
        return Vec3(rotation * surfaceNormalAt(*body.solid, t, rotation.transpose() * p));
    };
    std::vector<Support> supports;
    Support fixed;  // all in one: a facet that two of them take is held once
    for (const BoundHold& hold : loads.holds)
        if (hold.kind == HoldKind::fixed)
            fixed.triangles.insert(fixed.triangles.end(), hold.triangles.begin(), hold.triangles.end());
    std::sort(fixed.triangles.begin(), fixed.triangles.end());
    fixed.triangles.erase(std::unique(fixed.triangles.begin(), fixed.triangles.end()), fixed.triangles.end());
    if (!fixed.triangles.empty()) supports.push_back(std::move(fixed));
    std::set<std::uint32_t> guided, seated;
    if (!supports.empty()) guided.insert(supports[0].triangles.begin(), supports[0].triangles.end());
    seated = guided;
    const auto unclaimed = [](const std::vector<std::uint32_t>& wanted, std::set<std::uint32_t>& claimed) {
        std::vector<std::uint32_t> left;
        for (const std::uint32_t t : wanted)
            if (claimed.insert(t).second) left.push_back(t);
        return left;
    };
    for (const BoundHold& hold : loads.holds) {
        if (hold.kind == HoldKind::fixed) continue;
        supports.push_back(
            {unclaimed(hold.triangles, guided), Mat3::Zero(), Bedding{normalAt}, hold.kind == HoldKind::sliding});
        if (hold.kind != HoldKind::bolted) continue;
        std::vector<std::uint32_t> ring = unclaimed(hold.ring, seated);
        if (boltsAreRigid) {
            supports.push_back({std::move(ring)});
            continue;
        }
        const double normal = boltBedding_N_per_mm3(representativeModulus(body.law), hold.grip_mm,
                                                    2 * hold.boreRadius_mm, 2 * hold.headRadius_mm);
        supports.push_back({std::move(ring), Mat3::Zero(), Bedding{normalAt, normal, kTangentialOverNormal * normal}});
    }
    return supports;
}

}  // namespace waybench::statics
