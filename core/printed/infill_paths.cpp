#include "core/printed/infill_paths.h"

#include <algorithm>
#include <cmath>
#include <iterator>
#include <utility>

#include "core/printed/gyroid_infill.h"
#include "core/printed/honeycomb_infill.h"

namespace waybench::printed {
namespace {

constexpr double kPi = 3.14159265358979323846;

void addRaster(std::vector<Curve>& curves, const Region& region, double angle, double spacing) {
    for (const Segment2& line : hatch(region, angle, spacing, 0.5 * spacing))
        curves.push_back({line.from, line.to});
}

double layerAngle(const InfillPlace& place) {
    return place.isOddLayer ? -kPi / 4 : kPi / 4;
}

/// Directions of the straight lines of a layer; each is joined on its own.
std::vector<double> directionsOf(InfillPattern pattern, const InfillPlace& place) {
    switch (pattern) {
        case InfillPattern::grid:
            return {layerAngle(place), layerAngle(place) + kPi / 2};
        case InfillPattern::triangles:
            return {kPi / 4, kPi / 4 + kPi / 3, kPi / 4 + 2 * kPi / 3};
        default:
            return {layerAngle(place)};
    }
}

/// Families of curves that are joined among themselves.
std::vector<std::vector<Curve>> familiesOf(const Region& region, InfillPattern pattern, double share, double spacing_mm,
                                           const InfillPlace& place) {
    if (region.empty() || !(share > 0)) return {};
    if (share < 1 && pattern == InfillPattern::honeycomb)
        return {honeycombCurves(CurveClipper(region), share, spacing_mm)};
    if (share < 1 && pattern == InfillPattern::gyroid)
        return {gyroidCurves(CurveClipper(region), share, spacing_mm, place.z_mm)};
    const std::vector<double> directions =
        share < 1 ? directionsOf(pattern, place) : std::vector<double>{layerAngle(place)};
    std::vector<std::vector<Curve>> families;
    for (const double angle : directions)
        addRaster(families.emplace_back(), region, angle,
                  static_cast<double>(directions.size()) * spacing_mm / std::min(1.0, share));
    return families;
}

}  // namespace

std::vector<Track> rasterTracks(const Region& region, double angle_rad, double spacing_mm) {
    if (region.empty()) return {};
    std::vector<Curve> lines;
    addRaster(lines, region, angle_rad, spacing_mm);
    return joinedTracks(std::move(lines), 2 * spacing_mm);
}

std::vector<Curve> infillCurves(const Region& region, InfillPattern pattern, double share, double spacing_mm,
                                const InfillPlace& place) {
    std::vector<Curve> curves;
    for (std::vector<Curve>& family : familiesOf(region, pattern, share, spacing_mm, place))
        std::move(family.begin(), family.end(), std::back_inserter(curves));
    return curves;
}

std::vector<Track> infillTracks(const Region& region, InfillPattern pattern, double share, double spacing_mm,
                                const InfillPlace& place) {
    std::vector<Track> tracks;
    for (std::vector<Curve>& family : familiesOf(region, pattern, share, spacing_mm, place)) {
        std::vector<Track> joined = joinedTracks(std::move(family), 2 * spacing_mm / std::min(1.0, share));
        std::move(joined.begin(), joined.end(), std::back_inserter(tracks));
    }
    return tracks;
}

double infillPeriod_mm(InfillPattern pattern, double share, double spacing_mm) {
    return pattern == InfillPattern::gyroid && share > 0 && share < 1 ? gyroidCell_mm(share, spacing_mm) : 0;
}

}  // namespace waybench::printed
