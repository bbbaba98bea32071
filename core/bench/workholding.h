#pragma once
#include <string>

#include "core/quantity/figure.h"

namespace waybench {

/// clamps: straps that press the blank's margin down, one by one. vice: two jaws from the sides. area: what holds the
/// underside as a whole, tape or vacuum.
enum class WorkholdingKind { clamps, vice, area };
const char* nameOf(WorkholdingKind kind);

/// A way to hold work on the mill's table. From resources/holding/*.json.
struct Workholding {
    std::string key, title;
    WorkholdingKind kind = WorkholdingKind::clamps;
    Figure force;                       ///< N, of one clamp or of the vice; none for areas
    Figure friction;                    ///< -, on what carries the work, or of a jaw; none for areas
    Figure grip_kPa;                    ///< Unit::none; areas: what a unit of area resists sideways
    Figure pull_kPa;                    ///< Unit::none; areas: what it resists against lifting
    double jaw_mm = 0, opening_mm = 0;  ///< vices: width of the jaws, and how far they open
    double foot_mm = 0;                 ///< clamps: how far the strap reaches over the blank, and how wide it is
    bool holdsPartItself = false;       ///< still holds when the outline is cut through
};

}  // namespace waybench
