#pragma once

namespace waybench::printed {

/// Cross-section of one laid bead: a stadium, flat above and below, half-round at its sides (printed-route.md 3.1).
struct Bead {
    double width_mm = 0, height_mm = 0;
};

/// A = (w - h) h + pi h^2/4, mm2. Precondition 0 < h <= w. @throws std::logic_error
double beadArea_mm2(const Bead& bead);
/// Distance of neighbouring beads that leaves no void between them: w - h (1 - pi/4) = A/h, mm.
double voidFreeSpacing_mm(const Bead& bead);
/// Share of void when beads lie side by side at this spacing: 1 - A/(spacing h).
double voidShare(const Bead& bead, double spacing_mm);

/// Filament cross-section, mm2. The diameter of nearly all filament on the market is 1.75 mm.
double filamentArea_mm2(double diameter_mm = 1.75);
/// Filament pushed per millimetre of path, mm/mm.
double feedPerPath(const Bead& bead, double filamentDiameter_mm = 1.75);
/// Length of filament in a mass of it, mm. Density in g/cm3.
double filamentLength_mm(double mass_g, double density_g_per_cm3, double filamentDiameter_mm = 1.75);
/// Highest path speed the melt flow allows, v = Q/A, mm/s.
double flowLimitedSpeed_mm_s(double flow_mm3_s, double area_mm2);

}  // namespace waybench::printed
