#include <algorithm>
#include <array>
#include <cmath>
#include <utility>

#include "core/fault/input_fault.h"
#include "core/material/cellular_law.h"
#include "core/material/printing_material.h"

namespace waybench {

namespace {

constexpr std::array<std::pair<InfillPattern, const char*>, 5> kNames{{
    {InfillPattern::lines, "lines"},
    {InfillPattern::grid, "grid"},
    {InfillPattern::triangles, "triangles"},
    {InfillPattern::honeycomb, "honeycomb"},
    {InfillPattern::gyroid, "gyroid"},
}};

/// The law, blended to the solid above rho 0.6 and never above the bound.
double blended(double law, double bound, double rho) {
    const double solid = std::clamp((rho - 0.6) / 0.4, 0.0, 1.0);
    return std::min((1 - solid) * law + solid, bound);
}

}  // namespace

const char* nameOf(InfillPattern pattern) {
    for (const auto& [p, name] : kNames)
        if (p == pattern) return name;
    return "";
}

InfillPattern infillPatternFromName(const std::string& name) {
    std::string known;
    for (const auto& [pattern, patternName] : kNames) {
        if (name == patternName) return pattern;
        known += (known.empty() ? "" : ", ") + std::string(patternName);
    }
    throw InputFault("infill_unknown", "", "infill", "infill '" + name + "' is not known", "use one of " + known);
}

InfillModuli infillModuli(InfillPattern pattern, double share) {
    if (!(share >= 0 && share <= 1))
        throw InputFault("infill_share_out_of_range", "", "infill share", "the share must lie between 0 and 1",
                         "give 0.3 for 30 %");
    const double rho = share;
    const double flat = isotropicUpperBound2d(rho);
    const double walls = wallModulusAlongAxis(rho);
    const double crossings = rho * rho;  // where lines of alternate layers touch
    InfillModuli m;
    switch (pattern) {
        case InfillPattern::lines:
            m.inLayer = blended((crossedLinesModulusAlongLines(rho) + squareGridModulusDiagonal(rho)) / 2, flat, rho);
            m.across = blended(crossings, walls, rho);
            m.shear = blended(crossings / 2, walls, rho);
            m.below = 0.5;
            m.above = 1.0;
            break;
        case InfillPattern::grid:
            m.inLayer = blended((squareGridModulusAlongWalls(rho) + squareGridModulusDiagonal(rho)) / 2, flat, rho);
            m.across = walls;
            m.shear = blended(walls / 2, walls, rho);
            m.below = 0.5;
            m.above = 1.0;
            break;
        case InfillPattern::triangles:
            m.inLayer = blended(triangularGridModulus(rho), flat, rho);
            m.across = walls;
            m.shear = blended(walls / 2, walls, rho);
            m.below = m.above = 0.3;
            break;
        case InfillPattern::honeycomb:
            m.inLayer = blended(hexagonModulusInPlane(rho), flat, rho);
            m.across = walls;
            m.shear = blended(walls / 2, walls, rho);
            m.below = m.above = 0.5;
            break;
        case InfillPattern::gyroid:
            m.inLayer = m.across = m.shear = blended(gyroidModulus(rho), isotropicUpperBound3d(rho), rho);
            m.below = m.above = 0.4;
            break;
    }
    // The closer to the solid, the less the pattern matters.
    const double open = std::clamp((1 - rho) / 0.4, 0.0, 1.0);
    m.below *= open;
    m.above *= open;
    if (m.inLayer > 0) m.above = std::min(m.above, 1 / m.inLayer - 1);
    return m;
}

}  // namespace waybench
