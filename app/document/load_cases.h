#pragma once
#include <cstddef>
#include <string>

#include "core/comparison/part.h"

namespace waybench {

// What is done to the list of a part's load cases; an index is as in Part::loadCaseAt.

/// @param at 1 to part.loadCaseCount()
void insertLoadCase(Part& part, std::size_t at, LoadCase loadCase);
/// Where the first goes, the second takes its place. Precondition: there are two at least.
void removeLoadCase(Part& part, std::size_t at);
/// The name, or with a number behind it where another case of the part has it. @param owner index of the case that may
/// keep its name
std::string freeLoadCaseName(const Part& part, const std::string& wish, std::size_t owner);

/// Holds and measures like `model` and is used alike, but nothing pushes yet: no load is assumed.
LoadCase unloadedLike(const LoadCase& model);

/// The first case the two descriptions differ in; the count of the shorter list where all its cases are equal.
std::size_t firstDifferingCase(const Part& a, const Part& b);

}  // namespace waybench
