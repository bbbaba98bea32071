#include "core/fault/input_fault.h"
#include "core/geometry/family/described_family.h"

namespace waybench {

const std::vector<const Family*>& families() {
    static const std::vector<const Family*> all{&plateFamily(), &bracketFamily(), &channelFamily(), &boxFamily(),
                                                &barFamily(),   &armFamily(),     &blockFamily(),   &guideFamily()};
    return all;
}

const Family& familyNamed(const std::string& key) {
    std::string there;
    for (const Family* family : families()) {
        if (family->key() == key) return *family;
        there += (there.empty() ? "" : ", ") + family->key();
    }
    throw InputFault("family_unknown", "", "family", "there is no shape family '" + key + "'",
                     "choose one of " + there);
}

}  // namespace waybench
