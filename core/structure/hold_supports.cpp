#include "core/structure/hold_supports.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace waybench::statics {

double boltBedding_N_per_mm3(double modulus_MPa, double grip_mm, double boreDiameter_mm, double headDiameter_mm) {
    const double d = boreDiameter_mm, head = headDiameter_mm, cone = 1.155 * grip_mm / 2;
    const double stiffness = 0.5774 * std::numbers::pi * modulus_MPa * d /
                             std::log((cone + head - d) * (head + d) / ((cone + head + d) * (head - d)));
    return stiffness / (std::numbers::pi / 4 * (head * head - d * d));
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
    for (const BoundHold& hold : loads.holds) {
        if (hold.kind == HoldKind::fixed) continue;
        supports.push_back({hold.triangles, Mat3::Zero(), Bedding{normalAt}});
        if (hold.kind != HoldKind::bolted) continue;
        if (boltsAreRigid) {
            supports.push_back({hold.ring});
            continue;
        }
        const double normal = boltBedding_N_per_mm3(representativeModulus(body.law), hold.grip_mm,
                                                    2 * hold.boreRadius_mm, 2 * hold.headRadius_mm);
        supports.push_back({hold.ring, Mat3::Zero(), Bedding{normalAt, normal, kTangentialOverNormal * normal}});
    }
    return supports;
}

}  // namespace waybench::statics
