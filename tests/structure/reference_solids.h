#pragma once
// The fixture-like parts of tests/checks/reference_solids, as the solver takes them.

#include <fstream>
#include <nlohmann/json.hpp>

#include "core/geometry/import/step.h"
#include "core/loadcase/load_case.h"
#include "core/structure/structure.h"

namespace waybench::testing {

struct ReferenceSolid {
    std::string name;
    double deflection_mm = 0, uncertainty_percent = 0;
    Solid solid;
    Body body;  ///< body.solid is set by whoever holds the reference in place
    LoadCase loadCase;
    bool isPrinted = false, isLayered = false;
    double peerSeconds = 0;  ///< mesh and solution of the coarsest mesh within 2 %, when the reference was made

    StructureAnswer solve(const Resolution& resolution = {}) {
        body.solid = &solid;
        StrengthLaw strength;
        strength.inLayer_MPa = 40;
        return solveStructure(body, strength, bind(loadCase, solid), resolution, Task());
    }
};

inline Vec3 vectorFrom(const nlohmann::json& j) {
    return {j[0].get<double>(), j[1].get<double>(), j[2].get<double>()};
}

/// Transversely isotropic: alike in every direction across `axis`.
inline ElasticLaw layeredLaw(const nlohmann::json& p) {
    const double E = p["young"], nu = p["poisson"], Et = p["across_young"], nut = p["poisson_in_to_across"],
                 G = p["across_shear"];
    const ElasticLaw law = transverselyIsotropicLaw(E, Et, nu, nut, G);
    const Vec3 axis = vectorFrom(p["axis"]).normalized();
    return rotated(law, Eigen::Quaterniond::FromTwoVectors(Vec3::UnitZ(), axis).toRotationMatrix());
}

/// A box of two corners, or a point of one face with its normal.
inline FaceSelector placeFrom(const nlohmann::json& place) {
    if (place.is_object()) return FaceSelector::byPoint(vectorFrom(place["point"]), vectorFrom(place["normal"]));
    return FaceSelector::byBox(vectorFrom(place[0]), vectorFrom(place[1]));
}

inline std::vector<nlohmann::json> referenceSolidEntries() {
    const auto file =
        nlohmann::json::parse(std::ifstream(WAYBENCH_SOURCE "/tests/checks/reference_solids/reference_solids.json"));
    return file.at("parts").get<std::vector<nlohmann::json>>();
}

inline ReferenceSolid referenceSolid(const nlohmann::json& p) {
    ReferenceSolid r;
    r.name = p["name"];
    r.deflection_mm = p["deflection_mm"];
    r.uncertainty_percent = p["uncertainty_percent"];
    r.peerSeconds = p["coarsest_within_2_percent"]["mesh_s"].get<double>() +
                    p["coarsest_within_2_percent"]["solve_s"].get<double>();
    const std::string file = std::string(WAYBENCH_SOURCE "/tests/checks/reference_solids/") + r.name + ".step";
    r.solid = readStep(file, r.name + ".step");
    r.isLayered = p.contains("axis");
    r.isPrinted = p.contains("core_young");
    r.body.law = r.isLayered ? layeredLaw(p) : isotropicLaw(p["young"], p["poisson"]);
    if (r.isPrinted) {
        ShellAndInfill inside;
        inside.wallThickness_mm = p["wall"];
        inside.skinBelow_mm = inside.skinAbove_mm = p["skin"];
        inside.infillLaw = isotropicLaw(p["core_young"], p["poisson"]);
        r.body.inside = inside;
    }
    for (const auto& place : p["held"])
        r.loadCase.holds.push_back({placeFrom(place)});
    // several places carry the one force by their areas
    const Vec3 force = vectorFrom(p["force"]);
    for (const auto& place : p["loaded"]) {
        Load load;
        load.face = placeFrom(place);
        load.vector = force / double(p["loaded"].size());
        r.loadCase.loads.push_back(load);
    }
    r.loadCase.measuredFace = placeFrom(p["measured"][0]);
    r.loadCase.measuredDirection = force;
    r.loadCase.deflectionLimit_mm = 1;
    return r;
}

}  // namespace waybench::testing
