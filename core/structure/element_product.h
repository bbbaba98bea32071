#pragma once
#include <array>
#include <cstdint>
#include <span>

namespace waybench::statics {

/// Eight node numbers and the number of the 24 x 24 matrix (column by column) of one element.
struct ElementLink {
    std::array<std::int32_t, 8> node;
    std::int32_t matrix;
};

/// y += sum over elements of their matrices times u; three unknowns per node. Elements in order, so the result is the
/// same every time.
void addProduct(std::span<const ElementLink> elements, const double* matrices, const double* u, double* y);
void addProduct(std::span<const ElementLink> elements, const float* matrices, const float* u, float* y);

}  // namespace waybench::statics
