#pragma once
#include <span>
#include <string>

#include "core/bench/shop.h"
#include "core/cost/cost_terms.h"
#include "core/route/outcome.h"

namespace waybench {

/// "0.0814" with so many significant digits, whole numbers without exponent ("1235000" keeps three: "1240000").
std::string shown(double value, int digits = 3);
/// "(12 -3 8) mm", tenths of a millimetre.
std::string placeText(const Vec3& place);

/// Sets the stiffness, resultant force over deflection, with the factors the deflection's band goes by; none where
/// there is no resultant, or the measured face hardly moves along the measured direction.
void addStiffness(double force_N, const StructureAnswer& answer, double below, double above, CaseAnswer& outcome);

/// Sets the cost: the sum of the bill over the share of good parts; its working, and one detail for each term.
/// @param lost what the share is called: "scrap", "failed prints"
void addBill(std::span<const CostTerm> terms, const Figure& lostShare, const std::string& lost, const Tariff& tariff,
             RouteOutcome& outcome);

}  // namespace waybench
