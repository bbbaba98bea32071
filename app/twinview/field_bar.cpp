#include "app/twinview/field_bar.h"

#include <QLinearGradient>
#include <QPainter>

#include "app/style/theme.h"
#include "app/twinview/colour_scale.h"

namespace waybench {

FieldBar::FieldBar(QWidget* parent) : QWidget(parent) {
    setSizePolicy(QSizePolicy::Fixed, QSizePolicy::Fixed);
    setAccessibleName(tr("Colour scale"));
}

void FieldBar::setEnds(const QString& low, const QString& high) {
    low_ = low;
    high_ = high;
    setAccessibleDescription(tr("%1 to %2").arg(low, high));
    updateGeometry();
    update();
    setVisible(!high.isEmpty());
}

QSize FieldBar::sizeHint() const {
    const QFontMetrics m(textFont(TextSize::small));
    return {m.horizontalAdvance(low_) + m.horizontalAdvance(high_) + space(34), m.height() + 4};
}

void FieldBar::paintEvent(QPaintEvent*) {
    QPainter painter(this);
    painter.setFont(textFont(TextSize::small));
    painter.setPen(colours().muted);
    const int lowWidth = painter.fontMetrics().horizontalAdvance(low_) + space(2);
    const int highWidth = painter.fontMetrics().horizontalAdvance(high_) + space(2);
    painter.drawText(rect(), Qt::AlignLeft | Qt::AlignVCenter, low_);
    painter.drawText(rect(), Qt::AlignRight | Qt::AlignVCenter, high_);
    const QRect strip = rect().adjusted(lowWidth, height() / 2 - space(1), -highWidth, -(height() / 2 - space(1)));
    QLinearGradient gradient(strip.topLeft(), strip.topRight());
    for (int k = 0; k <= 16; ++k)
        gradient.setColorAt(k / 16.0, fieldColour(k / 16.0));
    painter.fillRect(strip, gradient);
    painter.setPen(colours().mark);
    painter.drawRect(strip.adjusted(0, 0, -1, -1));
}

}  // namespace waybench
