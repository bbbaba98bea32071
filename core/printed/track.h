#pragma once
#include <vector>

#include "core/geometry/curve_clipping.h"
#include "core/geometry/polygon.h"

namespace waybench::printed {

/// A line the nozzle follows without stopping to extrude.
struct Track {
    std::vector<Vec2> points;
    bool isClosed = false;
};

double lengthOf(const Track& track);

/// Every ring of the region as a closed track.
std::vector<Track> ringTracks(const Region& lines);

/// Curves joined to tracks: after each one the nearest end among the next few in the order given, linked by a straight
/// bead when it lies within reach, else a new track.
std::vector<Track> joinedTracks(std::vector<Curve> curves, double reach_mm);

}  // namespace waybench::printed
