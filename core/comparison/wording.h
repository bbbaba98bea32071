#pragma once
#include <string>

#include "core/comparison/sweep.h"

namespace waybench {

/// "print it", "machine it" and the words around them; one place, so that window, page and document speak alike.
const char* nounOf(RouteKind route);  ///< "the print", "the machined part"
RouteKind otherThan(RouteKind route);

/// How the route that is ahead on a question is said to be: "stiffer", "quicker", "cheaper".
std::string comparativeOf(Question question);

/// Two or three significant digits without exponent, for sentences: "2.1", "0.35", "1200".
std::string shortNumber(double value, int digits = 2);
/// A value of the variable in a sentence, three digits: "7.1 mm", "0.53 times the load".
std::string placeOn(const Variable& variable, double at);
/// The same for the edge of what holds, rounded to the side that holds: who builds what is read gets what was promised.
/// Digits are added where three would leave the variable's own range.
std::string holdingPlaceOn(const Variable& variable, double at, bool holdsAbove);
/// "by a factor of 2.1", or "by 12 %" when the ratio is below 1.5. Precondition ratio >= 1.
std::string byHowMuch(double ratio);
/// Size of a signed figure: a deflection against its measured direction counts like one along it.
Figure magnitudeOf(const Figure& figure);
/// Ranges of two figures have a value in common.
bool bandsOverlap(const Figure& a, const Figure& b);

}  // namespace waybench
