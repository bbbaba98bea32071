#include "core/geometry/import/dxf_tokens.h"

#include <algorithm>
#include <charconv>
#include <cmath>

namespace waybench::dxf {

namespace {

constexpr std::size_t kLargestFile = std::size_t{64} << 20;
constexpr std::size_t kBinaryMarkWithin = 32;

std::string_view trimmed(std::string_view s) {
    const auto blank = [](char c) { return c == ' ' || c == '\t'; };
    while (!s.empty() && blank(s.front()))
        s.remove_prefix(1);
    while (!s.empty() && blank(s.back()))
        s.remove_suffix(1);
    return s;
}

[[noreturn]] void unreadable(const Group& group, const char* what) {
    throw InputFault("number_unreadable", "", placeOf(group.line),
                     "'" + std::string(group.value.substr(0, 40)) + "' is not " + what,
                     "export the drawing again, with a point as decimal sign");
}

template <class Number>
bool parsed(std::string_view text, Number& number) {
    if (!text.empty() && text.front() == '+') text.remove_prefix(1);
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), number);
    return error == std::errc() && end == text.data() + text.size();
}

}  // namespace

std::string placeOf(std::size_t line) {
    return "line " + std::to_string(line);
}

std::string readText(std::istream& in) {
    std::string text;
    char block[65536];
    while (in.read(block, sizeof block) || in.gcount() > 0) {
        text.append(block, static_cast<std::size_t>(in.gcount()));
        if (text.size() > kLargestFile)
            throw InputFault("file_too_large", "", "", "the drawing is larger than 64 MB",
                             "export only the profile of the part");
    }
    const bool isBinary = std::string_view(text).substr(0, kBinaryMarkWithin).find("Binary DXF") != std::string::npos;
    if (isBinary)
        throw InputFault("file_not_dxf", "", "", "this is a binary DXF file", "export the drawing as ASCII (text) DXF");
    if (text.find('\0') != std::string::npos)
        throw InputFault("file_not_dxf", "", "", "this is not a text file, so not an ASCII DXF drawing",
                         "export the drawing as ASCII (text) DXF");
    return text;
}

Groups::Groups(std::string_view text) : text_(text) {
    if (text_.substr(0, 3) == "\xef\xbb\xbf") text_.remove_prefix(3);
}

bool Groups::nextLine(std::string_view& content) {
    if (at_ >= text_.size()) return false;
    const std::size_t end = std::min(text_.find_first_of("\r\n", at_), text_.size());
    content = trimmed(text_.substr(at_, end - at_));
    at_ = end;
    if (at_ < text_.size()) at_ += text_.substr(at_, 2) == "\r\n" ? 2 : 1;
    ++line_;
    return true;
}

bool Groups::next(Group& group) {
    if (hasKept_) {
        hasKept_ = false;
        group = kept_;
        return true;
    }
    std::string_view code;
    if (!nextLine(code)) return false;
    Group read;
    read.value = code;
    read.line = line_;
    if (!parsed(code, read.code)) {
        if (code.empty() && trimmed(text_.substr(at_)).find_first_not_of("\r\n \t") == std::string_view::npos)
            return false;  // blank lines at the very end
        unreadable(read, "a group code");
    }
    if (!nextLine(read.value)) return false;
    read.line = line_;
    group = read;
    return true;
}

void Groups::putBack(const Group& group) {
    kept_ = group;
    hasKept_ = true;
}

double numberOf(const Group& group) {
    double number = 0;
    if (!parsed(group.value, number) || !std::isfinite(number)) unreadable(group, "a number");
    return number;
}

int wholeNumberOf(const Group& group) {
    int number = 0;
    if (!parsed(group.value, number)) unreadable(group, "a whole number");
    return number;
}

}  // namespace waybench::dxf
