#include "core/structure/parted_elements.h"

#include <algorithm>

#include "core/progress/thread_team.h"

namespace waybench::statics {

namespace {

constexpr std::size_t kLeastSlab = 6000;  // elements; smaller ones cost more to hand over than to do
constexpr std::size_t kMostSlabs = 8;
constexpr std::size_t kZeroedShare = 1 << 16;

/// Layers of cells that become seams: slabs of about equal size between them, seams never side by side.
std::vector<int> seamsFor(const std::vector<Index3>& cellOf, std::size_t axis) {
    int last = 0;
    for (const Index3& c : cellOf)
        last = std::max(last, c[axis]);
    std::vector<std::size_t> inLayer(std::size_t(last) + 1, 0);
    for (const Index3& c : cellOf)
        ++inLayer[std::size_t(c[axis])];
    const std::size_t slabs = std::min(kMostSlabs, cellOf.size() / kLeastSlab);
    std::vector<int> seams;
    std::size_t before = 0;
    for (int layer = 0; layer <= last && seams.size() + 1 < slabs; ++layer) {
        before += inLayer[std::size_t(layer)];
        const bool isDue = before >= (seams.size() + 1) * cellOf.size() / slabs;
        if (isDue && layer > 0 && layer < last && (seams.empty() || layer > seams.back() + 1)) seams.push_back(layer);
    }
    return seams;
}

}  // namespace

PartedElements::PartedElements(const std::vector<ElementLink>& elements, const std::vector<Index3>& cellOf) {
    std::size_t longest = 0;
    std::array<int, 3> most{};
    for (const Index3& c : cellOf)
        for (std::size_t axis = 0; axis < 3; ++axis)
            most[axis] = std::max(most[axis], c[axis]);
    for (std::size_t axis = 1; axis < 3; ++axis)
        if (most[axis] > most[longest]) longest = axis;
    const std::vector<int> seams = seamsFor(cellOf, longest);
    // slab i lies below seam i, the last above all of them
    std::vector<std::vector<std::uint32_t>> members(2 * seams.size() + 1);
    for (std::size_t e = 0; e < elements.size(); ++e) {
        const int layer = cellOf[e][longest];
        const auto at = std::lower_bound(seams.begin(), seams.end(), layer);
        const auto index = std::size_t(at - seams.begin());
        const bool isSeam = at != seams.end() && *at == layer;
        members[isSeam ? seams.size() + 1 + index : index].push_back(std::uint32_t(e));
    }
    elements_.reserve(elements.size());
    for (std::size_t part = 0; part < members.size(); ++part) {
        for (const std::uint32_t e : members[part])
            elements_.push_back(elements[e]);
        if (part <= seams.size())
            slabs_.push_back(elements_.size());
        else
            seams_.push_back(elements_.size());
        if (part == seams.size()) seams_.front() = elements_.size();
    }
}

template <class Real>
void PartedElements::productOf(const Real* matrices, const std::vector<Real>& u, std::vector<Real>& y) const {
    const auto add = [&](const std::vector<std::size_t>& bounds, std::size_t i) {
        statics::addProduct(std::span(elements_).subspan(bounds[i], bounds[i + 1] - bounds[i]), matrices, u.data(),
                            y.data());
    };
    if (slabs_.size() == 2) {
        std::fill(y.begin(), y.end(), Real(0));
        return add(slabs_, 0);
    }
    inShares(y.size(), kZeroedShare, [&](std::size_t begin, std::size_t end) {
        std::fill(y.begin() + std::ptrdiff_t(begin), y.begin() + std::ptrdiff_t(end), Real(0));
    });
    inParallel(slabs_.size() - 1, [&](std::size_t i) { add(slabs_, i); });
    inParallel(seams_.size() - 1, [&](std::size_t i) { add(seams_, i); });
}

void PartedElements::product(const double* matrices, const std::vector<double>& u, std::vector<double>& y) const {
    productOf(matrices, u, y);
}
void PartedElements::product(const float* matrices, const std::vector<float>& u, std::vector<float>& y) const {
    productOf(matrices, u, y);
}

}  // namespace waybench::statics
