#include "core/project/key_check.h"

#include <algorithm>

namespace waybench {

std::size_t editDistance(const std::string& a, const std::string& b) {
    std::vector<std::size_t> beforeLast(b.size() + 1), last(b.size() + 1), row(b.size() + 1);
    for (std::size_t j = 0; j <= b.size(); ++j)
        last[j] = j;
    for (std::size_t i = 1; i <= a.size(); ++i) {
        row[0] = i;
        for (std::size_t j = 1; j <= b.size(); ++j) {
            const std::size_t replaced = last[j - 1] + (a[i - 1] == b[j - 1] ? 0 : 1);
            row[j] = std::min({last[j] + 1, row[j - 1] + 1, replaced});
            if (i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1])
                row[j] = std::min(row[j], beforeLast[j - 2] + 1);
        }
        beforeLast.swap(last);
        last.swap(row);
    }
    return last[b.size()];
}

std::string nearestName(const std::string& word, const std::vector<std::string>& known) {
    constexpr std::size_t kLongest = 80;  // longer ones are no typing mistake and cost time
    if (word.size() > kLongest) return {};
    std::string nearest;
    std::size_t smallest = 0;
    for (const std::string& candidate : known) {
        const std::size_t distance = editDistance(word, candidate);
        if (nearest.empty() || distance < smallest) {
            nearest = candidate;
            smallest = distance;
        }
    }
    const std::size_t allowed = std::max<std::size_t>(2, std::max(word.size(), nearest.size()) / 3);
    return smallest <= allowed ? nearest : std::string();
}

}  // namespace waybench
