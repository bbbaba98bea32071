#include "app/whatif/curve_words.h"

#include <QStringList>
#include <cmath>

#include "app/style/shown_figure.h"
#include "app/whatif/curve_plot.h"

namespace waybench {

namespace {

/// The points already carry the axis' unit, which stands once in front of all readings.
QString reading(const Figure& figure) {
    const ShownFigure plain = shown(figure.in(Unit::none, 1));
    return plain.hasBand ? CurvePlot::tr("%1 (%2)").arg(plain.value, plain.bandText()) : plain.value;
}

}  // namespace

QString inWords(const CurveContent& content) {
    QString words = content.title;
    if (!words.isEmpty()) words += QStringLiteral(". ");
    if (content.limit) words += CurvePlot::tr("Limit: %1. ").arg(content.limitName);
    if (!content.points.empty()) words += CurvePlot::tr("%1 against %2: ").arg(content.axisY, content.axisX);
    QStringList readings;
    for (const CurveContent::Point& p : content.points)
        readings << CurvePlot::tr("at %1 printed %2, machined %3")
                        .arg(shownNumber(std::round(p.at * 1000) / 1000), reading(p.printed), reading(p.machined));
    return words + readings.join(QStringLiteral("; "));
}

}  // namespace waybench
