#include "core/structure/joints.h"

#include <numeric>

namespace waybench::statics {

namespace {

constexpr float kJoined = 0.02F;

std::int32_t rootOf(std::vector<std::int32_t>& parent, std::int32_t i) {
    while (parent[std::size_t(i)] != i)
        i = parent[std::size_t(i)] = parent[std::size_t(parent[std::size_t(i)])];
    return i;
}

void join(std::vector<std::int32_t>& parent, std::int32_t a, std::int32_t b) {
    a = rootOf(parent, a);
    b = rootOf(parent, b);
    if (a != b) parent[std::size_t(std::max(a, b))] = std::min(a, b);
}

struct Weak {
    float share = 0;
    Joint joint{-1, -1, 0};
};

}  // namespace

std::vector<Joint> jointsOf(const Lattice& lattice, const MaterialField& field) {
    const Grid& grid = lattice.grid;
    std::vector<Joint> joints;
    std::vector<Weak> weakest(lattice.elements.size());
    std::vector<char> isJoined(lattice.elements.size(), 0);
    const auto put = [&](std::int32_t low, std::int32_t high, std::size_t axis) {
        if (low < 0 || high < 0) return;
        joints.push_back({low, high, std::int8_t(axis)});
        isJoined[std::size_t(low)] = isJoined[std::size_t(high)] = 1;
    };
    for (std::size_t e = 0; e < lattice.elements.size(); ++e) {
        const std::size_t cell = lattice.cellOf[e];
        if (lattice.elementOfCell[cell] != std::int32_t(e)) continue;  // a further piece: done with the first
        const Index3 at = grid.cellAt(cell);
        const SplitCell* high = field.split ? field.split->at(cell) : nullptr;
        for (std::size_t axis = 0; axis < 3; ++axis) {
            if (at[axis] == 0) continue;
            Index3 before = at;
            --before[axis];
            const std::size_t lowCell = grid.cellIndex(before);
            const std::int32_t lowElement = lattice.elementOfCell[lowCell];
            if (lowElement < 0) continue;
            const float share = field.through[axis].empty() ? 1.0F : field.through[axis][cell];
            const SplitCell* low = field.split ? field.split->at(lowCell) : nullptr;
            if (low == nullptr && high == nullptr) {
                const Joint joint{lowElement, std::int32_t(e), std::int8_t(axis)};
                if (share >= kJoined) {
                    put(lowElement, std::int32_t(e), axis);
                } else if (share > 0) {
                    for (const std::size_t side : {std::size_t(lowElement), e})
                        if (share > weakest[side].share) weakest[side] = {share, joint};
                }
            } else if (share >= kJoined) {
                for (const auto& [a, b] : joinedPieces(low, high, int(axis)))
                    put(lattice.elementAt(lowCell, a), lattice.elementAt(cell, b), axis);
            }
        }
    }
    for (std::size_t e = 0; e < isJoined.size(); ++e)
        if (isJoined[e] == 0 && weakest[e].share > 0) joints.push_back(weakest[e].joint);
    return joints;
}

std::vector<int> groupsBy(const std::vector<Joint>& joints, std::size_t elements) {
    std::vector<std::int32_t> parent(elements);
    std::iota(parent.begin(), parent.end(), 0);
    for (const Joint& j : joints)
        join(parent, j.low, j.high);
    std::vector<int> group(elements, -1);
    int count = 0;
    for (std::size_t e = 0; e < elements; ++e) {
        const auto root = std::size_t(rootOf(parent, std::int32_t(e)));
        group[e] = root == e ? count++ : group[root];
    }
    return group;
}

void numberNodes(Lattice& lattice, const std::vector<Joint>& joints) {
    const std::size_t slots = 8 * lattice.elements.size();
    std::vector<std::int32_t> parent(slots);
    std::iota(parent.begin(), parent.end(), 0);
    for (const Joint& j : joints)
        for (std::int32_t corner = 0; corner < 8; ++corner)
            if ((corner >> j.axis & 1) != 0) join(parent, 8 * j.low + corner, 8 * j.high + (corner ^ (1 << j.axis)));
    lattice.nodeAt.clear();
    std::vector<std::int32_t> number(slots, -1);
    for (std::size_t s = 0; s < slots; ++s) {
        std::int32_t& n = number[std::size_t(rootOf(parent, std::int32_t(s)))];
        if (n < 0) {
            n = std::int32_t(lattice.nodeAt.size());
            const Index3 c = lattice.cellAt(s / 8);
            lattice.nodeAt.push_back({c[0] + int(s & 1), c[1] + int(s >> 1 & 1), c[2] + int(s >> 2 & 1)});
        }
        lattice.elements[s / 8].node[s % 8] = n;
    }
}

}  // namespace waybench::statics
