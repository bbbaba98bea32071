#pragma once
#include <array>
#include <functional>
#include <vector>

#include "core/bench/printer.h"
#include "core/material/printing_material.h"
#include "core/printed/infill_paths.h"
#include "core/printed/layers.h"

namespace waybench::printed {

/// A bridge is solid fill laid over air, over supports or over infill that is not solid.
enum class PathKind { outer_contour, inner_contour, solid_fill, infill, support, bridge, brim };
inline constexpr std::size_t kPathKinds = 7;
const char* nameOf(PathKind kind);

/// How fast the printer may go on each kind of path in one layer: its speed for the kind, capped by what the hot end
/// can melt of this material into a bead of this cross-section.
struct Pace {
    std::array<double, kPathKinds> speed_mm_s{}, acceleration_mm_s2{};
    std::array<bool, kPathKinds> isFlowLimited{};
    double travelSpeed_mm_s = 0, travelAcceleration_mm_s2 = 0;
    double cornerSpeed_mm_s = 0;  ///< at a right angle
    double retractAndPrime_s = 0;
    double minimumLayerTime_s = 0, layerChange_s = 0;
};
/// @param beadArea_mm2 cross-section actually laid. Values of the figures are taken; their bands are the route's.
Pace paceOf(const Printer& printer, const PrintingMaterial& material, double beadArea_mm2, bool isFirstLayer);

/// Tracks of one kind in the order of printing.
struct TrackGroup {
    PathKind kind = PathKind::infill;
    std::vector<Track> tracks;
};

/// Seconds, lengths and counts of one layer, or weighted sums of them.
struct LayerTime {
    std::array<double, kPathKinds> path_s{}, path_mm{};
    double travel_s = 0, travel_mm = 0;
    double retract_s = 0, retracts = 0;
    double wait_s = 0;  ///< to reach the minimum layer time; the change of layer does not count towards it
    double change_s = 0;

    double busy_s() const;   ///< paths, travels and retracts
    double total_s() const;  ///< busy, waiting and changing layer
    void add(const LayerTime& other, double weight);
};

/// Travels longer than this are made with the filament drawn back (common practice, no source).
inline constexpr double kRetractBeyond_mm = 2;
/// Called for every track in the order of printing, with the points as they are run: closed ones end where they began.
using SeeRun = std::function<void(PathKind, const std::vector<Vec2>&)>;

/// Times the tracks group by group, in each group nearest start first; travels run from rest to rest, those longer than
/// 2 mm with a retract and prime. Every track starts and ends at rest. (printed-route.md 3.2, 3.3)
LayerTime timeOf(const std::vector<TrackGroup>& groups, const Pace& pace, const SeeRun& seeRun = {});
/// Adds waiting up to the minimum layer time and the layer change.
void closeLayer(LayerTime& time, const Pace& pace);

/// Where layer k lies, for its infill.
InfillPlace placeOf(const SectionStack& stack, std::size_t k);

/// Groups of one layer: brim, supports, contours from inside out, bridges, solid fill, infill.
std::vector<TrackGroup> tracksOf(const LayerContent& content, const Region& support, const Recipe& recipe,
                                 double spacing_mm, const InfillPlace& place);

}  // namespace waybench::printed
