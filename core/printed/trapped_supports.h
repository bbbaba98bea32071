#pragma once
#include <optional>

#include "core/printed/supports.h"

namespace waybench::printed {

/// Support columns in cavities that open nowhere: nobody can take them out.
struct TrappedSupports {
    double columns_mm3 = 0;
    std::optional<LayerPlace> at;  ///< in the layer where most of it stands
};

/// Follows the closed holes of the sections from layer to layer: a cavity is open where a hole reaches past the outline
/// of the next section, and at the bed and the top. Whether an open channel is wide and straight enough to strip its
/// supports is not judged.
TrappedSupports trappedSupports(const SectionStack& stack, const SupportStack& supports, const Task& task);

}  // namespace waybench::printed
