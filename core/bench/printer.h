#pragma once
#include <string>

#include "core/geometry/vector.h"
#include "core/quantity/figure.h"

namespace waybench {

/// A filament printer as a set of figures. From resources/printers/*.json; generic machines only.
struct Printer {
    std::string key, title;
    Vec3 travel_mm = Vec3::Zero();  ///< usable volume
    Figure nozzleDiameter;          ///< mm
    Figure flowLimit_mm3_s;         ///< with PLA
    Figure speedOuterContour, speedInnerContour, speedSolidFill, speedInfill, speedTravel, speedFirstLayer,
        speedSupport,
        speedBridge;                                                                   ///< mm/s
    Figure accelerationWall_mm_s2, accelerationOther_mm_s2, accelerationTravel_mm_s2;  ///< Unit::none
    Figure cornerSpeed;                                                                ///< mm/s at a right angle
    Figure layerChange, retractAndPrime;                                               ///< s each
    Figure homingAndProbing;                                                           ///< s
    Figure nozzleHeatUp;                                                               ///< s
    Figure bedArea_mm2, bedHeatCapacity_J_per_K, bedPower, bedLoss_W_per_m2K;
    Figure nozzleHoldPower, electronicsPower, supplyEfficiency;
    Figure maximumBed, maximumNozzle;  ///< degC
    bool isEnclosed = false;
    Figure accuracy;                     ///< mm, typical deviation of a distance up to 100 mm
    Figure holeUndersize;                ///< mm on diameter, vertical holes
    Figure hourRate;                     ///< money per hour, machine
    Figure handsOnStart, handsOnRemove;  ///< s
    Figure priming;                      ///< g of skirt and purge before every print
    Figure failureShare;                 ///< - share of prints that fail
};

}  // namespace waybench
