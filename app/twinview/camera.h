#pragma once
#include <QPointF>
#include <QSizeF>

#include "core/geometry/vector.h"

namespace waybench {

/// Parallel-projection camera that both part views share. Angles in radians; z of the part points up on the screen.
struct Camera {
    double turn = -0.6;          ///< about the part's z axis
    double tilt = 0.5;           ///< above the horizon
    Vec3 target = Vec3::Zero();  ///< point in the middle of the picture, mm
    double halfHeight_mm = 50;   ///< half the picture's height in part millimetres

    Vec3 right() const;
    Vec3 up() const;
    Vec3 towardsEye() const;

    /// Pixel of a part point for a picture of that size (origin top left, logical pixels).
    QPointF project(const Vec3& p, const QSizeF& size) const;
    /// Depth towards the eye, mm; larger is nearer.
    double depth(const Vec3& p) const { return (p - target).dot(towardsEye()); }
    /// Millimetres per logical pixel.
    double scale(const QSizeF& size) const { return 2.0 * halfHeight_mm / size.height(); }

    void orbit(double dTurn, double dTilt);
    void pan(double dx_px, double dy_px, const QSizeF& size);
    void zoom(double factor, const QPointF& about, const QSizeF& size);
    /// Same viewing direction, whole box in the picture with a margin.
    void fit(const Box3& box, const QSizeF& size, double margin = 1.18);
    void lookAlong(Direction towardsEye);

    bool operator==(const Camera&) const = default;
};

}  // namespace waybench
