#include "app/parts/part_entry_painter.h"

#include <QPainter>

#include "app/style/route_mark.h"
#include "app/style/theme.h"

namespace waybench {

void PartEntryPainter::paint(QPainter* painter, const QStyleOptionViewItem& option, const QModelIndex& index) const {
    const Palette& c = colours();
    painter->save();
    const bool isChosen = option.state & QStyle::State_Selected;
    painter->fillRect(option.rect, isChosen ? c.sunken : c.sheet);
    if (isChosen)
        painter->fillRect(QRect(option.rect.left(), option.rect.top(), space(1), option.rect.height()), c.accent);
    const QRect box = option.rect.adjusted(space(3), space(1), -space(2), -space(1));
    const QRect picture(box.left(), box.top(), box.height() * 5 / 4, box.height());
    const auto pixmap = index.data(Qt::DecorationRole).value<QPixmap>();
    if (!pixmap.isNull()) {
        const QSizeF size = pixmap.deviceIndependentSize().scaled(picture.size(), Qt::KeepAspectRatio);
        painter->setRenderHint(QPainter::SmoothPixmapTransform);
        painter->drawPixmap(QRectF(picture.center().x() - size.width() / 2, picture.center().y() - size.height() / 2,
                                   size.width(), size.height()),
                            pixmap, QRectF(pixmap.rect()));
    }
    const QRect words(picture.right() + space(2), box.top(), box.right() - picture.right() - space(2), box.height());
    const auto mark = RouteMark(index.data(markRole).toInt());
    painter->setFont(textFont(TextSize::body, isChosen ? QFont::DemiBold : QFont::Normal));
    painter->setPen(c.text);
    const QRect upper(words.left(), words.top(), words.width(), words.height() / 2);
    painter->drawText(upper, Qt::AlignLeft | Qt::AlignBottom,
                      painter->fontMetrics().elidedText(index.data().toString(), Qt::ElideRight, upper.width()));
    const QRect lower(words.left(), words.top() + words.height() / 2, words.width(), words.height() / 2);
    const int side = painter->fontMetrics().ascent();
    paintRouteMark(*painter, QRectF(lower.left(), lower.top() + space(1), side, side), mark);
    painter->setFont(textFont(TextSize::small));
    painter->setPen(textColourOf(mark));
    painter->drawText(lower.adjusted(side + space(2), space(1), 0, 0), Qt::AlignLeft | Qt::AlignTop, wordOf(mark));
    if (option.state & QStyle::State_HasFocus && isChosen) {
        painter->setPen(QPen(c.accent, 2));
        painter->drawRect(option.rect.adjusted(1, 1, -1, -1));
    }
    painter->restore();
}

QSize PartEntryPainter::sizeHint(const QStyleOptionViewItem&, const QModelIndex&) const {
    const int line = QFontMetrics(textFont(TextSize::body)).lineSpacing();
    return {line * 10, line * 2 + space(6)};
}

}  // namespace waybench
