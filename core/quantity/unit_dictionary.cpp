#include "core/quantity/unit_dictionary.h"

#include <cctype>
#include <map>
#include <vector>

namespace waybench {

namespace {

using D = InputDimension;

D dimensionOf(std::initializer_list<std::pair<D::Base, int>> parts) {
    D d;
    for (const auto& [base, exponent] : parts)
        d.exponents[base] = exponent;
    return d;
}

const D kLength = dimensionOf({{D::length, 1}});
const D kArea = dimensionOf({{D::length, 2}});
const D kVolume = dimensionOf({{D::length, 3}});
const D kForce = dimensionOf({{D::force, 1}});
const D kTime = dimensionOf({{D::time, 1}});
const D kMass = dimensionOf({{D::mass, 1}});
const D kStress = dimensionOf({{D::force, 1}, {D::length, -2}});
const D kEnergy = dimensionOf({{D::force, 1}, {D::length, 1}});
const D kPower = dimensionOf({{D::force, 1}, {D::length, 1}, {D::time, -1}});
const D kStiffness = dimensionOf({{D::force, 1}, {D::length, -1}});
const D kSpeed = dimensionOf({{D::length, 1}, {D::time, -1}});
const D kRate = dimensionOf({{D::time, -1}});
const D kTemperature = dimensionOf({{D::temperature, 1}});
const D kDifference = dimensionOf({{D::temperatureDifference, 1}});
const D kAngle = dimensionOf({{D::angle, 1}});
const D kMoney = dimensionOf({{D::money, 1}});

// Sizes by definition: inch 25.4 mm, pound 453.59237 g (international yard and pound agreement, 1959);
// standard acceleration 9.80665 m/s2 (3rd CGPM, 1901), which makes 1 lbf = 4.4482216152605 N.
const std::map<std::string, TypedUnit, std::less<>>& dictionary() {
    static const std::map<std::string, TypedUnit, std::less<>> units{
        {"mm", {1, 1, kLength}},
        {"cm", {10, 1, kLength}},
        {"dm", {100, 1, kLength}},
        {"m", {1000, 1, kLength}},
        {"um", {1, 1000, kLength}},
        {"\u00b5m", {1, 1000, kLength}},
        {"\u03bcm", {1, 1000, kLength}},
        {"nm", {1, 1e6, kLength}},
        {"in", {254, 10, kLength}},
        {"inch", {254, 10, kLength}},
        {"\"", {254, 10, kLength}},
        {"ft", {3048, 10, kLength}},
        {"l", {1e6, 1, kVolume}},
        {"L", {1e6, 1, kVolume}},
        {"ml", {1000, 1, kVolume}},
        {"N", {1, 1, kForce}},
        {"kN", {1000, 1, kForce}},
        {"mN", {1, 1000, kForce}},
        {"MN", {1e6, 1, kForce}},
        {"daN", {10, 1, kForce}},
        {"kgf", {980665, 1e5, kForce}},
        {"gf", {980665, 1e8, kForce}},
        {"kp", {980665, 1e5, kForce}},
        {"lbf", {44482216152605, 1e13, kForce}},
        {"s", {1, 1, kTime}},
        {"ms", {1, 1000, kTime}},
        {"min", {60, 1, kTime}},
        {"h", {3600, 1, kTime}},
        {"d", {86400, 1, kTime}},
        {"g", {1, 1, kMass}},
        {"mg", {1, 1000, kMass}},
        {"kg", {1000, 1, kMass}},
        {"t", {1e6, 1, kMass}},
        {"lb", {45359237, 1e5, kMass}},
        {"Pa", {1, 1e6, kStress}},
        {"kPa", {1, 1000, kStress}},
        {"MPa", {1, 1, kStress}},
        {"GPa", {1000, 1, kStress}},
        {"bar", {1, 10, kStress}},
        {"psi", {44482216152605, 64516e11, kStress}},
        {"ksi", {44482216152605, 64516e8, kStress}},
        {"J", {1000, 1, kEnergy, true}},
        {"mJ", {1, 1, kEnergy, true}},
        {"kJ", {1e6, 1, kEnergy, true}},
        {"MJ", {1e9, 1, kEnergy, true}},
        {"Wh", {3.6e6, 1, kEnergy, true}},
        {"kWh", {3.6e9, 1, kEnergy, true}},
        {"W", {1000, 1, kPower}},
        {"kW", {1e6, 1, kPower}},
        {"Nm", {1000, 1, kEnergy}},
        {"Nmm", {1, 1, kEnergy}},
        {"kNm", {1e6, 1, kEnergy}},
        {"rpm", {1, 60, kRate}},
        {"Hz", {1, 1, kRate}},
        {"degC", {1, 1, kTemperature}},
        {"\u00b0C", {1, 1, kTemperature}},
        {"C", {1, 1, kTemperature}},
        {"K", {1, 1, kDifference}},
        {"deg", {1, 1, kAngle}},
        {"\u00b0", {1, 1, kAngle}},
        {"rad", {57.29577951308232, 1, kAngle}},
        {"EUR", {1, 1, kMoney}},
        {"\u20ac", {1, 1, kMoney}},
        {"ct", {1, 100, kMoney}},
        {"%", {1, 100, {}, false, true}},
    };
    return units;
}

std::string lowered(std::string_view text) {
    std::string out(text);
    for (char& c : out)
        if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
    return out;
}

}  // namespace

InputDimension InputDimension::plus(const InputDimension& other, int sign) const {
    InputDimension d = *this;
    for (int i = 0; i < count; ++i)
        d.exponents[i] += sign * other.exponents[i];
    return d;
}

const TypedUnit* typedUnit(std::string_view symbol) {
    const auto found = dictionary().find(symbol);
    return found == dictionary().end() ? nullptr : &found->second;
}

std::string_view symbolIgnoringCase(std::string_view symbol) {
    std::string_view match;
    for (const auto& [known, unit] : dictionary()) {
        if (lowered(known) != lowered(symbol)) continue;
        if (!match.empty()) return {};
        match = known;
    }
    return match;
}

TypedUnit typedUnitOf(Unit unit) {
    switch (unit) {
        case Unit::none:
            return {};
        case Unit::millimetre:
            return {1, 1, kLength};
        case Unit::square_millimetre:
            return {1, 1, kArea};
        case Unit::cubic_millimetre:
            return {1, 1, kVolume};
        case Unit::newton:
            return {1, 1, kForce};
        case Unit::newton_millimetre:
            return {1, 1, kEnergy};
        case Unit::megapascal:
            return {1, 1, kStress};
        case Unit::newton_per_millimetre:
            return {1, 1, kStiffness};
        case Unit::second:
            return {1, 1, kTime};
        case Unit::gram:
            return {1, 1, kMass};
        case Unit::watt:
            return {1000, 1, kPower};
        case Unit::watt_hour:
            return {3.6e6, 1, kEnergy, true};
        case Unit::megajoule:
            return {1e9, 1, kEnergy, true};
        case Unit::money:
            return {1, 1, kMoney};
        case Unit::celsius:
            return {1, 1, kTemperature};
        case Unit::kelvin:
            return {1, 1, kDifference};
        case Unit::degree:
            return {1, 1, kAngle};
        case Unit::hour:
            return {3600, 1, kTime};
        case Unit::millimetre_per_second:
            return {1, 1, kSpeed};
        case Unit::revolutions_per_minute:
            return {1, 60, kRate};
        case Unit::hertz:
            return {1, 1, kRate};
    }
    return {};
}

std::string nameOf(const InputDimension& dimension) {
    static const std::vector<std::pair<InputDimension, std::string>> names{
        {{}, "a plain number"},
        {kLength, "a length"},
        {kArea, "an area"},
        {kVolume, "a volume"},
        {kForce, "a force"},
        {kTime, "a time"},
        {kMass, "a mass"},
        {kStress, "a stress"},
        {kEnergy, "an energy or moment"},
        {kPower, "a power"},
        {kStiffness, "a stiffness"},
        {kSpeed, "a speed"},
        {kRate, "a rate per time"},
        {kTemperature, "a temperature"},
        {kDifference, "a temperature difference"},
        {kAngle, "an angle"},
        {kMoney, "an amount of money"},
    };
    for (const auto& [d, name] : names)
        if (d == dimension) return name;
    return "a compound quantity";
}

}  // namespace waybench
