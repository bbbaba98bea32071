#pragma once
#include <map>
#include <string>

#include "app/document/document.h"
#include "core/geometry/shape.h"

namespace waybench::testing {

/// A bar held at one end and pushed at the other: small, so that both routes are computed in no time.
inline Part quickBar(const std::string& name = "bar") {
    Part part = partOfFamily(familyNamed("bar"));
    part.name = name;
    const Solid solid = buildSolid(part.shape, ".");
    Eigen::Index axis = 0;
    boundsOf(solid.mesh).size().maxCoeff(&axis);
    std::map<double, std::string> along;
    for (const Face& face : solid.faces)
        if (face.kind == SurfaceKind::plane && std::abs(face.direction[axis]) > 0.9)
            along[face.centroid[axis]] = face.name;
    part.loadCase.holds = {{FaceSelector::byName(along.begin()->second)}};
    Load load;
    load.face = FaceSelector::byName(along.rbegin()->second);
    load.vector = Vec3(0, 0, -5);
    part.loadCase.loads = {load};
    part.loadCase.measuredFace = load.face;
    part.loadCase.measuredDirection = -Vec3::UnitZ();
    part.loadCase.deflectionLimit_mm = 0.2;
    return part;
}

}  // namespace waybench::testing
