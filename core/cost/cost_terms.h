#pragma once
#include <span>
#include <string>

#include "core/quantity/figure.h"

namespace waybench {

/// Terms of the cost of one part; machined-route sheet, section 9. All money in the currency of the tariff.

/// Time at an hourly rate. @param time s; @param rate money per hour
Figure machineCost(const Figure& time, const Figure& rate_per_h);
/// A person's time. Same arithmetic; named apart because the rate differs.
Figure labourCost(const Figure& time, const Figure& rate_per_h);
/// Mass bought, with waste, at a price per kg, less a credit for what is recycled.
/// @param boughtMass g; @param credit 0..1 share of the price returned (standard 0: a small buyer gets nothing)
Figure materialCost(const Figure& boughtMass, const Figure& price_per_kg, double credit = 0);
/// Electricity. @param energy Wh
Figure energyCost(const Figure& energy, const Figure& price_per_kWh);
/// Wear of one cutter: cutting time over its life, times its price. @param cutting s; @param life h
Figure toolWearCost(const Figure& cutting, const Figure& life_h, const Figure& price);
/// What a good part costs when a share of all parts is scrapped: cost/(1 - share). @param share 0 <= share < 1
Figure withScrap(const Figure& cost, const Figure& share);
/// Part-time attendance: hands-on time plus kappa of the machine's running time. s
Figure attendedTime(const Figure& handsOn, const Figure& running, const Figure& attendance);

/// A named term of a bill.
struct CostTerm {
    std::string name;
    Figure cost;  ///< Unit::money
};
/// Sum of a bill; rates and times come from different causes, so the terms are independent.
Figure totalCost(std::span<const CostTerm> terms);

}  // namespace waybench
