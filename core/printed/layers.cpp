#include "core/printed/layers.h"

#include <algorithm>
#include <set>

#include "core/fault/input_fault.h"
#include "core/printed/bead.h"
#include "core/quantity/quantity_text.h"

namespace waybench::printed {
namespace {

/// Material present in every one of the sections, or everything when there are none to look at.
struct Cover {
    bool isEverything = true;
    Region region;
};

Cover coverOf(const SectionStack& stack, std::uint32_t own, std::ptrdiff_t from, std::ptrdiff_t to) {
    std::set<std::uint32_t> ids;
    for (std::ptrdiff_t k = from; k <= to; ++k)
        ids.insert(stack.sectionOf(k));
    ids.erase(own);
    Cover cover;
    for (const std::uint32_t id : ids) {
        const Region& section = stack.sections[id];
        cover.region = cover.isEverything ? section : intersectionOf(cover.region, section);
        cover.isEverything = false;
        if (cover.region.empty()) break;
    }
    return cover;
}

}  // namespace

double beadSpacing_mm(const Recipe& recipe) {
    if (recipe.beadWidth_mm < recipe.layerHeight_mm || recipe.beadWidth_mm < recipe.firstLayerHeight_mm)
        throw InputFault("bead_narrower_than_layer", "", "recipe, bead width",
                         "a bead " + plainNumber(recipe.beadWidth_mm) + " mm wide cannot be laid in layers of " +
                             plainNumber(std::max(recipe.layerHeight_mm, recipe.firstLayerHeight_mm)) + " mm",
                         "choose a wider bead or lower layers");
    return voidFreeSpacing_mm({recipe.beadWidth_mm, recipe.layerHeight_mm});
}

std::vector<std::uint32_t> sectionsSeenBy(const SectionStack& stack, std::size_t k, const Recipe& recipe) {
    std::vector<std::uint32_t> ids;
    const std::ptrdiff_t at = static_cast<std::ptrdiff_t>(k);
    const std::uint32_t own = stack.sectionOf(at);
    ids.push_back(own);
    const auto addSide = [&](std::ptrdiff_t from, std::ptrdiff_t to) {
        std::set<std::uint32_t> side;
        for (std::ptrdiff_t j = from; j <= to; ++j)
            side.insert(stack.sectionOf(j));
        side.erase(own);
        ids.push_back(static_cast<std::uint32_t>(side.size()));
        ids.insert(ids.end(), side.begin(), side.end());
    };
    addSide(at + 1, at + recipe.skinsAbove);
    addSide(at - recipe.skinsBelow, at - 1);
    return ids;
}

LayerContent layerContent(const SectionStack& stack, std::size_t k, const Recipe& recipe, double spacing_mm) {
    LayerContent content;
    const std::ptrdiff_t at = static_cast<std::ptrdiff_t>(k);
    const std::uint32_t own = stack.sectionOf(at);
    const Region& section = stack.sections[own];
    content.section_mm2 = stack.areas_mm2[own];
    if (section.empty()) return content;

    double laid_mm = 0;
    for (int i = 0; i < recipe.walls; ++i) {
        Region line = offsetBy(section, -(i + 0.5) * spacing_mm);
        if (line.empty()) break;
        laid_mm += perimeterOf(line);
        content.walls.push_back(std::move(line));
    }
    Region inside = offsetBy(section, -recipe.walls * spacing_mm);
    const double printable = content.walls.empty()
                                 ? 0.0
                                 : areaOf(intersectionOf(offsetBy(content.walls.front(), 0.5 * spacing_mm), section));
    content.missing_mm2 = std::max(0.0, content.section_mm2 - printable);
    const double inside_mm2 = areaOf(inside);
    content.wall_mm2 = std::max(0.0, content.section_mm2 - content.missing_mm2 - inside_mm2);
    content.gapFill_mm = std::max(0.0, content.wall_mm2 / spacing_mm - laid_mm);

    const Cover above = coverOf(stack, own, at + 1, at + recipe.skinsAbove);
    const Cover below = coverOf(stack, own, at - recipe.skinsBelow, at - 1);
    if (above.isEverything && below.isEverything) {
        content.infill = std::move(inside);
    } else {
        const Region covered = above.isEverything   ? below.region
                               : below.isEverything ? above.region
                                                    : intersectionOf(above.region, below.region);
        content.infill = intersectionOf(inside, covered);
        content.skin = differenceOf(inside, covered);
    }
    content.infill_mm2 = std::min(inside_mm2, areaOf(content.infill));
    content.skin_mm2 = inside_mm2 - content.infill_mm2;
    return content;
}

}  // namespace waybench::printed
