#pragma once
#include <cstdint>
#include <optional>
#include <vector>

#include "core/geometry/mesh.h"
#include "core/geometry/polygon.h"
#include "core/printed/recipe.h"
#include "core/progress/task.h"

namespace waybench::printed {

/// One layer of the standing part: where it lies and which section it fills.
struct Layer {
    double bottom_mm = 0, height_mm = 0;
    std::uint32_t section = 0;  ///< index into SectionStack::sections; layers of equal section share it
};

/// The part turned to its recipe's upward direction, set on the bed with its lowest corner at the origin, and cut at
/// the middle of every layer. Section 0 is empty (above and below the part).
///
/// The heights of all layers but the first are evened out so that they add up to the height of the part: no layer
/// differs from the recipe by more than half a layer over the whole print.
struct SectionStack {
    std::vector<Layer> layers;
    std::vector<Region> sections;
    std::vector<double> areas_mm2;   ///< per section
    Vec3 size_mm = Vec3::Zero();     ///< of the standing part
    Mat3 toPart = Mat3::Identity();  ///< from the standing part's directions to the part's own
    Vec3 corner_mm = Vec3::Zero();   ///< the standing part's lowest corner, before it was moved to the origin

    /// Where a point of layer k lies in the part's own coordinates.
    Vec3 inPart(const Vec2& at, std::size_t k) const {
        return toPart * (corner_mm + Vec3(at.x(), at.y(), layers[k].bottom_mm));
    }

    /// Section id of layer k; 0 for any k outside the print.
    std::uint32_t sectionOf(std::ptrdiff_t k) const {
        return k < 0 || k >= static_cast<std::ptrdiff_t>(layers.size()) ? 0
                                                                        : layers[static_cast<std::size_t>(k)].section;
    }
};

/// @throws InputFault "too_many_layers" above 20 000 layers
SectionStack sectionStack(const Mesh& mesh, const Recipe& recipe, const Task& task);

/// Where something of a layer is, to be told to the user.
struct LayerPlace {
    Vec2 at = Vec2::Zero();
    std::size_t layer = 0;
    double area_mm2 = 0;
};
/// Keeps the larger of what was noted and this: a point inside the region, of layer k. Nothing is noted of no area.
void noteLargest(std::optional<LayerPlace>& noted, const Region& region, double area_mm2, std::size_t k);

/// Points on straight runs dropped (nearer than 1.5e-4 mm to the chord), rings turned to start at their smallest corner
/// and sorted: two sections of one prism come out equal to the last digit kept (1e-4 mm).
Region canonical(const Region& region);

}  // namespace waybench::printed
