#include "app/parts/part_delegate.h"

#include <QImage>
#include <QPainter>

#include "app/style/route_mark.h"
#include "app/style/theme.h"

namespace waybench {

QSize PartDelegate::pictureSize() {
    return {space(16), space(12)};
}

QSize PartDelegate::sizeHint(const QStyleOptionViewItem&, const QModelIndex&) const {
    return {space(50), pictureSize().height() + space(3)};
}

void PartDelegate::updateEditorGeometry(QWidget* editor, const QStyleOptionViewItem& option, const QModelIndex&) const {
    const int left = option.rect.left() + pictureSize().width() + space(4);
    editor->setGeometry(left, option.rect.top() + space(2), option.rect.right() - left - space(2), space(7));
}

void PartDelegate::paint(QPainter* painter, const QStyleOptionViewItem& option, const QModelIndex& index) const {
    const Palette& c = colours();
    painter->save();
    painter->setRenderHints(QPainter::Antialiasing | QPainter::SmoothPixmapTransform);
    const QRect box = option.rect;
    const bool selected = option.state & QStyle::State_Selected;
    if (selected) {
        painter->fillRect(box, c.sheet);
        painter->fillRect(QRect(box.left(), box.top(), 3, box.height()), c.accent);
    } else if (option.state & QStyle::State_MouseOver) {
        painter->fillRect(box, c.sunken);
    }
    const QSize picture = pictureSize();
    const QRect frame(box.left() + space(2), box.center().y() - picture.height() / 2, picture.width(),
                      picture.height());
    const auto image = index.data(imageRole).value<QImage>();
    if (!image.isNull()) painter->drawImage(frame, image);

    const int left = frame.right() + space(2), width = box.right() - left - space(2);
    const QFont nameFont = textFont(TextSize::body, selected ? QFont::DemiBold : QFont::Normal);
    const QFont smallFont = textFont(TextSize::small);
    const int nameHeight = QFontMetrics(nameFont).height(), smallHeight = QFontMetrics(smallFont).height();
    const int top = box.center().y() - (nameHeight + smallHeight + 2) / 2;
    painter->setFont(nameFont);
    painter->setPen(c.text);
    painter->drawText(QRect(left, top, width, nameHeight), Qt::AlignLeft | Qt::AlignVCenter,
                      QFontMetrics(nameFont).elidedText(index.data(Qt::DisplayRole).toString(), Qt::ElideRight, width));
    const auto mark = static_cast<RouteMark>(index.data(markRole).toInt());
    const int glyph = smallHeight - 2;
    paintRouteMark(*painter, QRectF(left, top + nameHeight + 3, glyph, glyph), mark);
    painter->setFont(smallFont);
    painter->setPen(textColourOf(mark));
    painter->drawText(QRect(left + glyph + space(1), top + nameHeight + 2, width - glyph - space(1), smallHeight),
                      Qt::AlignLeft | Qt::AlignVCenter, wordOf(mark) + index.data(noteRole).toString());
    if (option.state & QStyle::State_HasFocus) {
        painter->setRenderHint(QPainter::Antialiasing, false);
        painter->setPen(QPen(c.accent, 1));
        painter->setBrush(Qt::NoBrush);
        painter->drawRect(box.adjusted(0, 0, -1, -1));
    }
    painter->restore();
}

}  // namespace waybench
