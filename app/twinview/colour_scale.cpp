#include "app/twinview/colour_scale.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace waybench {

namespace {

struct OkLab {
    double l, a, b;
};

// OKLab to sRGB, after B. Ottosson, "A perceptual color space for image processing", 2020 (matrices from memory,
// checked by the round trip of white and of the primaries).
QColor toColour(const OkLab& c) {
    const double l = std::pow(c.l + 0.3963377774 * c.a + 0.2158037573 * c.b, 3);
    const double m = std::pow(c.l - 0.1055613458 * c.a - 0.0638541728 * c.b, 3);
    const double s = std::pow(c.l - 0.0894841775 * c.a - 1.2914855480 * c.b, 3);
    const std::array<double, 3> linear = {4.0767416621 * l - 3.3077115913 * m + 0.2309699292 * s,
                                          -1.2684380046 * l + 2.6097574011 * m - 0.3413193965 * s,
                                          -0.0041960863 * l - 0.7034186147 * m + 1.7076147010 * s};
    auto encode = [](double v) {
        v = std::clamp(v, 0.0, 1.0);
        return v <= 0.0031308 ? 12.92 * v : 1.055 * std::pow(v, 1 / 2.4) - 0.055;
    };
    return QColor::fromRgbF(float(encode(linear[0])), float(encode(linear[1])), float(encode(linear[2])));
}

}  // namespace

QColor fieldColour(double share) {
    static constexpr std::array<OkLab, 5> kAnchors = {{{0.92, 0.004, 0.055},
                                                       {0.78, -0.060, 0.050},
                                                       {0.62, -0.085, -0.010},
                                                       {0.46, -0.035, -0.090},
                                                       {0.30, 0.050, -0.110}}};
    const double x = std::clamp(std::isfinite(share) ? share : 0.0, 0.0, 1.0) * (kAnchors.size() - 1);
    const auto i = std::min<std::size_t>(std::size_t(x), kAnchors.size() - 2);
    const double t = x - double(i);
    const OkLab& p = kAnchors[i];
    const OkLab& q = kAnchors[i + 1];
    return toColour({p.l + t * (q.l - p.l), p.a + t * (q.a - p.a), p.b + t * (q.b - p.b)});
}

}  // namespace waybench
