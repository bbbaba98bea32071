#pragma once
#include <nlohmann/json.hpp>
#include <string>

namespace waybench {

/// JSON value whose keys keep the order they were written in.
using Json = nlohmann::ordered_json;

/// Readable JSON text, the same bytes for the same value on every machine and under every locale: two blanks of indent,
/// a list or object of plain values on one line while it fits, numbers in the shortest form that reads back exactly,
/// a newline at the end. Bytes that are not UTF-8 become the replacement character.
/// @throws std::logic_error for a number that is not finite (a defect of ours: JSON cannot carry it)
std::string jsonText(const Json& value);

/// The number as written into documents: shortest form, plain digits between 1e-5 and 1e15, else with exponent.
std::string numberText(double value);

/// Rounded to a count of significant digits. Rounding is monotone, so low <= value <= high survives it.
double roundedToDigits(double value, int digits);

}  // namespace waybench
