#pragma once
#include <array>
#include <string>
#include <string_view>

#include "core/quantity/unit.h"

namespace waybench {

/// Exponents over the base quantities a person's input can have. Mass is kept beside force (not m = F/a) so that a
/// mass is never taken for a force by accident; temperature readings and temperature differences are kept apart.
struct InputDimension {
    enum Base { length, force, time, mass, temperature, temperatureDifference, angle, money, count };
    std::array<int, count> exponents{};

    bool isPlain() const { return exponents == std::array<int, count>{}; }
    bool operator==(const InputDimension&) const = default;
    InputDimension plus(const InputDimension& other, int sign) const;
};

/// A unit as typed: size = numerator/denominator in mm, N, s, g, degC, K, deg, EUR. Two numbers, so that 30 % is
/// exactly 0.3 and 50 um exactly 0.05 mm.
struct TypedUnit {
    double numerator = 1, denominator = 1;
    InputDimension dimension;
    bool namesEnergy = false;      ///< J, Wh ...: refused where a moment is meant although N mm has the same dimension
    bool namesPlainShare = false;  ///< %
};

/// The unit written as `symbol` (mm, um, in, kN, kgf, min, GPa, Wh ...), nullptr when unknown.
const TypedUnit* typedUnit(std::string_view symbol);
/// The one known symbol that differs from `symbol` in capitals only; empty when none or several.
std::string_view symbolIgnoringCase(std::string_view symbol);
/// Size and dimension of the units figures carry.
TypedUnit typedUnitOf(Unit unit);
/// "a force", "a length" ... for messages; "a compound quantity" when it has no name.
std::string nameOf(const InputDimension& dimension);

}  // namespace waybench
