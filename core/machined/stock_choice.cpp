#include "core/machined/stock_choice.h"

#include <algorithm>
#include <cmath>

#include "core/machined/machining_evaluation.h"

namespace waybench::machined {
namespace {

constexpr double kFaceAllowance_mm = 1;
constexpr double kSameThickness_mm = 0.02;

std::string sizeText(const Vec3& s) {
    return shown(s.x(), 4) + " x " + shown(s.y(), 4) + " x " + shown(s.z(), 4) + " mm";
}

/// A piece standing with its axis `up` along the tool and turned or not; the sawn size, or nothing when too small.
bool fits(const StockPiece& piece, int up, bool turned, const Vec3& part, double margin, Vec3& sawn) {
    const int a = (up + (turned ? 2 : 1)) % 3, b = (up + (turned ? 1 : 2)) % 3;
    const Vec3 have(piece.size_mm[a], piece.size_mm[b], piece.size_mm[up]);
    const bool asBought = up == 2;
    Vec3 need(part.x() + 2 * margin, part.y() + 2 * margin, part.z() + (asBought ? 0 : kFaceAllowance_mm));
    // the axis that is the plate's thickness cannot be sawn to size: it stays as it is
    for (int axis = 0; axis < 3; ++axis)
        if (have[axis] < need[axis] - kSameThickness_mm) return false;
    sawn = piece.isOffcut ? have : need;
    if (asBought)
        sawn.z() = have.z();
    else if (a == 2)
        sawn.x() = have.x();
    else
        sawn.y() = have.y();
    return true;
}

}  // namespace

StockChoice chooseStock(const Shop& shop, const Plan& plan, const Vec3& part_mm) {
    StockChoice best;
    double thickest = 0, longest = 0;
    for (const StockPiece& piece : shop.shelf) {
        if (piece.material != plan.material) continue;
        thickest = std::max(thickest, piece.size_mm.z());
        longest = std::max(longest, piece.size_mm.head<2>().maxCoeff());
        for (int up = 0; up < 3; ++up)
            for (const bool turned : {false, true}) {
                Vec3 sawn;
                if (!fits(piece, up, turned, part_mm, plan.stockMargin_mm, sawn)) continue;
                if (best.piece && sawn.prod() > best.volume_mm3() * (1 - 1e-9)) continue;
                best.piece = &piece;
                best.size_mm = sawn;
                best.text = piece.title + (piece.isOffcut ? ", whole" : ", " + sizeText(sawn) + " of it");
            }
    }
    if (!best.piece) {
        best.isAssumed = true;
        best.size_mm = part_mm + Vec3(2 * plan.stockMargin_mm, 2 * plan.stockMargin_mm, kFaceAllowance_mm);
        best.text = "block " + sizeText(best.size_mm) + ", to be bought";
        best.missing = thickest > 0 ? "needed " + sizeText(best.size_mm) + "; the shelf has pieces up to " +
                                          shown(longest, 4) + " mm long and " + shown(thickest, 4) + " mm thick"
                                    : "needed " + sizeText(best.size_mm) + "; the shelf has nothing of this material";
    }
    best.excess_mm = std::max(0.0, best.size_mm.z() - part_mm.z());
    if (best.excess_mm < kSameThickness_mm) best.excess_mm = 0;
    return best;
}

}  // namespace waybench::machined
