#include "core/comparison/selection_check.h"

#include <cmath>
#include <map>
#include <set>

#include "core/comparison/wording.h"
#include "core/fault/input_fault.h"

namespace waybench {

namespace {

using FacesBySelector = std::map<std::string, std::set<std::string>>;

FacesBySelector facesInBoxes(const Part& part, const Solid& solid) {
    FacesBySelector taken;
    std::string heading;
    const auto look = [&](const std::string& name, const FaceSelector& selector) {
        if (selector.kind != FaceSelector::Kind::box) return;
        auto& faces = taken[heading + name];
        try {
            for (const std::uint32_t t : select(solid, selector))
                faces.insert(solid.faces[solid.faceOfTriangle[t]].name);
        } catch (const InputFault&) {
            // takes nothing here
        }
    };
    for (std::size_t c = 0; c < part.loadCaseCount(); ++c) {
        const LoadCase& loadCase = part.loadCaseAt(c);
        heading = caseHeading(loadCase, part.loadCaseCount());
        for (std::size_t i = 0; i < loadCase.holds.size(); ++i)
            look("hold " + std::to_string(i + 1), loadCase.holds[i].face);
        for (std::size_t i = 0; i < loadCase.loads.size(); ++i)
            look("load " + std::to_string(i + 1), loadCase.loads[i].face);
        look("measured face", loadCase.measuredFace);
    }
    return taken;
}

}  // namespace

std::vector<std::string> changedSelections(const Sweep& sweep) {
    const SweepPoint* nearest = nullptr;
    for (const SweepPoint& point : sweep.points)
        if (point.valid &&
            (!nearest || std::abs(point.at - sweep.variable.current) < std::abs(nearest->at - sweep.variable.current)))
            nearest = &point;
    if (!nearest) return {};
    // per selector the places where either route takes other faces
    std::map<std::string, std::set<double>> changedAt;
    for (const RouteKind route : {RouteKind::printed, RouteKind::machined}) {
        const RouteOutcome& here = nearest->comparison.outcome(route);
        if (!here.solid) continue;
        const FacesBySelector usual = facesInBoxes(nearest->comparison.part, *here.solid);
        for (const SweepPoint& point : sweep.points) {
            const RouteOutcome& there = point.comparison.outcome(route);
            if (!point.valid || !there.solid) continue;
            for (const auto& [selector, faces] : facesInBoxes(point.comparison.part, *there.solid))
                if (const auto same = usual.find(selector); same != usual.end() && same->second != faces)
                    changedAt[selector].insert(point.at);
        }
    }
    std::vector<std::string> lines;
    for (const auto& [selector, places] : changedAt)
        lines.push_back("the box of " + selector + " takes other faces at " + placeOn(sweep.variable, *places.begin()) +
                        (places.size() > 1 ? " to " + placeOn(sweep.variable, *places.rbegin()) : std::string()) +
                        " than at " + placeOn(sweep.variable, nearest->at) +
                        ": the curve is not of one load case; let the box reach past the face");
    return lines;
}

}  // namespace waybench
