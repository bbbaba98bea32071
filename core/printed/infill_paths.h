#pragma once
#include <vector>

#include "core/geometry/polygon.h"
#include "core/material/printing_material.h"
#include "core/printed/track.h"

namespace waybench::printed {

/// Which layer an infill is laid in.
struct InfillPlace {
    bool isOddLayer = false;
    double z_mm = 0;  ///< middle of the layer above the bed
};

/// Straight lines over a region, joined to back-and-forth tracks wherever the next line starts within two spacings.
std::vector<Track> rasterTracks(const Region& region, double angle_rad, double spacing_mm);

/// Curves of the infill of one layer, cut to the region, before they are joined. A share of material s with beads at
/// spacing d needs s/d mm of line per mm2 of region:
///  lines      one direction a layer, +45 and -45 degrees in turn, spacing d/s
///  grid       both directions in every layer, spacing 2 d/s each
///  triangles  three directions in every layer, spacing 3 d/s each
///  honeycomb  honeycomb_infill.h, the same in every layer
///  gyroid     gyroid_infill.h, another cut at every height; s/d holds over the height of a cell
/// @param share 0..1; nothing is laid at 0, a solid raster at 1
std::vector<Curve> infillCurves(const Region& region, InfillPattern pattern, double share, double spacing_mm,
                                const InfillPlace& place);

/// The same curves joined to tracks, by straight links along the border no longer than 2 d/s.
std::vector<Track> infillTracks(const Region& region, InfillPattern pattern, double share, double spacing_mm,
                                const InfillPlace& place);

/// Height after which the infill's layers repeat, mm; 0 for a pattern that is the same at every height.
double infillPeriod_mm(InfillPattern pattern, double share, double spacing_mm);

}  // namespace waybench::printed
