#include "core/accuracy/roughness.h"

#include <cmath>
#include <numbers>
#include <stdexcept>

namespace waybench {

namespace {

void require(bool holds, const char* what) {
    if (!holds) throw std::logic_error(what);
}

}  // namespace

double scallopHeight_mm(double ballRadius_mm, double stepover_mm) {
    require(ballRadius_mm > 0 && stepover_mm >= 0 && stepover_mm <= 2 * ballRadius_mm, "scallop: 0 <= s <= 2R");
    // R - sqrt(R^2 - q), written so that nothing cancels for small steps
    const double q = stepover_mm * stepover_mm / 4;
    return q / (ballRadius_mm + std::sqrt(ballRadius_mm * ballRadius_mm - q));
}

double stepoverForScallop_mm(double ballRadius_mm, double height_mm) {
    require(ballRadius_mm > 0 && height_mm >= 0 && height_mm <= ballRadius_mm, "scallop: 0 <= h <= R");
    return 2 * std::sqrt(height_mm * (2 * ballRadius_mm - height_mm));
}

double sideFeedMark_mm(double feedPerTooth_mm, double toolDiameter_mm) {
    require(toolDiameter_mm > 0, "feed mark: diameter");
    return feedPerTooth_mm * feedPerTooth_mm / (4 * toolDiameter_mm);
}

double turningRz_mm(double feed_mm, double noseRadius_mm) {
    require(noseRadius_mm > 0, "turning: nose radius");
    return feed_mm * feed_mm / (8 * noseRadius_mm);
}

double turningRa_mm(double feed_mm, double noseRadius_mm) {
    return turningRz_mm(feed_mm, noseRadius_mm) / 4;
}

double stairRz_mm(double layerThickness_mm, double faceAngle_deg) {
    return layerThickness_mm * std::abs(std::cos(faceAngle_deg * std::numbers::pi / 180));
}

double stairRa_mm(double layerThickness_mm, double faceAngle_deg) {
    return stairRz_mm(layerThickness_mm, faceAngle_deg) / 4;
}

double beadWallRa_mm(double layerThickness_mm) {
    // Semicircle of radius h/2 over chord h: mean height m = pi h/8; Ra = (2/h) times the area above the mean line.
    const double r = layerThickness_mm / 2, m = std::numbers::pi * r / 4;
    const double x = std::sqrt(r * r - m * m);
    const double above = r * r * std::acos(m / r) - m * x;
    return above / r;
}

}  // namespace waybench
