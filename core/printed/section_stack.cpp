#include "core/printed/section_stack.h"

#include <algorithm>
#include <cmath>
#include <map>

#include "core/fault/input_fault.h"
#include "core/geometry/section.h"

namespace waybench::printed {
namespace {

constexpr double kQuantum_mm = 1e-4;
constexpr double kStraight_mm = 1.5e-4;  // sections are kept to 1e-4 mm
constexpr double kMostLayers = 20000;

bool isSmaller(const Vec2& a, const Vec2& b) {
    return a.x() != b.x() ? a.x() < b.x() : a.y() < b.y();
}

bool isSmaller(const Ring& a, const Ring& b) {
    return std::lexicographical_compare(a.begin(), a.end(), b.begin(), b.end(),
                                        [](const Vec2& p, const Vec2& q) { return isSmaller(p, q); });
}

Ring withoutStraightPoints(const Ring& ring) {
    Ring kept = ring;
    bool changed = true;
    while (changed && kept.size() > 3) {
        changed = false;
        Ring next;
        const std::size_t n = kept.size();
        for (std::size_t i = 0; i < n; ++i) {
            const Vec2& before = next.empty() ? kept[n - 1] : next.back();
            const Vec2 chord = kept[(i + 1) % n] - before, to = kept[i] - before;
            const double length = chord.norm();
            const bool isStraight = length > 0 && chord.dot(to) >= 0 &&
                                    std::abs(chord.x() * to.y() - chord.y() * to.x()) <= kStraight_mm * length;
            if (isStraight || to.norm() <= kStraight_mm)
                changed = true;
            else
                next.push_back(kept[i]);
        }
        if (next.size() < 3) break;
        kept = std::move(next);
    }
    return kept;
}

std::vector<Layer> layersOf(double height, const Recipe& recipe) {
    std::vector<Layer> layers;
    const double first = std::min(recipe.firstLayerThickness_mm, height);
    const double rest = height - first;
    double count = std::round(rest / recipe.layerThickness_mm);
    if (count < 1 && rest > 0.25 * recipe.layerThickness_mm) count = 1;
    if (count > kMostLayers)
        throw InputFault("too_many_layers", "", "recipe, layer thickness",
                         "the part would need " + std::to_string(static_cast<long long>(count)) + " layers",
                         "choose higher layers, or check the unit of the part's file");
    if (count < 1) return {{0, height, 0}};
    layers.push_back({0, first, 0});
    const double each = rest / count;
    for (double k = 0; k < count; ++k)
        layers.push_back({first + k * each, each, 0});
    return layers;
}

}  // namespace

Region canonical(const Region& region) {
    Region result;
    result.reserve(region.size());
    for (const Ring& ring : region) {
        Ring kept = withoutStraightPoints(ring);
        if (kept.size() < 3) continue;
        // the shift keeps round dimensions, and their halves, away from the rounding edge
        for (Vec2& p : kept)
            for (int axis = 0; axis < 2; ++axis)
                p[axis] = std::floor(p[axis] / kQuantum_mm + 0.318) * kQuantum_mm;
        const auto smallest =
            std::min_element(kept.begin(), kept.end(), [](const Vec2& a, const Vec2& b) { return isSmaller(a, b); });
        std::rotate(kept.begin(), smallest, kept.end());
        result.push_back(std::move(kept));
    }
    std::sort(result.begin(), result.end(), [](const Ring& a, const Ring& b) { return isSmaller(a, b); });
    return result;
}

void noteLargest(std::optional<LayerPlace>& noted, const Region& region, double area_mm2, std::size_t k) {
    if (!(area_mm2 > (noted ? noted->area_mm2 : 0)) || region.empty()) return;
    const double across = std::sqrt(area_mm2 / static_cast<double>(region.size()));
    constexpr double kSlant_rad = 0.3;  // along no usual edge
    double longest = 0;
    Vec2 at = region.front().front();
    for (const Segment2& line : hatch(region, kSlant_rad, std::max(0.02, across / 9), 0.013))
        if (const double length = (line.to - line.from).norm(); length > longest) {
            longest = length;
            at = 0.5 * (line.from + line.to);
        }
    noted = LayerPlace{at, k, area_mm2};
}

SectionStack sectionStack(const Mesh& mesh, const Recipe& recipe, const Task& task) {
    const Mat3 rotation = standingRotation(recipe);
    const Box3 box = boundsOf(transformed(mesh, rotation, Vec3::Zero()));
    const Mesh standing = transformed(mesh, rotation, -box.low);
    SectionStack stack;
    stack.size_mm = box.size();
    stack.toPart = rotation.transpose();
    stack.corner_mm = box.low;
    stack.layers = layersOf(stack.size_mm.z(), recipe);
    stack.sections.emplace_back();
    stack.areas_mm2.push_back(0);

    const auto order = [](const Region& a, const Region& b) {
        return std::lexicographical_compare(a.begin(), a.end(), b.begin(), b.end(),
                                            [](const Ring& p, const Ring& q) { return isSmaller(p, q); });
    };
    std::map<Region, std::uint32_t, decltype(order)> known(order);
    known.emplace(Region{}, 0);
    task.check();
    const MeshSections sections(standing, task);
    constexpr std::size_t kBatch = 256;
    for (std::size_t from = 0; from < stack.layers.size(); from += kBatch) {
        task.check();
        const std::size_t to = std::min(from + kBatch, stack.layers.size());
        std::vector<double> heights;
        for (std::size_t k = from; k < to; ++k)
            heights.push_back(stack.layers[k].bottom_mm + 0.5 * stack.layers[k].height_mm);
        const std::vector<Region> cuts = sections.at(heights, task);
        for (std::size_t k = from; k < to; ++k) {
            task.check();
            Region section = canonical(cuts[k - from]);
            const auto [place, isNew] =
                known.emplace(std::move(section), static_cast<std::uint32_t>(stack.sections.size()));
            if (isNew) {
                stack.sections.push_back(place->first);
                stack.areas_mm2.push_back(areaOf(place->first));
            }
            stack.layers[k].section = place->second;
        }
    }
    return stack;
}

}  // namespace waybench::printed
