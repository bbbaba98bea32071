#pragma once
#include <string>

#include "core/bench/shop.h"
#include "core/machined/plan.h"

namespace waybench::machined {

/// The blank a part is cut from.
struct StockChoice {
    const StockPiece* piece = nullptr;  ///< nullptr when assumed
    Vec3 size_mm = Vec3::Zero();        ///< in the frame of the first set-up; z along the tool
    double excess_mm = 0;               ///< thicker than the part, faced off
    bool isAssumed = false;             ///< nothing on the shelf fits: a block of the right size is bought
    std::string text;                   ///< "plate 300 x 200 x 10 mm, 90 x 50 mm sawn from it"
    std::string missing;                ///< what the shelf lacks, when assumed
    double volume_mm3() const { return size_mm.prod(); }
};

/// Lightest blank that holds the part with the margin around it. Plates lie as bought, so a part of the plate's own
/// thickness keeps both faces; a thicker plate is faced. Blocks may stand on any side, then with 1 mm to face off.
/// Off-cuts are used whole, plates and blocks lose a sawn rectangle; the saw's kerf is left out of account.
/// @param part_mm size of the part in the frame of the first set-up
StockChoice chooseStock(const Shop& shop, const Plan& plan, const Vec3& part_mm);

}  // namespace waybench::machined
