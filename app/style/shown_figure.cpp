#include "app/style/shown_figure.h"

#include <QCoreApplication>
#include <QLocale>
#include <algorithm>
#include <cmath>

#include "core/quantity/quantity_text.h"

namespace waybench {

namespace {

QString localised(const std::string& number) {
    QString s = QString::fromStdString(number);
    s.replace(QLatin1Char('.'), QLocale().decimalPoint());
    if (s.startsWith(QLatin1Char('-'))) s.replace(0, 1, QChar(0x2212));
    return s;
}

ShownFigure shownIn(const Figure& figure, const DisplayUnit& unit, std::optional<double> limit = std::nullopt) {
    if (limit) *limit *= unit.scale;
    const RoundedFigure r = roundByBand(figure.times(unit.scale), limit);
    ShownFigure s;
    s.value = localised(r.value);
    s.low = localised(r.low);
    s.high = localised(r.high);
    s.unit = prettySymbol(unit.symbol);
    s.hasBand = figure.low < figure.high;
    return s;
}

}  // namespace

QString ShownFigure::valueText() const {
    return unit.isEmpty() ? value : value + QChar(0x202f) + unit;
}
QString ShownFigure::bandText() const {
    return hasBand ? QCoreApplication::translate("ShownFigure", "%1 to %2").arg(low, high) : QString();
}
QString ShownFigure::fullText() const {
    return hasBand ? valueText() + QStringLiteral(" (") + bandText() + QLatin1Char(')') : valueText();
}

ShownFigure shown(const Figure& figure) {
    return shownIn(figure, displayUnitFor(figure.unit, figure.value));
}

std::pair<ShownFigure, ShownFigure> shownAlike(const Figure& a, const Figure& b, std::optional<double> limit) {
    const DisplayUnit unit = displayUnitForPair(a.unit, a.value, b.value);
    return {shownIn(a, unit, limit), shownIn(b, unit, limit)};
}

QString shownNumber(double value) {
    const double size = std::abs(value);
    if (size >= 1e4 && size < 1e12)
        return localised(QString::number(value, 'f', QLocale::FloatingPointShortest).toStdString());
    return localised(plainNumber(value));
}

QString shownQuantity(double value, Unit unit) {
    const QString symbol = shownUnit(unit);
    return symbol.isEmpty() ? shownNumber(value) : shownNumber(value) + QChar(0x202f) + symbol;
}

QString shownUnit(Unit unit) {
    return prettySymbol(symbolOf(unit));
}

QString prettySymbol(std::string_view symbol) {
    if (symbol == "-") return {};
    if (symbol == "mm2") return QStringLiteral("mm²");
    if (symbol == "mm3") return QStringLiteral("mm³");
    if (symbol == "degC") return QStringLiteral("°C");
    if (symbol == "deg") return QStringLiteral("°");
    if (symbol == "N mm") return QStringLiteral("N mm");
    return text(symbol);
}

QString shownBriefly(double value, Unit unit) {
    DisplayUnit in = displayUnitFor(unit, value);
    if (unit == Unit::millimetre && std::abs(value) >= 1000) in = {"m", 1e-3};
    const double scaled = value * in.scale;
    const double step = scaled != 0 ? std::pow(10, std::max(-2.0, std::floor(std::log10(std::abs(scaled))) - 2)) : 1;
    const QString number = shownNumber(std::round(std::round(scaled / step) * step * 1e6) / 1e6);
    return in.symbol.empty() ? number : number + QChar(0x202f) + prettySymbol(in.symbol);
}

}  // namespace waybench
