#pragma once
#include <QWidget>

#include "core/comparison/comparison.h"

class QLabel;

namespace waybench {

/// Under the ledger: how the selected row's two figures were worked out, with formula, numbers and source, and
/// what else the answers know of it. Selectable text, so that it can be copied and checked.
class LedgerDetail : public QWidget {
    Q_OBJECT
public:
    explicit LedgerDetail(QWidget* parent = nullptr);
    /// @param comparison the row is of; both null: no row
    void showRow(const LedgerRow* row, const Comparison* comparison);

protected:
    void paintEvent(QPaintEvent* event) override;

private:
    QLabel* heading_;
    QLabel* printed_;
    QLabel* machined_;
};

}  // namespace waybench
