#pragma once
#include <string>

#include "core/bench/mill.h"
#include "core/material/stock_material.h"

namespace waybench::machined {

/// How a cutter stands in the material: full width, clearing with neighbouring passes, last pass along a wall,
/// levelling a face.
enum class CutKind { slot, clearing, finishing, facing };
const char* nameOf(CutKind kind);

/// Cutting data of one tool in one material on one mill, inside every limit.
struct CuttingData {
    double spindle_per_min = 0;
    double feedPerTooth_mm = 0;  ///< drills: per turn
    double feed_mm_s = 0, plungeFeed_mm_s = 0;
    double depth_mm = 0;  ///< step-down
    double width_mm = 0;  ///< step-over, or engagement of a finishing pass
    double meanChip_mm = 0, maximumChip_mm = 0;
    Figure pressure;           ///< MPa at the mean chip
    Figure force_N;            ///< largest force on the tool; drills: thrust
    Figure power_W;            ///< at the cutting edge, mean, Unit::watt
    double torque_Nmm = 0;     ///< mean
    double deflection_mm = 0;  ///< tool, holder and machine together, radial
    double stress_MPa = 0;     ///< bending of the tool
    std::string binding;       ///< what limits depth or feed, in words
    bool tooFast = false;      ///< the slowest spindle speed is above the material's cutting-speed ceiling
    bool withinLimits = true;  ///< false when even the thinnest cut goes over power, torque or tool stress
};

/// Chip load window at a tool diameter: linear between the material's rows, proportional to the diameter below the
/// first and constant above the last. @throws std::logic_error when the material has no rows
Figure chipLoadAt(const StockMaterial& material, double diameter_mm);

/// Speed, feed, step-down and step-over of an end mill. The depth is the largest that keeps depth ratio, usable power
/// and torque share, deflection (roughing: half the finishing allowance; finishing: a third of the +-0.1 mm of
/// ISO 2768-m at 0.5 to 6 mm) and tool stress (500 MPa for carbide, 250 MPa for steel tools; common practice, no
/// source); the tightest of them is named in `binding`.
/// @param allowance_mm what stays on walls for the last pass
CuttingData chooseMilling(const StockMaterial& material, const Mill& mill, const Tool& tool, CutKind kind,
                          double allowance_mm);

/// Speed and feed of a drill; feed per turn 0.012 D (lower half of S61, S62 for light machines), reduced by depth
/// (S63).
CuttingData chooseDrilling(const StockMaterial& material, const Mill& mill, const Tool& tool, double depth_mm);

/// Rated torque share times the rated torque (rated power at the top speed; constant torque below it), N mm.
double usableTorque_Nmm(const Mill& mill);
/// Usable power at a speed, W: the lesser of the power share and what the usable torque gives.
double usablePower_W(const Mill& mill, double spindle_per_min);

}  // namespace waybench::machined
