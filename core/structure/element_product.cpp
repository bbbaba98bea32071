#include "core/structure/element_product.h"

#include <cstddef>
#include <cstring>

// One build serves old and new processors: the compiler makes both versions of the kernel and the loader picks.
#if defined(__x86_64__) && defined(__GNUC__) && !defined(__clang__) && !defined(__SANITIZE_ADDRESS__)
#define WAYBENCH_WIDE_VECTORS __attribute__((target_clones("arch=haswell", "default")))
#else
#define WAYBENCH_WIDE_VECTORS
#endif

namespace waybench::statics {

namespace {

template <class Real, int Lanes>
[[gnu::always_inline]] inline void productOf(std::span<const ElementLink> elements, const Real* matrices, const Real* u,
                                             Real* y) {
    typedef Real Pack __attribute__((vector_size(32)));
    constexpr int kPacks = 24 / Lanes;
    for (const ElementLink& e : elements) {
        Real in[24];
        for (std::size_t a = 0; a < 8; ++a)
            for (std::size_t k = 0; k < 3; ++k)
                in[3 * a + k] = u[3 * std::size_t(e.node[a]) + k];
        const Real* column = matrices + 576 * std::size_t(e.matrix);
        Pack sum[kPacks] = {};
        for (int c = 0; c < 24; ++c, column += 24) {
            const Real factor = in[c];
            for (int p = 0; p < kPacks; ++p) {
                Pack k;
                std::memcpy(&k, column + p * Lanes, sizeof k);
                sum[p] += k * factor;
            }
        }
        Real out[24];
        std::memcpy(out, sum, sizeof out);
        for (std::size_t a = 0; a < 8; ++a)
            for (std::size_t k = 0; k < 3; ++k)
                y[3 * std::size_t(e.node[a]) + k] += out[3 * a + k];
    }
}

}  // namespace

WAYBENCH_WIDE_VECTORS void addProductDouble(std::span<const ElementLink> elements, const double* matrices,
                                            const double* u, double* y) {
    productOf<double, 4>(elements, matrices, u, y);
}

WAYBENCH_WIDE_VECTORS void addProductFloat(std::span<const ElementLink> elements, const float* matrices, const float* u,
                                           float* y) {
    productOf<float, 8>(elements, matrices, u, y);
}

void addProduct(std::span<const ElementLink> elements, const double* matrices, const double* u, double* y) {
    addProductDouble(elements, matrices, u, y);
}

void addProduct(std::span<const ElementLink> elements, const float* matrices, const float* u, float* y) {
    addProductFloat(elements, matrices, u, y);
}

}  // namespace waybench::statics
