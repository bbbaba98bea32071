#pragma once
#include <memory>
#include <utility>

#include "core/loadcase/load_case.h"
#include "core/quantity/figure.h"
#include "core/structure/structure.h"

namespace waybench {

/// One load case of a part as a route works on it: what every route needs. A route adds what is its own.
struct CaseEvaluation {
    BoundLoadCase bound;
    double force_N = 0;     ///< size of the total load
    Figure modulusFactor;   ///< on every modulus, for temperature and duration
    bool isTooHot = false;  ///< beyond what the factor's law covers
    std::shared_ptr<const StructureAnswer> structure;

    const LoadCase& loadCase() const { return bound.loadCase; }
    /// Hours under load; 0 for brief and cyclic ones.
    double hours() const { return loadCase().duration == Duration::hours ? loadCase().duration_h : 0; }
    void begin(BoundLoadCase loads, const Solid& solid) {
        bound = std::move(loads);
        force_N = totalForce(solid, bound).norm();
    }
    void solve(const Body& body, const StrengthLaw& strength, const Resolution& resolution, const Task& task) {
        structure = std::make_shared<const StructureAnswer>(solveStructure(body, strength, bound, resolution, task));
    }
};

}  // namespace waybench
