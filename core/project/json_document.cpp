#include "core/project/json_document.h"

#include <algorithm>
#include <set>
#include <vector>

#include "core/fault/input_fault.h"

namespace waybench {

namespace {

constexpr int kDeepest = 64;

std::string lineAndColumn(const std::string& text, std::size_t byte) {
    std::size_t line = 1, column = 1;
    for (std::size_t i = 0; i < std::min(byte, text.size()); ++i) {
        ++column;
        if (text[i] == '\n') {
            ++line;
            column = 1;
        }
    }
    return "line " + std::to_string(line) + ", column " + std::to_string(column);
}

/// Whether the parser stumbled over the digits after a comma that stands right behind a digit: 6,5.
bool isDecimalComma(const std::string& text, std::size_t at) {
    const auto isDigit = [&](std::size_t i) { return i < text.size() && text[i] >= '0' && text[i] <= '9'; };
    std::size_t first = std::min(at, text.size());
    while (first > 0 && isDigit(first - 1))
        --first;
    if (first < 2 || text[first - 1] != ',' || !isDigit(first - 2)) return false;
    return isDigit(first);
}

/// "[json.exception.parse_error.101] parse error at line 1, column 2: syntax error ... - unexpected x" without the
/// library's own heading.
std::string problemIn(std::string message) {
    if (const auto cut = message.find("] "); cut != std::string::npos) message = message.substr(cut + 2);
    if (const auto cut = message.find(": "); message.rfind("parse error at", 0) == 0 && cut != std::string::npos)
        message = message.substr(cut + 2);
    std::string plain;
    for (const char c : message)
        plain += static_cast<unsigned char>(c) < 0x20 || static_cast<unsigned char>(c) > 0x7e ? '?' : c;
    constexpr std::size_t kLongest = 160;
    return plain.size() > kLongest ? plain.substr(0, kLongest) + " ..." : plain;
}

}  // namespace

Json parseJsonDocument(const std::string& text) {
    std::vector<std::set<std::string>> keysSeen;
    const auto watch = [&](int depth, Json::parse_event_t event, Json& parsed) {
        if (event == Json::parse_event_t::object_start || event == Json::parse_event_t::array_start) {
            if (depth >= kDeepest)
                throw InputFault("not_json", "", "", "the lists and objects stand too deep inside each other",
                                 "this is not a project file");
            if (event == Json::parse_event_t::object_start) keysSeen.emplace_back();
        } else if (event == Json::parse_event_t::object_end) {
            keysSeen.pop_back();
        } else if (event == Json::parse_event_t::key && !keysSeen.back().insert(parsed.get<std::string>()).second) {
            throw InputFault("key_twice", "", parsed.get<std::string>(),
                             "the key '" + parsed.get<std::string>() + "' stands twice in one object",
                             "delete one of them");
        }
        return true;
    };
    try {
        return Json::parse(text, watch);
    } catch (const Json::parse_error& error) {
        const std::size_t at = error.byte > 0 ? error.byte - 1 : 0;
        throw InputFault("not_json", "", lineAndColumn(text, at), "this is not JSON: " + problemIn(error.what()),
                         isDecimalComma(text, at) ? "write numbers with a decimal point, 6.5 for 6,5"
                                                  : "mend the text there, or open the last good copy");
    } catch (const Json::out_of_range& error) {
        const std::string message = error.what();
        const auto from = message.find('\''), to = message.rfind('\'');
        const std::string token = from < to ? message.substr(from + 1, to - from - 1) : std::string();
        const auto at = token.empty() ? std::string::npos : text.find(token);
        throw InputFault("value_out_of_range", "", at == std::string::npos ? "" : lineAndColumn(text, at),
                         "the number " + token + " is too large to be meant", "write a smaller number");
    }
}

}  // namespace waybench
