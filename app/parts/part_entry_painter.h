#pragma once
#include <QStyledItemDelegate>

namespace waybench {

/// Paints one entry of the parts list: picture, name, mark and word of its route.
class PartEntryPainter : public QStyledItemDelegate {
    Q_OBJECT
public:
    enum Role { markRole = Qt::UserRole + 1 };
    using QStyledItemDelegate::QStyledItemDelegate;
    void paint(QPainter* painter, const QStyleOptionViewItem& option, const QModelIndex& index) const override;
    QSize sizeHint(const QStyleOptionViewItem& option, const QModelIndex& index) const override;
};

}  // namespace waybench
