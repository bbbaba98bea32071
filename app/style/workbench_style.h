#pragma once
#include <QProxyStyle>

namespace waybench {

/// Look of the ordinary widgets: fields are entries on a ruled line, buttons a word in a thin frame, nothing raised.
/// Built on Fusion for everything not drawn here. Focus is a thick line in the accent colour, always painted.
class WorkbenchStyle : public QProxyStyle {
    Q_OBJECT
public:
    WorkbenchStyle();
    void drawPrimitive(PrimitiveElement element, const QStyleOption* option, QPainter* painter,
                       const QWidget* widget) const override;
    void drawControl(ControlElement element, const QStyleOption* option, QPainter* painter,
                     const QWidget* widget) const override;
    void drawComplexControl(ComplexControl control, const QStyleOptionComplex* option, QPainter* painter,
                            const QWidget* widget) const override;
    int pixelMetric(PixelMetric metric, const QStyleOption* option, const QWidget* widget) const override;
    int styleHint(StyleHint hint, const QStyleOption* option, const QWidget* widget,
                  QStyleHintReturn* returned) const override;
};

}  // namespace waybench
