#include "core/printed/layers.h"

#include <algorithm>
#include <cmath>
#include <set>

#include "core/fault/input_fault.h"
#include "core/geometry/curve_clipping.h"
#include "core/printed/bead.h"
#include "core/quantity/quantity_text.h"

namespace waybench::printed {
namespace {

/// What of the region inside the walls of layer k the layers of its skins' reach cover, above and below. Sections that
/// cover all of it, as most do, need no clipping.
Region infillOf(const SectionStack& stack, std::ptrdiff_t k, const Recipe& recipe, const Region& inside) {
    std::set<std::uint32_t> ids;
    for (std::ptrdiff_t j = k - recipe.skinsBelow; j <= k + recipe.skinsAbove; ++j)
        ids.insert(stack.sectionOf(j));
    ids.erase(stack.sectionOf(k));
    if (ids.empty() || inside.empty()) return inside;
    if (ids.contains(0)) return {};  // bed or air within reach
    const CurveClipper edges(inside);
    Region covered = inside;
    for (const std::uint32_t id : ids)
        if (!covered.empty() && !edges.liesWithin(stack.sections[id]))
            covered = intersectionOf(covered, stack.sections[id]);
    return covered;
}

Region insideOf(const SectionStack& stack, std::ptrdiff_t k, const Recipe& recipe, double spacing_mm) {
    return offsetBy(stack.sections[stack.sectionOf(k)], -recipe.walls * spacing_mm);
}

/// Parts the skin of layer k from its bridges.
void partBridges(LayerContent& content, const SectionStack& stack, std::ptrdiff_t k, const Recipe& recipe,
                 double spacing_mm, const LayerContent* below) {
    if (k == 0 || content.skin.empty()) return;
    Region open = differenceOf(content.skin, stack.sections[stack.sectionOf(k - 1)]);
    if (recipe.infillShare < 1) {
        const Region found =
            below ? Region{} : infillOf(stack, k - 1, recipe, insideOf(stack, k - 1, recipe, spacing_mm));
        const Region& sparse = below ? below->infill : found;
        if (!sparse.empty()) open = unionOf(open, intersectionOf(content.skin, sparse));
    }
    if (!open.empty()) open = offsetBy(offsetBy(open, -0.5 * spacing_mm), 0.5 * spacing_mm);
    if (open.empty()) return;
    content.bridge = intersectionOf(content.skin, open);
    content.bridge_mm2 = areaOf(content.bridge);
    content.skin = differenceOf(content.skin, content.bridge);
}

/// Rings around the outer outlines of the first layer.
void addBrim(LayerContent& content, const Region& section, const Recipe& recipe, double spacing_mm) {
    Region filled;
    for (const Ring& ring : section)
        if (signedArea(ring) > 0) filled.push_back(ring);
    const int rings = static_cast<int>(std::lround(recipe.brimReach_mm / spacing_mm));
    if (rings < 1) return;
    for (int i = 0; i < rings; ++i)
        content.brim.push_back(offsetBy(filled, (i + 0.5) * spacing_mm, Corner::round));
    content.brim_mm2 =
        std::max(0.0, areaOf(offsetBy(filled, rings * spacing_mm, Corner::round)) - areaOf(unionOf({filled})));
}

}  // namespace

double beadSpacing_mm(const Recipe& recipe) {
    if (recipe.beadWidth_mm < recipe.layerThickness_mm || recipe.beadWidth_mm < recipe.firstLayerThickness_mm)
        throw InputFault("bead_narrower_than_layer", "", "recipe, bead width",
                         "a bead " + plainNumber(recipe.beadWidth_mm) + " mm wide cannot be laid in layers of " +
                             plainNumber(std::max(recipe.layerThickness_mm, recipe.firstLayerThickness_mm)) + " mm",
                         "choose a wider bead or lower layers");
    return voidFreeSpacing_mm({recipe.beadWidth_mm, recipe.layerThickness_mm});
}

std::vector<std::uint32_t> sectionsSeenBy(const SectionStack& stack, std::size_t k, const Recipe& recipe) {
    std::vector<std::uint32_t> ids;
    const std::ptrdiff_t at = static_cast<std::ptrdiff_t>(k);
    for (const std::ptrdiff_t layer : {at, at - 1}) {  // the one below carries the skins, solid or not
        const std::uint32_t own = stack.sectionOf(layer);
        ids.push_back(own);
        const auto addSide = [&](std::ptrdiff_t from, std::ptrdiff_t to) {
            std::set<std::uint32_t> side;
            for (std::ptrdiff_t j = from; j <= to; ++j)
                side.insert(stack.sectionOf(j));
            side.erase(own);
            ids.push_back(static_cast<std::uint32_t>(side.size()));
            ids.insert(ids.end(), side.begin(), side.end());
        };
        addSide(layer + 1, layer + recipe.skinsAbove);
        addSide(layer - recipe.skinsBelow, layer - 1);
    }
    return ids;
}

void LayerContent::dropRegions() {
    walls.clear();
    brim.clear();
    skin.clear();
    bridge.clear();
    infill.clear();
    missing.clear();
}

LayerContent layerContent(const SectionStack& stack, std::size_t k, const Recipe& recipe, double spacing_mm,
                          const LayerContent* below) {
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
    const Region inside = insideOf(stack, at, recipe, spacing_mm);
    const Region printable =
        content.walls.empty() ? Region{} : intersectionOf(offsetBy(content.walls.front(), 0.5 * spacing_mm), section);
    content.missing_mm2 = std::max(0.0, content.section_mm2 - areaOf(printable));
    if (content.missing_mm2 > 0.002 * content.section_mm2) content.missing = differenceOf(section, printable);
    const double inside_mm2 = areaOf(inside);
    content.wall_mm2 = std::max(0.0, content.section_mm2 - content.missing_mm2 - inside_mm2);
    content.gapFill_mm = std::max(0.0, content.wall_mm2 / spacing_mm - laid_mm);

    content.infill = infillOf(stack, at, recipe, inside);
    content.infill_mm2 = std::min(inside_mm2, areaOf(content.infill));
    content.skin_mm2 = inside_mm2 - content.infill_mm2;
    if (content.skin_mm2 > 0) content.skin = differenceOf(inside, content.infill);
    partBridges(content, stack, at, recipe, spacing_mm, below);
    if (k == 0) addBrim(content, section, recipe, spacing_mm);
    return content;
}

}  // namespace waybench::printed
