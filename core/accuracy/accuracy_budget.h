#pragma once
#include <span>
#include <string>

#include "core/quantity/figure.h"

namespace waybench {

/// One cause of deviation, mm, to each side of nominal.
struct AccuracyTerm {
    std::string name;  ///< "runout"
    Figure deviation;  ///< Unit::millimetre, >= 0
};

/// Deviation of a size from independent causes: root of the sum of squares of the values; low and high likewise of the
/// lows and highs, since each bound is a bound on the scatter itself. The note lists the terms, largest first.
/// Source: law of propagation for a sum of independent terms, JCGM 100, 5.1.2; that the causes are independent is
/// common practice, no source. Preconditions: millimetres, not negative.
Figure rootSumSquare(std::span<const AccuracyTerm> terms);

/// Growth of a length for a temperature difference: alpha L dT, mm (derived).
/// @param expansion_per_K Unit::none, 1/K
Figure thermalGrowth(const Figure& expansion_per_K, double length_mm, double difference_K);

/// Deviation over a length from squareness in mm per metre.
Figure squarenessDeviation(const Figure& squareness_mm_per_m, double length_mm);

}  // namespace waybench
