#include "core/structure/element_product.h"

#include <cstddef>

// One build serves old and new processors: the compiler makes both versions of the kernel and the loader picks.
#if defined(__x86_64__) && defined(__GNUC__) && !defined(__clang__) && !defined(__SANITIZE_ADDRESS__)
#define WAYBENCH_WIDE_VECTORS __attribute__((target_clones("avx2", "default")))
#else
#define WAYBENCH_WIDE_VECTORS
#endif

namespace waybench::statics {

namespace {

template <class Real>
[[gnu::always_inline]] inline void productOf(const ElementLink* element, const ElementLink* end, const Real* matrices,
                                             const Real* u, Real* y) {
    typedef Real Pack __attribute__((vector_size(32), aligned(alignof(Real)), may_alias));
    constexpr int kLanes = 32 / int(sizeof(Real)), kPacks = 24 / kLanes;
    for (; element != end; ++element) {
        const std::int32_t* node = element->node.data();
        const Real* column = matrices + 576 * std::ptrdiff_t(element->matrix);
        Pack even[kPacks], odd[kPacks];  // two sums each, so that additions overlap
        for (int p = 0; p < kPacks; ++p)
            even[p] = odd[p] = Pack{};
        for (int pair = 0; pair < 4; ++pair, column += 144) {
            const Real* first = u + 3 * std::ptrdiff_t(node[2 * pair]);
            const Real* second = u + 3 * std::ptrdiff_t(node[2 * pair + 1]);
#pragma GCC unroll 3
            for (int k = 0; k < 3; ++k) {
                const Real a = first[k], b = second[k];
#pragma GCC unroll 6
                for (int p = 0; p < kPacks; ++p) {
                    even[p] += *reinterpret_cast<const Pack*>(column + 24 * k + kLanes * p) * a;
                    odd[p] += *reinterpret_cast<const Pack*>(column + 72 + 24 * k + kLanes * p) * b;
                }
            }
        }
        alignas(32) Real out[24];
        for (int p = 0; p < kPacks; ++p)
            *reinterpret_cast<Pack*>(out + kLanes * p) = even[p] + odd[p];
        for (int a = 0; a < 8; ++a) {
            Real* to = y + 3 * std::ptrdiff_t(node[a]);
            to[0] += out[3 * a];
            to[1] += out[3 * a + 1];
            to[2] += out[3 * a + 2];
        }
    }
}

}  // namespace

WAYBENCH_WIDE_VECTORS void addProductDouble(const ElementLink* element, const ElementLink* end, const double* matrices,
                                            const double* u, double* y) {
    productOf<double>(element, end, matrices, u, y);
}

WAYBENCH_WIDE_VECTORS void addProductFloat(const ElementLink* element, const ElementLink* end, const float* matrices,
                                           const float* u, float* y) {
    productOf<float>(element, end, matrices, u, y);
}

void addProduct(std::span<const ElementLink> elements, const double* matrices, const double* u, double* y) {
    addProductDouble(elements.data(), elements.data() + elements.size(), matrices, u, y);
}

void addProduct(std::span<const ElementLink> elements, const float* matrices, const float* u, float* y) {
    addProductFloat(elements.data(), elements.data() + elements.size(), matrices, u, y);
}

}  // namespace waybench::statics
