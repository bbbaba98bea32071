#pragma once
#include <cstdint>
#include <vector>

#include "core/geometry/mesh.h"
#include "core/printed/layer_schedule.h"
#include "core/printed/section_stack.h"
#include "core/printed/supports.h"

namespace waybench::printed {

/// One stretch of the nozzle's way through a layer: a bead laid, or a travel to the start of the next one.
struct Passage {
    bool isTravel = false;
    PathKind kind = PathKind::infill;  ///< of a bead; of the bead that follows a travel
    bool isDrawnBack = false;          ///< travels only: with a retract before and a prime after
    std::vector<Vec2> points;          ///< as run, at least two; a closed bead ends where it began
};

/// One layer as the nozzle lays it, in the coordinates of the standing part: x and y from its lowest corner, mm.
struct LaidLayer {
    std::size_t index = 0;
    Layer place;
    double beadWidth_mm = 0;        ///< of a bead of this layer's height that fills the recipe's spacing
    std::vector<Passage> passages;  ///< in the order of printing
    LayerContent content;           ///< what was to be filled: section, walls, skin, bridges, infill
    double support_mm2 = 0;         ///< area of the support columns in this layer
    LayerTime time;
};

/// The layers of one part, ready to be looked at one at a time. Sections and supports of the whole part are worked out
/// once, on making; any single layer is then laid out by itself, by the same functions that the print job adds up.
///
/// Safe to read from several threads.
class LayerView {
public:
    /// @throws InputFault "bead_narrower_than_layer", "too_many_layers"; Cancelled
    LayerView(const Mesh& mesh, const Recipe& recipe, const Printer& printer, const PrintingMaterial& material,
              const Task& task);

    std::size_t layerCount() const { return stack_.layers.size(); }
    const SectionStack& sections() const { return stack_; }
    const Vec3& size_mm() const { return stack_.size_mm; }
    const Layer& placeOf(std::size_t k) const { return stack_.layers.at(k); }
    /// Outline of the part in a layer, known without laying it out.
    const Region& sectionOf(std::size_t k) const { return stack_.sections[stack_.layers.at(k).section]; }
    const Region& supportOf(std::size_t k) const { return supports_.regions[supports_.regionOfLayer.at(k)]; }
    /// Layer k from 0 on the bed. @throws std::out_of_range beyond the top; Cancelled
    LaidLayer laid(std::size_t k, const Task& task = {}) const;

private:
    Recipe recipe_;
    SectionStack stack_;
    SupportStack supports_;
    double spacing_mm_;
    Pace first_, other_;
};

}  // namespace waybench::printed
