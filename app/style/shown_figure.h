#pragma once
#include <QString>
#include <optional>

#include "core/quantity/figure.h"

namespace waybench {

/// A figure as the window shows it: digits by its band (core: roundByBand), the reader's decimal sign, a readable unit.
/// For display only; files, clipboard tables and pages take core's own texts.
struct ShownFigure {
    QString value, low, high;  ///< same decimals
    QString unit;              ///< "mm", "h", empty for plain ratios
    bool hasBand = false;

    QString valueText() const;  ///< "0.21 mm"
    QString bandText() const;   ///< "0.18 to 0.26", empty without band
    QString fullText() const;   ///< "0.21 mm (0.18 to 0.26)"
};
ShownFigure shown(const Figure& figure);
/// Both figures of one row in one unit, so that min and h never stand side by side; digits enough to tell them from
/// the limit, where there is one.
std::pair<ShownFigure, ShownFigure> shownAlike(const Figure& a, const Figure& b,
                                               std::optional<double> limit = std::nullopt);

/// A plain number in the reader's locale, shortest form, no group separators.
QString shownNumber(double value);
/// "12.5 mm" for a field's value, limit or range end.
QString shownQuantity(double value, Unit unit);
/// "42 s", "12.4 m": three digits, in a unit that suits the size. For readings without a band.
QString shownBriefly(double value, Unit unit);
/// Symbol for people: "mm²", "°C"; empty for plain ratios.
QString shownUnit(Unit unit);
QString prettySymbol(std::string_view symbol);

inline QString text(const std::string& s) {
    return QString::fromStdString(s);
}
inline QString text(std::string_view s) {
    return QString::fromUtf8(s.data(), qsizetype(s.size()));
}

}  // namespace waybench
