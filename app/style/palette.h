#pragma once
#include <QColor>
#include <vector>

class QPalette;

namespace waybench {

/// Every colour of the window, named by what it is for. Two palettes, light and dark; nothing else in app holds a
/// colour of its own (fields on the part: colour_scale.h; the printed page is always on white).
///
/// The routes' colours belong to the Okabe-Ito set (blue and vermilion), darkened or lightened where text needs it.
/// A colour is never the only cue: printed is also left, filled, solid; machined is right, open, dashed.
struct Palette {
    QColor ground;                     ///< behind everything
    QColor sheet;                      ///< lists, views, fields
    QColor sunken;                     ///< strips, selection of a quiet kind
    QColor rule;                       ///< hairlines that only part things
    QColor mark;                       ///< lines and marks that must be seen: 3:1
    QColor text, muted;                ///< 4.5:1 on ground, sheet and sunken
    QColor accent;                     ///< focus, current page, typed values
    QColor accentText;                 ///< on accent
    QColor printed, machined;          ///< fills and lines: 3:1
    QColor printedText, machinedText;  ///< 4.5:1
    QColor fault;                      ///< a message beside a field, a failed limit: 4.5:1
    QColor caution;                    ///< 4.5:1
    QColor body, edge, highlight;      ///< the part in the views
};

const Palette& lightPalette();
const Palette& darkPalette();

/// Contrast ratio of two opaque colours, 1 to 21: WCAG 2.1, definition "contrast ratio" with relative luminance.
double contrastRatio(const QColor& a, const QColor& b);

/// A pair that has to be legible, for the test and for nothing else to forget.
struct ColourPair {
    const char* name;
    QColor front, back;
    double least;
};
std::vector<ColourPair> legiblePairs(const Palette& palette);

/// The same colours as roles of Qt's own widgets.
QPalette widgetPalette(const Palette& palette);

}  // namespace waybench
