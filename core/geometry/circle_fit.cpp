#include "core/geometry/circle_fit.h"

#include <Eigen/Dense>
#include <cmath>

namespace waybench {

std::optional<Circle> fittedCircle(const std::vector<Vec2>& points) {
    if (points.size() < 3) return std::nullopt;
    Vec2 mean = Vec2::Zero();
    for (const Vec2& p : points)
        mean += p;
    mean /= static_cast<double>(points.size());
    Eigen::Matrix2d moment = Eigen::Matrix2d::Zero();
    Vec2 right = Vec2::Zero();
    double square = 0;
    for (const Vec2& p : points) {
        const Vec2 d = p - mean;
        moment += d * d.transpose();
        right += d * d.squaredNorm();
        square += d.squaredNorm();
    }
    if (!(moment.determinant() > 1e-14 * square * square)) return std::nullopt;
    const Vec2 offset = 0.5 * moment.inverse() * right;
    return Circle{mean + offset, std::sqrt(offset.squaredNorm() + square / static_cast<double>(points.size()))};
}

}  // namespace waybench
