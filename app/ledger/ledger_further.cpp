#include "app/ledger/ledger_further.h"

#include <QCoreApplication>
#include <QStringList>
#include <algorithm>
#include <cmath>

#include "app/style/shown_figure.h"

namespace waybench {

namespace {

QString tr(const char* words) {
    return QCoreApplication::translate("LedgerFurther", words);
}

/// To three digits of the vector's length, as more would not hold.
QString shownVector(const Vec3& v, Unit unit) {
    const double size = v.cwiseAbs().maxCoeff();
    const double step = size > 0 ? std::pow(10, std::floor(std::log10(size)) - 2) : 1;
    QStringList components;
    for (int axis = 0; axis < 3; ++axis)
        components << shownNumber(std::round(std::round(v[axis] / step) * step * 1e9) / 1e9 + 0.0);
    return QStringLiteral("(%1)").arg(components.join(QStringLiteral("; "))) + QChar(0x202f) + shownUnit(unit);
}

/// What the layers add up to, longest first, and what comes beside them; empty where the route does not say.
QString timesByKind(const RouteOutcome& outcome) {
    std::vector<std::pair<std::string, Figure>> times;
    for (const SummaryGroup& group : outcome.summary)
        if (group.key == "path_time" || group.key == "other_time")
            times.insert(times.end(), group.figures.begin(), group.figures.end());
    std::stable_sort(times.begin(), times.end(),
                     [](const auto& a, const auto& b) { return a.second.value > b.second.value; });
    const double whole = outcome.at(Question::machine_time).value;
    QStringList kinds;
    for (const auto& [key, figure] : times) {
        if (figure.value <= 0) continue;
        kinds << tr("%1 %2 (%3 %)")
                     .arg(text(key).replace(QLatin1Char('_'), QLatin1Char(' ')),
                          shownBriefly(figure.value, figure.unit),
                          shownNumber(std::round(1000 * figure.value / whole) / 10));
    }
    return kinds.join(QStringLiteral(", "));
}

}  // namespace

QString furtherText(const RouteOutcome& outcome, Question question, std::size_t loadCase) {
    QStringList lines;
    const auto& structure = loadCase < outcome.cases.size() ? outcome.cases[loadCase].structure : outcome.structure;
    const bool isOfStructure = question == Question::deflection || question == Question::stiffness;
    if (isOfStructure && structure) {
        if (const auto frequency = naturalFrequency(outcome, loadCase))
            lines << tr("first natural frequency, with what is attached: %1").arg(shown(*frequency).fullText());
        lines << tr("reaction of all holds together: %1").arg(shownVector(structure->reaction, Unit::newton));
    }
    if (question == Question::mass && outcome.solid)
        lines << tr("centre of volume: %1; of mass too, where the part is alike throughout")
                     .arg(shownVector(centroidOf(outcome.solid->mesh), Unit::millimetre));
    if (question == Question::machine_time) {
        const QString kinds = timesByKind(outcome);
        if (!kinds.isEmpty()) lines << tr("goes to: %1").arg(kinds);
    }
    return lines.join(QLatin1Char('\n'));
}

}  // namespace waybench
