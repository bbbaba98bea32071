#pragma once
#include <QFont>
#include <QObject>

#include "app/style/palette.h"

class QApplication;

namespace waybench {

enum class ThemeChoice { system, light, dark };

/// The one place that knows which palette is in force. Widgets that paint themselves read palette() while painting
/// and repaint on changed(); nothing stores a colour.
class Theme : public QObject {
    Q_OBJECT
public:
    static Theme& instance();

    /// Sets style, palette and the remembered choice on the application. Call once, after it is made.
    void install(QApplication& application);
    /// Switches live and remembers. system: dark when the desktop handed us a dark window colour.
    void choose(ThemeChoice choice);
    ThemeChoice choice() const { return choice_; }
    bool isDark() const { return dark_; }
    const Palette& palette() const { return dark_ ? darkPalette() : lightPalette(); }

Q_SIGNALS:
    void changed();

private:
    Theme() = default;
    void apply();
    ThemeChoice choice_ = ThemeChoice::system;
    bool dark_ = false, systemIsDark_ = false;
};

inline const Palette& colours() {
    return Theme::instance().palette();
}

/// Typography: steps from the user's own font size, so that a larger system font enlarges everything.
enum class TextSize { small, body, lead, title, display };
QFont textFont(TextSize size, QFont::Weight weight = QFont::Normal);

/// Spacing in steps of a quarter of the body line, whole pixels: space(4) is about one line.
int space(int quarters);

}  // namespace waybench
