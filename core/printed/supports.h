#pragma once
#include <cstdint>
#include <vector>

#include "core/printed/section_stack.h"

namespace waybench::printed {

/// Share of a support column that is material (common practice, no source).
inline constexpr double kSupportShare = 0.15;
/// A gap this wide between two sides is bridged free, and a ledge this wide carries itself (common practice, no
/// source).
inline constexpr double kFreeSpan_mm = 5.0;
inline constexpr double kFreeLedge_mm = 2.0;
/// A wider gap is taken for an overhang whose far side does not carry it (our choice).
inline constexpr double kLongestSpan_mm = 60.0;

/// Support columns below overhangs, layer by layer. Region 0 is empty.
struct SupportStack {
    std::vector<std::uint32_t> regionOfLayer;
    std::vector<Region> regions;
    std::vector<double> areas_mm2;  ///< per region
    double overhang_mm2 = 0;        ///< shadow of all surface that leans further than the limit and is not free
    double free_mm2 = 0;            ///< leaning surface that prints free: short bridges and narrow ledges
    double longBridge_mm2 = 0;      ///< overhanging surface that would have to span from side to side
    std::optional<LayerPlace> overhangAt, longBridgeAt;  ///< the largest of each
    double columns_mm3 = 0;  ///< space the columns take, whether or not supports are switched on
};

/// A layer overhangs where it reaches further over the one below than height x tan(limit). Columns stand under the
/// overhangs down to the bed or to the part, whichever comes first, and keep a small gap to its sides.
/// @param stride looks at every stride-th layer only (draft); 1 = all
SupportStack supportStack(const SectionStack& stack, const Recipe& recipe, std::size_t stride, const Task& task);

}  // namespace waybench::printed
