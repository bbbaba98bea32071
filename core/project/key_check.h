#pragma once
#include <string>
#include <vector>

namespace waybench {

/// Fewest insertions, deletions, replacements and swaps of neighbours that turn one word into the other
/// (optimal string alignment distance).
std::size_t editDistance(const std::string& a, const std::string& b);

/// The known name closest to a mistyped one, or empty when none is near enough to be what was meant
/// (more than a third of its letters differ).
std::string nearestName(const std::string& word, const std::vector<std::string>& known);

}  // namespace waybench
