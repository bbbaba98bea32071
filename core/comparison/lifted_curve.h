#pragma once
#include <map>
#include <utility>

#include "core/route/outcome.h"

namespace waybench {

/// Brings what many coarse structures say along a curve to what full ones say at a few places (the anchors).
///
/// Coarse grids miss a few percent of the deflection, but nearly the same few percent at neighbouring places: the
/// logarithm of full over coarse is interpolated between anchors, straight over the variable; the band is the wider one
/// of the two. How wrong that may be is seen by leaving each inner anchor out and foretelling it from its neighbours;
/// the worst of these, or what was measured on boxes, brackets and arms (1.5 %, strength 15 %) where that is more,
/// widens the band.
class LiftedCurve {
public:
    /// The answers of one route at one place. A figure that is zero or changes sign is not lifted.
    void addAnchor(double at, const RouteOutcome& coarse, const RouteOutcome& full);
    std::size_t anchors() const { return anchors_.size(); }
    /// The relative error of the deflection at the worst foretold anchor; 0 with fewer than three.
    double deflectionForetold() const;
    /// The coarse answer with its structural figures lifted: the full ones at an anchor. Needs an anchor.
    void lift(double at, RouteOutcome& coarse) const;

private:
    struct Logs {
        double ratio = 0;          // of the values, full over coarse
        double low = 0, high = 0;  // of the full figure's bounds over its value
    };
    using Key = std::pair<std::size_t, Question>;  // load case
    using Anchor = std::map<Key, Logs>;
    static Logs between(double left, const Logs& a, double right, const Logs& b, double at);
    double foretold(const Key& key) const;

    std::map<double, Anchor> anchors_;
};

}  // namespace waybench
