#include "core/printed/bead.h"

#include <cmath>
#include <stdexcept>

namespace waybench::printed {
namespace {

constexpr double kPi = 3.14159265358979323846;

void mustBePositive(double x, const char* what) {
    if (!std::isfinite(x) || x <= 0) throw std::logic_error(what);
}

}  // namespace

double beadArea_mm2(const Bead& bead) {
    mustBePositive(bead.height_mm, "bead height must be positive");
    if (!(bead.width_mm >= bead.height_mm)) throw std::logic_error("a bead is at least as wide as high");
    return (bead.width_mm - bead.height_mm) * bead.height_mm + kPi * bead.height_mm * bead.height_mm / 4;
}

double voidFreeSpacing_mm(const Bead& bead) {
    return beadArea_mm2(bead) / bead.height_mm;
}

double voidShare(const Bead& bead, double spacing_mm) {
    mustBePositive(spacing_mm, "spacing must be positive");
    return 1 - beadArea_mm2(bead) / (spacing_mm * bead.height_mm);
}

double filamentArea_mm2(double diameter_mm) {
    mustBePositive(diameter_mm, "filament diameter must be positive");
    return kPi * diameter_mm * diameter_mm / 4;
}

double feedPerPath(const Bead& bead, double filamentDiameter_mm) {
    return beadArea_mm2(bead) / filamentArea_mm2(filamentDiameter_mm);
}

double filamentLength_mm(double mass_g, double density_g_per_cm3, double filamentDiameter_mm) {
    mustBePositive(density_g_per_cm3, "density must be positive");
    return mass_g / density_g_per_cm3 * 1000 / filamentArea_mm2(filamentDiameter_mm);
}

double flowLimitedSpeed_mm_s(double flow_mm3_s, double area_mm2) {
    mustBePositive(flow_mm3_s, "flow must be positive");
    mustBePositive(area_mm2, "bead area must be positive");
    return flow_mm3_s / area_mm2;
}

}  // namespace waybench::printed
