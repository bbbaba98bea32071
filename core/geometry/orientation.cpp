#include "core/geometry/orientation.h"

#include <array>
#include <cmath>

namespace waybench {

namespace {

/// Sum of doubles kept without error, smallest part first.
class ExactSum {
public:
    void addProduct(double a, double b) {
        const double product = a * b;
        add(std::fma(a, b, -product));
        add(product);
    }
    int sign() const {
        for (std::size_t i = count_; i-- > 0;)
            if (parts_[i] != 0) return parts_[i] > 0 ? 1 : -1;
        return 0;
    }

private:
    void add(double q) {
        for (std::size_t i = 0; i < count_; ++i) {
            const double sum = q + parts_[i], virtualPart = sum - q;
            parts_[i] = (q - (sum - virtualPart)) + (parts_[i] - virtualPart);
            q = sum;
        }
        parts_[count_++] = q;
    }
    std::array<double, 16> parts_{};
    std::size_t count_ = 0;
};

}  // namespace

int turnOf(const Vec2& a, const Vec2& b, const Vec2& c) {
    const double left = (a.x() - c.x()) * (b.y() - c.y()), right = (a.y() - c.y()) * (b.x() - c.x());
    const double turn = left - right;
    const double bound = 3.3306690738754716e-16 * (std::abs(left) + std::abs(right));
    if (turn > bound) return 1;
    if (turn < -bound) return -1;
    ExactSum sum;
    sum.addProduct(a.x(), b.y());
    sum.addProduct(-a.x(), c.y());
    sum.addProduct(-c.x(), b.y());
    sum.addProduct(-a.y(), b.x());
    sum.addProduct(a.y(), c.x());
    sum.addProduct(c.y(), b.x());
    return sum.sign();
}

}  // namespace waybench
