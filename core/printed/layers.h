#pragma once
#include <cstdint>
#include <vector>

#include "core/geometry/polygon.h"
#include "core/printed/recipe.h"
#include "core/printed/section_stack.h"

namespace waybench::printed {

/// What one layer of the part holds, from outside to inside: walls, then skin where the layers above or below leave it
/// open, then infill.
///
/// Neighbouring beads lie at the void-free spacing of the recipe's bead (bead.h), so a solid region takes exactly its
/// area times the layer height of material. Where walls from two sides meet, their beads are laid narrower; where a gap
/// narrower than a bead is left between them it is filled; where the part itself is narrower than one bead nothing can
/// be laid, and that area is `missing`.
struct LayerContent {
    std::vector<Region> walls;                                           ///< centre lines, outermost first
    std::vector<Region> brim;                                            ///< centre lines around it, innermost first
    Region skin, bridge, infill;                                         ///< regions inside the walls, apart
    double section_mm2 = 0;                                              ///< area of the sliced part
    double wall_mm2 = 0, skin_mm2 = 0, infill_mm2 = 0, missing_mm2 = 0;  ///< these four add up to section_mm2
    Region missing;         ///< what of the section is narrower than a bead, where that is worth telling
    double bridge_mm2 = 0;  ///< of the skin's area
    double brim_mm2 = 0;    ///< around the section
    double gapFill_mm = 0;  ///< length of thin beads that close gaps between walls

    void dropRegions();  ///< keeps areas and lengths only
};

/// Content of layer k. Skin: the region inside the walls minus the intersection of the next skinsAbove sections, and
/// the same below. Of it, bridges are what no solid layer carries: over air, or over infill that is not solid, where
/// that is wider than a bead. @param spacing_mm distance of neighbouring beads
/// @param below content of layer k - 1 with its regions, where it is at hand: the same answer, sooner
LayerContent layerContent(const SectionStack& stack, std::size_t k, const Recipe& recipe, double spacing_mm,
                          const LayerContent* below = nullptr);

/// Sections a layer's content depends on, for reuse between layers that agree in all of them.
std::vector<std::uint32_t> sectionsSeenBy(const SectionStack& stack, std::size_t k, const Recipe& recipe);

/// Bead spacing of a recipe, mm. @throws InputFault "bead_narrower_than_layer"
double beadSpacing_mm(const Recipe& recipe);

}  // namespace waybench::printed
