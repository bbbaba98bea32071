#pragma once
#include <QMetaType>
#include <memory>

#include "app/twinview/mesh_painter.h"
#include "core/comparison/comparison.h"

namespace waybench {

/// A solid together with what drawing it needs; made off the window thread.
struct DrawnSolid {
    std::shared_ptr<const Solid> solid;
    PaintableSolid paintable;
    explicit DrawnSolid(std::shared_ptr<const Solid> s) : solid(std::move(s)), paintable(*solid) {}
};

/// The two shapes as they stand before anything is computed on them.
struct PartSolids {
    std::shared_ptr<const DrawnSolid> printed, machined;
};

/// A finished comparison with its drawable shapes.
struct Answer {
    std::shared_ptr<const Comparison> comparison;
    PartSolids solids;
    explicit operator bool() const { return comparison != nullptr; }
};

}  // namespace waybench
Q_DECLARE_METATYPE(waybench::PartSolids)
Q_DECLARE_METATYPE(waybench::Answer)
