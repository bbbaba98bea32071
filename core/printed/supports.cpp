#include "core/printed/supports.h"

#include <algorithm>
#include <cmath>

namespace waybench::printed {
namespace {

constexpr double kSideGap_mm = 0.3;       // common practice, no source
constexpr double kSmallestColumn_mm = 1;  // narrower columns fall over

struct Level {
    std::size_t layer = 0;
    Region overhang;
    double bridged_mm2 = 0;
    Region longBridge;
};

Region opened(const Region& region, double radius) {
    return offsetBy(offsetBy(region, -radius), radius);
}

/// Strips by which each looked-at layer leans out too far over the one before.
std::vector<Level> levelsOf(const SectionStack& stack, double limit_deg, std::size_t stride, const Task& task) {
    constexpr double kRadians = 3.14159265358979323846 / 180;
    const double slope = std::tan(limit_deg * kRadians);
    std::vector<Level> levels;
    for (std::size_t k = 0; k < stack.layers.size(); k += stride) {
        task.check();
        Level level;
        level.layer = k;
        if (!levels.empty()) {
            const Layer &now = stack.layers[k], &before = stack.layers[levels.back().layer];
            if (now.section != before.section && now.section != 0) {
                const double reach = std::max(0.01, (now.bottom_mm - before.bottom_mm) * slope);
                const Region &upper = stack.sections[now.section], &lower = stack.sections[before.section];
                Region tooFar = differenceOf(upper, offsetBy(lower, reach));
                if (areaOf(tooFar) > 0.01) {
                    // closing the layer below spans its gaps from side to side, and reaches under no ledge
                    const Region spanned = offsetBy(offsetBy(lower, 0.5 * kFreeSpan_mm), -0.5 * kFreeSpan_mm);
                    const Region unspanned = differenceOf(tooFar, offsetBy(spanned, 0.02));
                    level.bridged_mm2 = std::max(0.0, areaOf(tooFar) - areaOf(unspanned));
                    tooFar = unspanned;
                }
                if (areaOf(tooFar) > 1) {
                    const Region closed = offsetBy(offsetBy(lower, 0.5 * kLongestSpan_mm), -0.5 * kLongestSpan_mm);
                    level.longBridge = intersectionOf(tooFar, closed);
                }
                if (areaOf(tooFar) > 0.01)
                    level.overhang = intersectionOf(differenceOf(upper, lower), offsetBy(tooFar, reach + 0.01));
            }
        }
        levels.push_back(std::move(level));
    }
    return levels;
}

}  // namespace

SupportStack supportStack(const SectionStack& stack, const Recipe& recipe, std::size_t stride, const Task& task) {
    SupportStack supports;
    supports.regionOfLayer.assign(stack.layers.size(), 0);
    supports.regions.emplace_back();
    supports.areas_mm2.push_back(0);
    std::vector<Level> levels = levelsOf(stack, recipe.overhangLimit_deg, stride, task);

    std::vector<Region> strips;
    for (const Level& level : levels) {
        supports.free_mm2 += level.bridged_mm2;
        if (!level.overhang.empty()) strips.push_back(level.overhang);
        const Region spanned = opened(level.longBridge, 0.25 * kFreeSpan_mm);
        supports.longBridge_mm2 += areaOf(spanned);
        noteLargest(supports.longBridgeAt, spanned, areaOf(spanned), level.layer);
    }
    if (strips.empty()) return supports;
    const Region shadow = offsetBy(unionOf(strips), 0.01);
    const Region wide = opened(shadow, 0.5 * kFreeLedge_mm);
    supports.overhang_mm2 = areaOf(wide);
    supports.free_mm2 += std::max(0.0, areaOf(shadow) - supports.overhang_mm2);
    if (wide.empty()) return supports;

    Region column;
    bool hasChanged = true;
    std::uint32_t lastSection = 0, current = 0;
    for (std::size_t j = levels.size(); j-- > 0;) {
        task.check();
        const Level& level = levels[j];
        const std::uint32_t section = stack.layers[level.layer].section;
        if (hasChanged || section != lastSection) {
            current = 0;
            const Region standing = column.empty()
                                        ? Region{}
                                        : opened(differenceOf(column, offsetBy(stack.sections[section], kSideGap_mm)),
                                                 0.5 * kSmallestColumn_mm);
            if (!standing.empty()) {
                current = static_cast<std::uint32_t>(supports.regions.size());
                supports.areas_mm2.push_back(areaOf(standing));
                supports.regions.push_back(standing);
            }
            if (!column.empty()) column = differenceOf(column, stack.sections[section]);
            hasChanged = false;
            lastSection = section;
        }
        const std::size_t end = j + 1 < levels.size() ? levels[j + 1].layer : stack.layers.size();
        for (std::size_t k = level.layer; k < end; ++k) {
            supports.columns_mm3 += supports.areas_mm2[current] * stack.layers[k].height_mm;
            if (recipe.supports) supports.regionOfLayer[k] = current;
        }
        if (!level.overhang.empty()) {
            const Region carried = intersectionOf(level.overhang, wide);
            if (!carried.empty()) {
                noteLargest(supports.overhangAt, carried, areaOf(carried), level.layer);
                column = column.empty() ? carried : unionOf(column, carried);
                hasChanged = true;
            }
        }
    }
    return supports;
}

}  // namespace waybench::printed
