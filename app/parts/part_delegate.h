#pragma once
#include <QStyledItemDelegate>

namespace waybench {

/// One entry of the parts list: picture, name, and route mark with its word.
class PartDelegate : public QStyledItemDelegate {
    Q_OBJECT
public:
    enum Role { markRole = Qt::UserRole + 1, imageRole, noteRole };
    using QStyledItemDelegate::QStyledItemDelegate;
    void paint(QPainter* painter, const QStyleOptionViewItem& option, const QModelIndex& index) const override;
    QSize sizeHint(const QStyleOptionViewItem& option, const QModelIndex& index) const override;
    void updateEditorGeometry(QWidget* editor, const QStyleOptionViewItem& option,
                              const QModelIndex& index) const override;
    static QSize pictureSize();
};

}  // namespace waybench
