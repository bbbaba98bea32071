#pragma once
#include <QWidget>
#include <array>

#include "app/layers/time_share.h"

class QLabel;

namespace waybench {

/// What the lines and areas mean, with length and time of each in this layer and in the whole print, one unit a column.
/// A press on the name of what has lines draws them or not; what the print does not have takes no row.
class LayerLegend : public QWidget {
    Q_OBJECT
public:
    explicit LayerLegend(QWidget* parent = nullptr);
    /// @param whole sum over all layers; null while it is not known
    void show(const printed::LayerTime* layer, const printed::LayerTime* whole);
    const ShareSwitches& shown() const { return shown_; }

Q_SIGNALS:
    void switched(const waybench::ShareSwitches& shown);

private:
    struct Row {
        QWidget* swatch = nullptr;
        QWidget* name = nullptr;
        QLabel* length = nullptr;
        QLabel* time = nullptr;
        QLabel* whole = nullptr;
    };
    std::array<Row, kTimeShares> rows_;
    Row heads_, sum_;
    QLabel* lengths_;  ///< laid, and travelled
    ShareSwitches shown_{};
};

}  // namespace waybench
