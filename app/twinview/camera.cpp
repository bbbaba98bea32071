#include "app/twinview/camera.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace waybench {

Vec3 Camera::right() const {
    return {std::cos(turn), std::sin(turn), 0};
}
Vec3 Camera::towardsEye() const {
    return {std::cos(tilt) * std::sin(turn), -std::cos(tilt) * std::cos(turn), std::sin(tilt)};
}
Vec3 Camera::up() const {
    return towardsEye().cross(right());
}

QPointF Camera::project(const Vec3& p, const QSizeF& size) const {
    const Vec3 d = p - target;
    const double pixelsPerMm = 1.0 / scale(size);
    return {size.width() / 2 + d.dot(right()) * pixelsPerMm, size.height() / 2 - d.dot(up()) * pixelsPerMm};
}

void Camera::orbit(double dTurn, double dTilt) {
    turn = std::remainder(turn + dTurn, 2 * std::numbers::pi);
    tilt = std::clamp(tilt + dTilt, -std::numbers::pi / 2, std::numbers::pi / 2);
}

void Camera::pan(double dx_px, double dy_px, const QSizeF& size) {
    target -= (right() * dx_px - up() * dy_px) * scale(size);
}

void Camera::zoom(double factor, const QPointF& about, const QSizeF& size) {
    const double before = scale(size);
    const double next = std::clamp(halfHeight_mm / factor, 0.5, 5000.0);
    const double after = before * next / halfHeight_mm;
    const double dx = about.x() - size.width() / 2, dy = about.y() - size.height() / 2;
    target += (right() * dx - up() * dy) * (before - after);
    halfHeight_mm = next;
}

void Camera::fit(const Box3& box, const QSizeF& size, double margin) {
    target = box.centre();
    double halfWidth = 1e-3, halfHeight = 1e-3;
    for (int corner = 0; corner < 8; ++corner) {
        const Vec3 p((corner & 1) ? box.high.x() : box.low.x(), (corner & 2) ? box.high.y() : box.low.y(),
                     (corner & 4) ? box.high.z() : box.low.z());
        halfWidth = std::max(halfWidth, std::abs((p - target).dot(right())));
        halfHeight = std::max(halfHeight, std::abs((p - target).dot(up())));
    }
    const double aspect = size.width() / std::max(1.0, size.height());
    halfHeight_mm = margin * std::max(halfHeight, halfWidth / std::max(aspect, 1e-3));
}

void Camera::lookAlong(Direction eye) {
    const Vec3 d = unitVector(eye);
    if (std::abs(d.z()) > 0.5) {
        tilt = d.z() * std::numbers::pi / 2;
        turn = 0;
    } else {
        tilt = 0;
        turn = std::atan2(d.x(), -d.y());
    }
}

}  // namespace waybench
