#pragma once
#include "tests/structure/test_bodies.h"

namespace waybench::testing {

/// A solid under a load case whose faces are picked by points on them; isotropic.
struct HeldSolid {
    Solid solid;
    LoadCase loadCase;
    double modulus_MPa = 2000, poisson = 0.3, density_g_per_mm3 = 0;
    Resolution resolution{};

    explicit HeldSolid(Solid body) : solid(std::move(body)) { loadCase.deflectionLimit_mm = 1; }
    explicit HeldSolid(Mesh mesh) : HeldSolid(segmented(std::move(mesh))) {}

    void hold(const Vec3& point, const Vec3& normal, HoldKind kind, double head_mm = 0) {
        loadCase.holds.push_back({FaceSelector::byPoint(point, normal), kind, head_mm});
    }
    void slide(const Vec3& point, const Vec3& normal) { hold(point, normal, HoldKind::sliding); }
    void press(const Vec3& point, const Vec3& normal, double pressure_MPa) {
        loadCase.loads.push_back(
            {LoadKind::pressure, FaceSelector::byPoint(point, normal), Vec3::Zero(), pressure_MPa});
    }
    void measure(const Vec3& point, const Vec3& normal, const Vec3& direction) {
        loadCase.measuredFace = FaceSelector::byPoint(point, normal);
        loadCase.measuredDirection = direction;
    }
    /// One force, measured where it acts and along it.
    void pull(const FaceSelector& face, const Vec3& force) {
        loadCase.loads = {{LoadKind::force, face, force, 0}};
        loadCase.measuredFace = face;
        loadCase.measuredDirection = force;
    }
    StructureAnswer solve() const {
        const Solid cut = refinedFor(loadCase, solid);
        Body body;
        body.solid = &cut;
        body.law = isotropicLaw(modulus_MPa, poisson);
        body.density_g_per_mm3 = density_g_per_mm3;
        StrengthLaw strength;
        strength.inLayer_MPa = 40;
        return solveStructure(body, strength, bind(loadCase, cut), resolution, Task());
    }
};

}  // namespace waybench::testing
