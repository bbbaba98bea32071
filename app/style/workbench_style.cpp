#include "app/style/workbench_style.h"

#include <QComboBox>
#include <QPainter>
#include <QPainterPath>
#include <QStyleOption>

#include "app/style/theme.h"

namespace waybench {

namespace {

void ruledField(QPainter* painter, const QRect& rect, bool focused, bool enabled, bool faulty) {
    const Palette& c = colours();
    painter->fillRect(rect, focused ? c.sheet : Qt::transparent);
    const QColor line = faulty ? c.fault : focused ? c.accent : enabled ? c.mark : c.rule;
    const int thickness = focused || faulty ? 2 : 1;
    painter->fillRect(QRect(rect.left(), rect.bottom() - thickness + 1, rect.width(), thickness), line);
}

void chevron(QPainter* painter, const QPointF& centre, double size, const QColor& colour) {
    painter->save();
    painter->setRenderHint(QPainter::Antialiasing);
    painter->setPen(QPen(colour, 1.5, Qt::SolidLine, Qt::RoundCap, Qt::RoundJoin));
    painter->drawPolyline(QPolygonF(
        {centre + QPointF(-size, -size / 2), centre + QPointF(0, size / 2), centre + QPointF(size, -size / 2)}));
    painter->restore();
}

}  // namespace

WorkbenchStyle::WorkbenchStyle() : QProxyStyle(QStringLiteral("Fusion")) {}

void WorkbenchStyle::drawPrimitive(PrimitiveElement element, const QStyleOption* option, QPainter* painter,
                                   const QWidget* widget) const {
    const Palette& c = colours();
    const bool enabled = option->state & State_Enabled, focused = option->state & State_HasFocus;
    switch (element) {
        case PE_PanelLineEdit:
        case PE_FrameLineEdit:
            if (const auto* frame = qstyleoption_cast<const QStyleOptionFrame*>(option); frame && frame->lineWidth == 0)
                return;
            ruledField(painter, option->rect, focused, enabled, widget && widget->property("faulty").toBool());
            return;
        case PE_PanelButtonCommand: {
            const bool down = option->state & (State_Sunken | State_On), over = option->state & State_MouseOver;
            const auto* button = qstyleoption_cast<const QStyleOptionButton*>(option);
            const bool flat = button && (button->features & QStyleOptionButton::Flat);
            if (flat && (option->state & State_On)) {
                // A chosen page: its word stands on a thick line.
                const QRect r = option->rect;
                painter->fillRect(QRect(r.left() + 4, r.bottom() - 2, r.width() - 8, 3), c.accent);
                if (focused) proxy()->drawPrimitive(PE_FrameFocusRect, option, painter, widget);
                return;
            }
            painter->save();
            painter->setRenderHint(QPainter::Antialiasing);
            const QRectF box = QRectF(option->rect).adjusted(1, 1, -1, -1);
            painter->setBrush(down ? c.sunken : over && enabled ? c.sheet : QColor(Qt::transparent));
            painter->setPen(focused                  ? QPen(c.accent, 2)
                            : flat && !over && !down ? QPen(Qt::NoPen)
                            : enabled                ? QPen(c.mark, 1)
                                                     : QPen(c.rule, 1));
            painter->drawRoundedRect(box, 3, 3);
            painter->restore();
            return;
        }
        case PE_PanelButtonTool:
            if (option->state & (State_MouseOver | State_Sunken | State_HasFocus)) {
                painter->save();
                painter->setRenderHint(QPainter::Antialiasing);
                painter->setPen(focused ? QPen(c.accent, 2) : QPen(Qt::NoPen));
                painter->setBrush(c.sunken);
                painter->drawRoundedRect(QRectF(option->rect).adjusted(1, 1, -1, -1), 3, 3);
                painter->restore();
            }
            return;
        case PE_FrameFocusRect:
            painter->save();
            painter->setPen(QPen(c.accent, 1));
            painter->setBrush(Qt::NoBrush);
            painter->drawRect(option->rect.adjusted(0, 0, -1, -1));
            painter->restore();
            return;
        case PE_Frame:
        case PE_FrameGroupBox:
        case PE_FrameStatusBarItem:
            return;
        case PE_IndicatorCheckBox: {
            painter->save();
            painter->setRenderHint(QPainter::Antialiasing);
            const QRectF box = QRectF(option->rect).adjusted(1.5, 1.5, -1.5, -1.5);
            painter->setPen(QPen(focused ? c.accent : enabled ? c.mark : c.rule, focused ? 2 : 1.2));
            painter->setBrush(option->state & State_On ? c.accent : c.sheet);
            painter->drawRoundedRect(box, 2, 2);
            if (option->state & State_On) {
                painter->setPen(QPen(c.accentText, 1.8, Qt::SolidLine, Qt::RoundCap, Qt::RoundJoin));
                const double w = box.width(), h = box.height();
                painter->drawPolyline(
                    QPolygonF({box.topLeft() + QPointF(w * 0.22, h * 0.52), box.topLeft() + QPointF(w * 0.43, h * 0.73),
                               box.topLeft() + QPointF(w * 0.79, h * 0.28)}));
            }
            painter->restore();
            return;
        }
        default:
            QProxyStyle::drawPrimitive(element, option, painter, widget);
    }
}

void WorkbenchStyle::drawControl(ControlElement element, const QStyleOption* option, QPainter* painter,
                                 const QWidget* widget) const {
    const Palette& c = colours();
    if (element == CE_Splitter) {
        painter->fillRect(option->rect, c.ground);
        const QPoint m = option->rect.center();
        if (option->state & State_Horizontal)
            painter->fillRect(QRect(m.x(), option->rect.top(), 1, option->rect.height()), c.rule);
        else
            painter->fillRect(QRect(option->rect.left(), m.y(), option->rect.width(), 1), c.rule);
        return;
    }
    if (element == CE_MenuBarEmptyArea) {
        painter->fillRect(option->rect, c.ground);
        return;
    }
    if (element == CE_MenuBarItem) {
        const auto* item = qstyleoption_cast<const QStyleOptionMenuItem*>(option);
        const bool active = option->state & (State_Selected | State_Sunken);
        painter->fillRect(option->rect, active ? c.sunken : c.ground);
        if (item)
            proxy()->drawItemText(painter, option->rect, Qt::AlignCenter | Qt::TextShowMnemonic | Qt::TextSingleLine,
                                  option->palette, option->state & State_Enabled, item->text, QPalette::WindowText);
        return;
    }
    QProxyStyle::drawControl(element, option, painter, widget);
}

void WorkbenchStyle::drawComplexControl(ComplexControl control, const QStyleOptionComplex* option, QPainter* painter,
                                        const QWidget* widget) const {
    const Palette& c = colours();
    if (control == CC_ComboBox) {
        const auto* box = qstyleoption_cast<const QStyleOptionComboBox*>(option);
        ruledField(painter, option->rect, option->state & State_HasFocus, option->state & State_Enabled,
                   widget && widget->property("faulty").toBool());
        if (box && (box->subControls & SC_ComboBoxArrow))
            chevron(painter, QPointF(option->rect.right() - 9, option->rect.center().y() + 1), 3.6,
                    option->state & State_Enabled ? c.muted : c.rule);
        return;
    }
    if (control == CC_ScrollBar) {
        const auto* bar = qstyleoption_cast<const QStyleOptionSlider*>(option);
        if (!bar) return;
        painter->fillRect(option->rect, widget ? widget->palette().color(QPalette::Window) : c.ground);
        QRect thumb = proxy()->subControlRect(CC_ScrollBar, bar, SC_ScrollBarSlider, widget);
        const bool over = option->state & (State_MouseOver | State_Sunken);
        const int inset = over ? 2 : 3;
        thumb.adjust(inset, inset, -inset, -inset);
        painter->save();
        painter->setRenderHint(QPainter::Antialiasing);
        painter->setPen(Qt::NoPen);
        painter->setBrush(over ? c.mark : c.rule);
        const double radius = std::min(thumb.width(), thumb.height()) / 2.0;
        painter->drawRoundedRect(thumb, radius, radius);
        painter->restore();
        return;
    }
    if (control == CC_Slider) {
        const auto* slider = qstyleoption_cast<const QStyleOptionSlider*>(option);
        if (!slider) return;
        const QRect thumb = proxy()->subControlRect(CC_Slider, slider, SC_SliderHandle, widget);
        const bool focused = option->state & State_HasFocus;
        const bool upright = slider->orientation == Qt::Vertical;
        const QPointF knob = upright ? QPointF(option->rect.center().x() + 0.5, thumb.center().y() + 0.5)
                                     : QPointF(thumb.center().x() + 0.5, option->rect.center().y() + 0.5);
        const QPointF low =
            upright ? QPointF(knob.x(), option->rect.bottom() - 4) : QPointF(option->rect.left() + 4, knob.y());
        const QPointF high =
            upright ? QPointF(knob.x(), option->rect.top() + 4) : QPointF(option->rect.right() - 4, knob.y());
        painter->save();
        painter->setRenderHint(QPainter::Antialiasing);
        painter->setPen(QPen(c.rule, 2));
        painter->drawLine(low, high);
        painter->setPen(QPen(c.mark, 2));
        painter->drawLine(low, knob);
        painter->setPen(QPen(focused ? c.accent : c.mark, focused ? 2.5 : 1.5));
        painter->setBrush(focused ? c.accent : c.sheet);
        painter->drawEllipse(knob, 5, 5);
        painter->restore();
        return;
    }
    QProxyStyle::drawComplexControl(control, option, painter, widget);
}

int WorkbenchStyle::pixelMetric(PixelMetric metric, const QStyleOption* option, const QWidget* widget) const {
    switch (metric) {
        case PM_ScrollBarExtent:
            return 12;
        case PM_SplitterWidth:
            return 9;
        case PM_DefaultFrameWidth:
            return qobject_cast<const QComboBox*>(widget) ? 2 : QProxyStyle::pixelMetric(metric, option, widget);
        case PM_ButtonMargin:
            return 10;
        case PM_MenuBarPanelWidth:
            return 0;
        default:
            return QProxyStyle::pixelMetric(metric, option, widget);
    }
}

int WorkbenchStyle::styleHint(StyleHint hint, const QStyleOption* option, const QWidget* widget,
                              QStyleHintReturn* returned) const {
    switch (hint) {
        case SH_EtchDisabledText:
        case SH_DitherDisabledText:
            return 0;
        case SH_Slider_AbsoluteSetButtons:
            return Qt::LeftButton;
        case SH_ComboBox_Popup:
            return 0;
        default:
            return QProxyStyle::styleHint(hint, option, widget, returned);
    }
}

}  // namespace waybench
