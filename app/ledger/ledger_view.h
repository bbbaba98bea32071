#pragma once
#include <QAbstractScrollArea>
#include <memory>
#include <vector>

#include "app/ledger/ledger_painter.h"
#include "core/comparison/comparison.h"

namespace waybench {

/// The comparison as a ledger: one row a question, its name in the middle as the spine, the printed figure to the left
/// and the machined one to the right, each with its band and a bar grown from the spine on one scale per row.
///
/// A bar is filled (printed) or open (machined); its whisker is the band; a limit is a tick across both bars. Who is
/// ahead is a wedge at that side, a word, and only then a colour. Up/Down/Home/End/Page move the selection, Ctrl+C
/// copies the table as tab-separated text with header and units.
class LedgerView : public QAbstractScrollArea {
    Q_OBJECT
public:
    explicit LedgerView(QWidget* parent = nullptr);

    /// Keeps selection and scroll position, so that arriving results do not move what is looked at.
    void showComparison(std::shared_ptr<const Comparison> comparison);
    /// Figures stay readable but are marked as no longer current.
    void setStale(bool stale);
    bool isStale() const { return stale_; }

    int rowCount() const;
    int selectedRow() const { return selected_; }
    void selectRow(int row);
    const LedgerRow* row(int index) const;
    const Comparison* comparison() const { return comparison_.get(); }
    /// "deflection, printed 0.21 mm, machined 0.04 mm, limit 0.10 mm, machined ahead"
    QString accessibleRowText(int index) const;
    /// Header and all rows, tabs between, decimal point, full digits and bands.
    QString tableText() const;
    QRect rowRect(int index) const;  ///< in viewport coordinates

    QSize sizeHint() const override;
    QSize minimumSizeHint() const override;

Q_SIGNALS:
    void rowSelected(int row);

protected:
    void paintEvent(QPaintEvent* event) override;
    void resizeEvent(QResizeEvent* event) override;
    void mousePressEvent(QMouseEvent* event) override;
    void mouseMoveEvent(QMouseEvent* event) override;
    void leaveEvent(QEvent* event) override;
    void keyPressEvent(QKeyEvent* event) override;
    void focusInEvent(QFocusEvent* event) override;
    void focusOutEvent(QFocusEvent* event) override;
    void contextMenuEvent(QContextMenuEvent* event) override;
    bool viewportEvent(QEvent* event) override;
    void changeEvent(QEvent* event) override;

private:
    void layOut();
    LedgerColumns columnsNow() const;
    int rowAt(int y) const;
    void copyTable() const;

    std::shared_ptr<const Comparison> comparison_;
    std::vector<int> tops_;  ///< row tops and the end, content coordinates
    int selected_ = 0, hovered_ = -1;
    bool stale_ = false;
};

}  // namespace waybench
