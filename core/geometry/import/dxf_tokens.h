#pragma once
#include <istream>
#include <string>
#include <string_view>

#include "core/fault/input_fault.h"

namespace waybench::dxf {

/// One group of a DXF file: the code on one line, the value on the next.
struct Group {
    int code = 0;
    std::string_view value;  ///< without surrounding blanks; lives as long as the text
    std::size_t line = 0;    ///< of the value, counted from 1
};

/// The whole stream as text. @throws InputFault "file_too_large" above 64 MB, "file_not_dxf" for binary content
std::string readText(std::istream& in);

/// Walks through the groups of an ASCII DXF text with LF, CR LF or CR line ends.
class Groups {
public:
    explicit Groups(std::string_view text);
    /// False at the end of the text. @throws InputFault "number_unreadable" when a group code is no whole number
    bool next(Group& group);
    /// The group last given is given again by the next call of next().
    void putBack(const Group& group);
    std::size_t line() const { return line_; }

private:
    bool nextLine(std::string_view& content);

    std::string_view text_;
    std::size_t at_ = 0, line_ = 0;
    Group kept_;
    bool hasKept_ = false;
};

/// The value as a finite number. @throws InputFault "number_unreadable" with the line
double numberOf(const Group& group);
/// The value as a whole number. @throws InputFault "number_unreadable" with the line
int wholeNumberOf(const Group& group);

std::string placeOf(std::size_t line);

}  // namespace waybench::dxf
