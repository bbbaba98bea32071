#pragma once
#include <string_view>

namespace waybench {

/// Units a figure can carry. Inside core every figure uses these, never a scaled one, so that two figures of one
/// dimension can always be compared. What the user reads may differ (minutes, inches): see quantity_text.h.
enum class Unit {
    none,                    ///< plain ratio or count, symbol "-"
    millimetre,              ///< mm
    square_millimetre,       ///< mm2
    cubic_millimetre,        ///< mm3
    newton,                  ///< N
    newton_millimetre,       ///< N mm
    megapascal,              ///< MPa
    newton_per_millimetre,   ///< N/mm
    second,                  ///< s
    gram,                    ///< g
    watt,                    ///< W
    watt_hour,               ///< Wh
    megajoule,               ///< MJ
    money,                   ///< EUR, the currency of the tariff
    celsius,                 ///< degC
    kelvin,                  ///< K, temperature difference
    degree,                  ///< deg, angle
    hour,                    ///< h, durations of load only
    millimetre_per_second,   ///< mm/s
    revolutions_per_minute,  ///< 1/min
    hertz                    ///< Hz
};

/// Symbol as written in files and JSON: "mm", "N", "Wh", "-". Stable.
std::string_view symbolOf(Unit unit);
/// The unit with that symbol. Throws InputFault "unit_unknown" otherwise.
Unit unitFromSymbol(std::string_view symbol);

}  // namespace waybench
