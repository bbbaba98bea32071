#include "app/document/load_cases.h"

#include <algorithm>

namespace waybench {

void insertLoadCase(Part& part, std::size_t at, LoadCase loadCase) {
    part.furtherLoadCases.insert(part.furtherLoadCases.begin() + std::ptrdiff_t(at - 1), std::move(loadCase));
}

void removeLoadCase(Part& part, std::size_t at) {
    if (at == 0) {
        part.loadCase = part.furtherLoadCases.front();
        at = 1;
    }
    part.furtherLoadCases.erase(part.furtherLoadCases.begin() + std::ptrdiff_t(at - 1));
}

std::string freeLoadCaseName(const Part& part, const std::string& wish, std::size_t owner) {
    const auto isTaken = [&](const std::string& name) {
        for (std::size_t k = 0; k < part.loadCaseCount(); ++k)
            if (k != owner && part.loadCaseAt(k).name == name) return true;
        return false;
    };
    if (!isTaken(wish)) return wish;
    for (int k = 2;; ++k)
        if (const std::string name = wish + " " + std::to_string(k); !isTaken(name)) return name;
}

LoadCase unloadedLike(const LoadCase& model) {
    LoadCase loadCase = model;
    loadCase.loads.clear();
    return loadCase;
}

std::size_t firstDifferingCase(const Part& a, const Part& b) {
    const std::size_t both = std::min(a.loadCaseCount(), b.loadCaseCount());
    for (std::size_t k = 0; k < both; ++k)
        if (a.loadCaseAt(k) != b.loadCaseAt(k)) return k;
    return both;
}

}  // namespace waybench
