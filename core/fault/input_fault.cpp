#include "core/fault/input_fault.h"

#include <utility>

namespace waybench {

namespace {

std::string oneLine(const std::string& file, const std::string& place, const std::string& problem,
                    const std::string& remedy) {
    std::string line;
    if (!file.empty()) line += file + ": ";
    if (!place.empty()) line += place + ": ";
    line += problem;
    if (!remedy.empty()) line += "; " + remedy;
    return line;
}

}  // namespace

InputFault::InputFault(std::string code, std::string file, std::string place, std::string problem, std::string remedy)
    : std::runtime_error(oneLine(file, place, problem, remedy)),
      code_(std::move(code)),
      file_(std::move(file)),
      place_(std::move(place)),
      problem_(std::move(problem)),
      remedy_(std::move(remedy)) {}

InputFault InputFault::inFile(const std::string& file) const {
    return {code_, file_.empty() ? file : file_, place_, problem_, remedy_};
}

InputFault InputFault::within(const std::string& outerPlace) const {
    return {code_, file_, place_.empty() ? outerPlace : outerPlace + ", " + place_, problem_, remedy_};
}

}  // namespace waybench
