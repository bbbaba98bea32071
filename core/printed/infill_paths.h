#pragma once
#include <vector>

#include "core/geometry/polygon.h"
#include "core/material/printing_material.h"

namespace waybench::printed {

/// A line the nozzle follows without stopping to extrude.
struct Track {
    std::vector<Vec2> points;
    bool isClosed = false;
};

/// Every ring of the region as a closed track.
std::vector<Track> ringTracks(const Region& lines);

/// Straight lines over a region, joined to back-and-forth tracks wherever the next line starts within two spacings.
std::vector<Track> rasterTracks(const Region& region, double angle_rad, double spacing_mm);

/// Infill of one layer. A share of material s with beads at spacing d needs s/d mm of line per mm2 of region:
///  lines      one direction a layer, +45 and -45 degrees in turn, spacing d/s
///  grid       both directions in every layer, spacing 2 d/s each
///  triangles  three directions in every layer, spacing 3 d/s each
///  honeycomb  one row direction a layer; each line is a zigzag of cell edges l = 1.155 d/s, 4/3 as long as its advance
///  gyroid     one direction a layer; each line is a wave of length 3.09 d/s with 45 degree flanks, 1.2160 as long as
///             its advance
/// The last two are lines of the same total length and like bends, not the pattern's own geometry: they carry time and
/// material; stiffness comes from the pattern's law. Geometry of the cells: printed-route.md 2.1.
/// @param share 0..1; nothing is laid at 0, a solid raster at 1
std::vector<Track> infillTracks(const Region& region, InfillPattern pattern, double share, double spacing_mm,
                                bool isOddLayer);

double lengthOf(const Track& track);

}  // namespace waybench::printed
