#pragma once
#include <stdexcept>
#include <string>

namespace waybench {

/// What is wrong with something the user gave us, said so that it can be mended.
///
/// Thrown by every reader and every check of user input; caught at the edge (command line: one line on standard
/// error and status 1; window: the message beside the field). Broken invariants of our own are std::logic_error.
class InputFault : public std::runtime_error {
public:
    /// @param code    stable word, tested and never translated, e.g. "contour_open"
    /// @param file    the file at fault, empty when the input was typed
    /// @param place   where in it: "line 12", "part 'encoder arm', thickness", "facet 310"
    /// @param problem what is wrong, in the user's words
    /// @param remedy  what to do about it
    InputFault(std::string code, std::string file, std::string place, std::string problem, std::string remedy);

    const std::string& code() const { return code_; }
    const std::string& file() const { return file_; }
    const std::string& place() const { return place_; }
    const std::string& problem() const { return problem_; }
    const std::string& remedy() const { return remedy_; }

    /// The same fault with the file filled in, where an inner reader could not know it.
    InputFault inFile(const std::string& file) const;
    /// The same fault with the place prefixed, e.g. "part 'guide': " + place.
    InputFault within(const std::string& outerPlace) const;

private:
    std::string code_, file_, place_, problem_, remedy_;
};

}  // namespace waybench
