#include "core/comparison/part.h"

namespace waybench {

std::vector<LoadCase> Part::loadCases() const {
    std::vector<LoadCase> all{loadCase};
    all.insert(all.end(), furtherLoadCases.begin(), furtherLoadCases.end());
    return all;
}

}  // namespace waybench
