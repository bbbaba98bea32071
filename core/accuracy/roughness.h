#pragma once

namespace waybench {

/// Theoretical surface profiles. Real surfaces are 1.5 to 3 times rougher (common practice, no source).

/// Height of the ridge between two passes of a ball of radius R at stepover s, s <= 2R: R - sqrt(R^2 - s^2/4)
/// (derived).
double scallopHeight_mm(double ballRadius_mm, double stepover_mm);
/// Stepover that leaves a given ridge height <= R (inverse of scallopHeight_mm).
double stepoverForScallop_mm(double ballRadius_mm, double height_mm);
/// Rt of a milled side wall: fz^2/(4 D) (derived; with runout above fz use the feed per revolution).
double sideFeedMark_mm(double feedPerTooth_mm, double toolDiameter_mm);
/// Turning: Rz = f^2/(8 r) (Kyocera technical information 2016 p. 28, read).
double turningRz_mm(double feed_mm, double noseRadius_mm);
/// Turning: Ra = f^2/(32 r) (from memory).
double turningRa_mm(double feed_mm, double noseRadius_mm);
/// Stair profile of layers on a face at an angle to the build plane (90 = vertical wall): Rz = t |cos| (derived).
double stairRz_mm(double layerThickness_mm, double faceAngle_deg);
/// Ra = Rz/4 of that triangular profile (derived).
double stairRa_mm(double layerThickness_mm, double faceAngle_deg);
/// Ceiling of Ra on a vertical printed wall: semicircular beads, 0.0907 h (derived).
double beadWallRa_mm(double layerThickness_mm);

}  // namespace waybench
