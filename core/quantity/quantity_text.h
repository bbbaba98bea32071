#pragma once
#include <optional>
#include <string>
#include <string_view>

#include "core/quantity/figure.h"

namespace waybench {

/// Reads what a person types into a field: a number, a sum, with or without units, comma or point.
///
/// Accepts "2 kN", "0,05 mm", "1/8 in", "40 min", "120-2*6", "1e3", "3 kgf", "(2+1)*4 mm", "1 h 20 min".
/// A number without unit is in `unit`. One separator is always decimal ("1,234" and "1.234" both mean 1.234);
/// a text with both comma and point, or a number with a repeated separator, is refused as ambiguous, never guessed.
/// A unit behind a fraction belongs to the whole fraction (1/8 in is an eighth of an inch), "1 1/2 in" is one and a
/// half; a bare number beside a quantity is in `unit`; a percentage or a ratio is no length.
/// @return the value in `unit`
/// @throws InputFault "quantity_empty", "quantity_unreadable", "quantity_ambiguous", "quantity_wrong_dimension",
///         "quantity_not_finite" with a sentence that says what would be right
double parseQuantity(std::string_view text, Unit unit);

/// Digits of a figure by its band: the larger one-sided deviation decides the last place. Both of its leading digits
/// count while they are below 25 (a deviation of 0.18 keeps two decimals), otherwise only the first (0.4 keeps one:
/// 12.3456 +- 0.4 is 12.3). JCGM 100, 7.2.6 allows at most two digits of uncertainty; the threshold 25 is common
/// practice, no source. A value whose band excludes zero keeps at least one significant digit. Exact figures get six
/// significant digits at most.
struct RoundedFigure {
    std::string value, low, high;  ///< same number of decimals, decimal point, no unit
    int decimals = 0;
};
/// Where the figure is judged against a limit, up to three digits more are kept until value and bounds stand on the
/// side of the limit they really stand on: 0.24998 must not read as the 0.25 that is allowed, nor as less than 0.2501.
RoundedFigure roundByBand(const Figure& figure, std::optional<double> against = std::nullopt);

/// Units a person reads: seconds become "min" or "h", N/mm stays, and so on; scale multiplies the stored value.
struct DisplayUnit {
    std::string symbol;
    double scale = 1;
};
DisplayUnit displayUnitFor(Unit unit, double typicalValue);
/// One unit for two figures that stand side by side; times in the smaller one's unit, unless it is a trifle.
DisplayUnit displayUnitForPair(Unit unit, double a, double b);

/// "0.21 mm (0.18 to 0.26)"; decimal point, space before unit; time in s, min or h as fits.
std::string describe(const Figure& figure, std::optional<double> against = std::nullopt);
/// An input as it was given, three digits at most: "45 EUR/h (30 to 70)"; no rounding by the band.
std::string describeInput(const Figure& figure);
/// "0.21 mm"
std::string describeValue(const Figure& figure);

/// A number in shortest form that reads back exactly, point as decimal sign, locale-free.
std::string plainNumber(double value);

}  // namespace waybench
