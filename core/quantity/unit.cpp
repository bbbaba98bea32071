#include "core/quantity/unit.h"

#include <array>
#include <string>
#include <utility>

#include "core/fault/input_fault.h"

namespace waybench {

namespace {

constexpr std::array<std::pair<Unit, std::string_view>, 21> kSymbols{{
    {Unit::none, "-"},
    {Unit::millimetre, "mm"},
    {Unit::square_millimetre, "mm2"},
    {Unit::cubic_millimetre, "mm3"},
    {Unit::newton, "N"},
    {Unit::newton_millimetre, "N mm"},
    {Unit::megapascal, "MPa"},
    {Unit::newton_per_millimetre, "N/mm"},
    {Unit::second, "s"},
    {Unit::gram, "g"},
    {Unit::watt, "W"},
    {Unit::watt_hour, "Wh"},
    {Unit::megajoule, "MJ"},
    {Unit::money, "EUR"},
    {Unit::celsius, "degC"},
    {Unit::kelvin, "K"},
    {Unit::degree, "deg"},
    {Unit::hour, "h"},
    {Unit::millimetre_per_second, "mm/s"},
    {Unit::revolutions_per_minute, "1/min"},
    {Unit::hertz, "Hz"},
}};

}  // namespace

std::string_view symbolOf(Unit unit) {
    for (const auto& [u, symbol] : kSymbols)
        if (u == unit) return symbol;
    return "-";
}

Unit unitFromSymbol(std::string_view symbol) {
    for (const auto& [u, s] : kSymbols)
        if (s == symbol) return u;
    std::string known;
    for (const auto& [u, s] : kSymbols)
        known += (known.empty() ? "" : ", ") + std::string(s);
    throw InputFault("unit_unknown", "", "", "unit '" + std::string(symbol) + "' is not known", "use one of " + known);
}

}  // namespace waybench
