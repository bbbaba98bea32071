#include "core/comparison/json_text.h"

#include <charconv>
#include <cmath>
#include <stdexcept>

namespace waybench {

namespace {

constexpr std::size_t kLineWidth = 140;

std::string quoted(const std::string& text) {
    return Json(text).dump(-1, ' ', false, Json::error_handler_t::replace);
}

bool isPlain(const Json& value) {
    return !value.is_structured() || value.empty();
}

/// Lists of numbers inside a line count as plain too: a box is two corners.
bool fitsOneLine(const Json& value, int depth = 0) {
    if (isPlain(value)) return true;
    if (depth > 1) return false;
    for (const auto& entry : value)
        if (!isPlain(entry) && !(entry.is_array() && fitsOneLine(entry, depth + 1))) return false;
    return true;
}

void writeScalar(std::string& out, const Json& value) {
    if (value.is_string())
        out += quoted(value.get_ref<const std::string&>());
    else if (value.is_number_float())
        out += numberText(value.get<double>());
    else
        out += value.dump();  // integers, true, false, null
}

void writeOneLine(std::string& out, const Json& value) {
    if (!value.is_structured()) return writeScalar(out, value);
    const bool isObject = value.is_object();
    out += isObject ? '{' : '[';
    bool first = true;
    for (auto it = value.begin(); it != value.end(); ++it) {
        if (!first) out += ", ";
        first = false;
        if (isObject) out += quoted(it.key()) + ": ";
        writeOneLine(out, it.value());
    }
    out += isObject ? '}' : ']';
}

void write(std::string& out, const Json& value, std::size_t indent) {
    if (fitsOneLine(value)) {
        std::string line;
        writeOneLine(line, value);
        if (isPlain(value) || indent + line.size() <= kLineWidth) {
            out += line;
            return;
        }
    }
    const bool isObject = value.is_object();
    out += isObject ? "{" : "[";
    bool first = true;
    for (auto it = value.begin(); it != value.end(); ++it) {
        out += first ? "\n" : ",\n";
        first = false;
        out.append(indent + 2, ' ');
        if (isObject) out += quoted(it.key()) + ": ";
        write(out, it.value(), indent + 2);
    }
    out += "\n";
    out.append(indent, ' ');
    out += isObject ? "}" : "]";
}

}  // namespace

std::string numberText(double value) {
    if (!std::isfinite(value)) throw std::logic_error("a number that is not finite reached a document");
    if (value == 0) return "0";  // also -0
    char buffer[400];
    const double size = std::fabs(value);
    const auto format = size >= 1e-5 && size < 1e15 ? std::chars_format::fixed : std::chars_format::scientific;
    const auto end = std::to_chars(buffer, buffer + sizeof buffer, value, format).ptr;
    return {buffer, end};
}

double roundedToDigits(double value, int digits) {
    if (value == 0 || !std::isfinite(value)) return value;
    char buffer[64];
    const auto end =
        std::to_chars(buffer, buffer + sizeof buffer, value, std::chars_format::scientific, digits - 1).ptr;
    double rounded = value;
    std::from_chars(buffer, end, rounded);
    return rounded;
}

std::string jsonText(const Json& value) {
    std::string out;
    write(out, value, 0);
    out += '\n';
    return out;
}

}  // namespace waybench
