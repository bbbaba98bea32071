#pragma once
#include <QRectF>
#include <span>

#include "core/comparison/comparison.h"

class QPainter;

namespace waybench {

/// Columns of one ledger row, outside in: word at the margin, value, band, bar, spine, and mirrored.
struct LedgerColumns {
    double left = 0, right = 0;            ///< content edges
    double word = 0, value = 0, band = 0;  ///< widths of the text columns, the same on both sides
    double spineLeft = 0, spineRight = 0;
    bool bandsBelow = false;  ///< narrow window: the band stands under its value

    /// Text columns as wide as the rows need, the rest to the bars.
    static LedgerColumns fitting(double width, std::span<const LedgerRow> rows);
    double barLength() const { return spineLeft - left - word - value - (bandsBelow ? 0 : band); }
};

struct LedgerRowState {
    bool selected = false, hovered = false, focused = false, stale = false;
};

double ledgerRowHeight(const LedgerRow& row, const LedgerColumns& columns);
void paintLedgerRow(QPainter& painter, const QRectF& box, const LedgerColumns& columns, const LedgerRow& row,
                    const LedgerRowState& state);

}  // namespace waybench
