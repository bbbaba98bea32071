#include "app/style/theme.h"

#include <QApplication>
#include <QFontMetricsF>
#include <QPalette>
#include <QSettings>
#include <QToolTip>
#include <algorithm>
#include <cmath>

#include "app/style/workbench_style.h"

namespace waybench {

Theme& Theme::instance() {
    static Theme theme;
    return theme;
}

void Theme::install(QApplication& application) {
    systemIsDark_ = application.palette().color(QPalette::Window).lightnessF() < 0.45f;
    application.setStyle(new WorkbenchStyle);
    const QString stored = QSettings().value(QStringLiteral("appearance/theme")).toString();
    choice_ = stored == QLatin1String("dark")    ? ThemeChoice::dark
              : stored == QLatin1String("light") ? ThemeChoice::light
                                                 : ThemeChoice::system;
    apply();
}

void Theme::choose(ThemeChoice choice) {
    choice_ = choice;
    QSettings().setValue(QStringLiteral("appearance/theme"), choice == ThemeChoice::dark    ? QStringLiteral("dark")
                                                             : choice == ThemeChoice::light ? QStringLiteral("light")
                                                                                            : QStringLiteral("system"));
    apply();
}

void Theme::apply() {
    dark_ = choice_ == ThemeChoice::dark || (choice_ == ThemeChoice::system && systemIsDark_);
    const QPalette widgets = widgetPalette(palette());
    QApplication::setPalette(widgets);
    QToolTip::setPalette(widgets);
    Q_EMIT changed();
}

QFont textFont(TextSize size, QFont::Weight weight) {
    QFont font = QApplication::font();
    static constexpr double kScale[] = {0.88, 1.0, 1.15, 1.4, 1.9};
    const double scale = kScale[static_cast<int>(size)];
    if (font.pointSizeF() > 0)
        font.setPointSizeF(font.pointSizeF() * scale);
    else
        font.setPixelSize(std::max(1, int(std::lround(font.pixelSize() * scale))));
    font.setWeight(weight);
    return font;
}

int space(int quarters) {
    const double line = QFontMetricsF(QApplication::font()).height();
    return std::max(quarters > 0 ? 1 : 0, int(std::lround(line / 4 * quarters)));
}

}  // namespace waybench
