#pragma once
#include "core/printed/layer_schedule.h"
#include "core/printed/trapped_supports.h"

namespace waybench::printed {

/// Everything the layers of one part add up to.
struct PrintJob {
    Vec3 size_mm = Vec3::Zero();
    std::size_t layers = 0;
    std::size_t layersComputed =
        0;                   ///< laid out one by one; the rest are equal to one of these, or (draft) between two
    double section_mm3 = 0;  ///< areas of the sections times layer height
    double wall_mm3 = 0, skin_mm3 = 0, infill_mm3 = 0, infillSpace_mm3 = 0, support_mm3 = 0, missing_mm3 = 0,
           brim_mm3 = 0;
    double bridge_mm2 = 0;  ///< skin laid over air, supports or infill that is not solid; all layers
    double gapFill_mm = 0;
    std::vector<LayerTime> layerTimes;  ///< of every layer, lowest first; a draft's between two are interpolated
    LayerTime firstLayer;               ///< kept apart: slower, and its own step
    LayerTime others;                   ///< sum of the rest of layerTimes
    double footprint_mm2 = 0;           ///< area on the bed, part only
    SupportStack supports;
    TrappedSupports trapped;
    std::optional<Vec3> overhangAt_mm, longBridgeAt_mm, missingAt_mm, trappedAt_mm;  ///< in the part's coordinates
    std::array<bool, kPathKinds> isFlowLimited{};

    double part_mm3() const { return wall_mm3 + skin_mm3 + infill_mm3; }
    double layers_s() const { return firstLayer.total_s() + others.total_s(); }
};

/// Lays out every layer (standard), reusing those whose sections agree; draft lays out about 25 and integrates between.
/// @throws InputFault "bead_narrower_than_layer", "too_many_layers", "nothing_to_print"; Cancelled
PrintJob printJob(const Mesh& mesh, const Recipe& recipe, const Printer& printer, const PrintingMaterial& material,
                  bool isDraft, const Task& task);
/// The same of a part whose sections are there already. Precondition: they are of the same recipe.
PrintJob printJob(const SectionStack& sections, const Recipe& recipe, const Printer& printer,
                  const PrintingMaterial& material, bool isDraft, const Task& task);

}  // namespace waybench::printed
