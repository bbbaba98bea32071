#include "core/geometry/import/stl_facets.h"

#include <bit>
#include <charconv>
#include <cmath>
#include <cstdint>

#include "core/fault/input_fault.h"

namespace waybench::stl {

namespace {

constexpr std::size_t kHeadBytes = 84, kFacetBytes = 50, kNormalBytes = 12;

InputFault fault(const std::string& code, const std::string& place, const std::string& problem) {
    return {code, "", place, problem, "export the surface again as STL"};
}

char lower(char c) {
    return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
}

/// Words separated by blanks, with the line they stand on.
class Words {
public:
    explicit Words(std::string_view text) : text_(text) {}

    std::string_view next() {
        while (at_ < text_.size() && isBlank(text_[at_]))
            step();
        const std::size_t begin = at_;
        while (at_ < text_.size() && !isBlank(text_[at_]))
            ++at_;
        return text_.substr(begin, at_ - begin);
    }
    void skipLine() {
        while (at_ < text_.size() && text_[at_] != '\n' && text_[at_] != '\r')
            ++at_;
    }
    bool atEnd() const { return at_ >= text_.size(); }
    std::string place() const { return "line " + std::to_string(line_); }

private:
    static bool isBlank(char c) { return c == ' ' || c == '\t' || c == '\n' || c == '\r' || c == '\f' || c == '\v'; }
    void step() {
        const bool loneReturn = text_[at_] == '\r' && (at_ + 1 >= text_.size() || text_[at_ + 1] != '\n');
        if (text_[at_] == '\n' || loneReturn) ++line_;
        ++at_;
    }

    std::string_view text_;
    std::size_t at_ = 0, line_ = 1;
};

bool is(std::string_view word, std::string_view keyword) {
    if (word.size() != keyword.size()) return false;
    for (std::size_t i = 0; i < word.size(); ++i)
        if (lower(word[i]) != keyword[i]) return false;
    return true;
}

InputFault truncated(const Words& words) {
    return fault("file_truncated", words.place(), "the surface ends in the middle");
}

void expect(Words& words, std::string_view keyword) {
    const std::string_view word = words.next();
    if (is(word, keyword)) return;
    if (word.empty() || words.atEnd()) throw truncated(words);
    throw fault("file_not_stl", words.place(),
                "'" + std::string(word.substr(0, 40)) + "' stands where '" + std::string(keyword) + "' is expected");
}

double coordinate(Words& words) {
    std::string_view word = words.next();
    if (word.empty()) throw truncated(words);
    std::string_view digits = word;
    if (digits.front() == '+') digits.remove_prefix(1);
    double value = 0;
    const auto [end, error] = std::from_chars(digits.data(), digits.data() + digits.size(), value);
    if (error == std::errc::result_out_of_range &&
        (digits.find("e-") != std::string_view::npos || digits.find("E-") != std::string_view::npos))
        return 0;
    if (error != std::errc() || end != digits.data() + digits.size() || !std::isfinite(value))
        throw fault("number_unreadable", words.place(), "'" + std::string(word.substr(0, 40)) + "' is not a number");
    return value;
}

void readFacet(Words& words, std::vector<Vec3>& corners) {
    expect(words, "normal");
    for (int i = 0; i < 3; ++i)
        if (words.next().empty()) throw truncated(words);  // the normal follows from the corners
    expect(words, "outer");
    expect(words, "loop");
    for (int i = 0; i < 3; ++i) {
        expect(words, "vertex");
        const double x = coordinate(words), y = coordinate(words), z = coordinate(words);
        corners.emplace_back(x, y, z);
    }
    expect(words, "endloop");
    expect(words, "endfacet");
}

std::uint32_t littleEndian(const char* bytes) {
    std::uint32_t value = 0;
    for (int i = 3; i >= 0; --i)
        value = value << 8 | static_cast<unsigned char>(bytes[i]);
    return value;
}

}  // namespace

std::vector<Vec3> cornersOfText(std::string_view text) {
    std::vector<Vec3> corners;
    Words words(text);
    expect(words, "solid");
    words.skipLine();
    bool isOpen = true;
    for (;;) {
        const std::string_view word = words.next();
        if (word.empty()) break;
        if (isOpen && is(word, "facet")) {
            readFacet(words, corners);
        } else if (isOpen && is(word, "endsolid")) {
            words.skipLine();
            isOpen = false;
        } else if (!isOpen && is(word, "solid")) {
            words.skipLine();
            isOpen = true;
        } else {
            throw fault("file_not_stl", words.place(),
                        "'" + std::string(word.substr(0, 40)) + "' is not expected here");
        }
    }
    if (isOpen) throw truncated(words);
    return corners;
}

std::vector<Vec3> cornersOfBinary(std::string_view content) {
    const std::uint32_t count = littleEndian(content.data() + kHeadBytes - 4);
    if ((content.size() - kHeadBytes) / kFacetBytes < count)
        throw fault("file_truncated", "facet " + std::to_string((content.size() - kHeadBytes) / kFacetBytes + 1),
                    "the file promises " + std::to_string(count) + " facets and ends before");
    std::vector<Vec3> corners;
    corners.reserve(std::size_t{3} * count);
    for (std::size_t f = 0; f < count; ++f) {
        const char* at = content.data() + kHeadBytes + f * kFacetBytes + kNormalBytes;
        for (int k = 0; k < 3; ++k) {
            Vec3 p;
            for (int i = 0; i < 3; ++i)
                p[i] = std::bit_cast<float>(littleEndian(at + 12 * k + 4 * i));
            if (!p.allFinite())
                throw fault("number_unreadable", "facet " + std::to_string(f + 1), "a coordinate is not a number");
            corners.push_back(p);
        }
    }
    return corners;
}

}  // namespace waybench::stl
