#pragma once
#include <string>
#include <vector>

#include "core/geometry/vector.h"
#include "core/quantity/figure.h"

namespace waybench {

/// A small three-axis mill. From resources/mills/*.json; generic machines only.
struct Mill {
    std::string key, title;
    Vec3 travel_mm = Vec3::Zero();
    Figure spindleLow, spindleHigh;                         ///< 1/min
    Figure spindlePower;                                    ///< W rated; usable share below
    Figure usablePowerShare, usableTorqueShare;             ///< -
    Figure spindleEfficiency;                               ///< -
    Figure rapid, rapidVertical;                            ///< mm/s
    Figure acceleration_mm_s2, accelerationVertical_mm_s2;  ///< Unit::none
    Figure cornerDeviation;                                 ///< mm
    Figure feedLimit;                                       ///< mm/s
    Figure stiffness_N_per_um;                              ///< Unit::none, at the nose, weakest axis
    Figure holderStiffness_N_per_um;
    Figure positioning, squareness_mm_per_m, runout;                                                           ///< mm
    Figure controllerPower, spindleIdlePower, extractionPower;                                                 ///< W
    Figure toolChange, probing, levellingPerPoint, setUpClamp, flipAndZero, cleanUp, deburrPerMetre, inspect;  ///< s
    Figure tabCutAndFile;  ///< s per part
    Figure hourRate;       ///< money per hour
    Figure attendance;     ///< share of run time a person must watch
    Figure scrapShare;     ///< -
    int levellingPoints = 0;
};

enum class ToolKind { end_mill, drill, reamer, chamfer };
const char* nameOf(ToolKind kind);

/// One cutter on the rack. From resources/tools/rack.json.
struct Tool {
    std::string key, title;
    ToolKind kind = ToolKind::end_mill;
    double diameter_mm = 0, fluteLength_mm = 0, stickOut_mm = 0;
    int teeth = 1;
    double pointAngle_deg = 118;
    std::string cutterMaterial;  ///< "carbide", "HSS"
    Figure cutterModulus_GPa;    ///< Unit::none
    Figure price, life_h;
    std::string source;
};

}  // namespace waybench
