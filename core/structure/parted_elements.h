#pragma once
#include <vector>

#include "core/structure/element_product.h"
#include "core/structure/grid.h"

namespace waybench::statics {

/// The elements of one level, sorted into slabs that share no node and the seams between them, so that several threads
/// can add their products: first all slabs, then all seams. Where the cuts lie follows from the elements alone, so the
/// sums come out the same with any number of threads.
class PartedElements {
public:
    PartedElements() = default;
    /// @param cellOf grid cell of each element; elements share nodes only with those of the same or adjoining cells
    PartedElements(const std::vector<ElementLink>& elements, const std::vector<Index3>& cellOf);

    /// y := sum over elements of their matrices times u.
    void product(const double* matrices, const std::vector<double>& u, std::vector<double>& y) const;
    void product(const float* matrices, const std::vector<float>& u, std::vector<float>& y) const;

    const std::vector<ElementLink>& elements() const { return elements_; }

private:
    template <class Real>
    void productOf(const Real* matrices, const std::vector<Real>& u, std::vector<Real>& y) const;

    std::vector<ElementLink> elements_;
    std::vector<std::size_t> slabs_{0}, seams_{0};  // bounds of each within elements_; the seams follow the slabs
};

}  // namespace waybench::statics
