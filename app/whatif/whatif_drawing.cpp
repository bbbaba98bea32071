#include <QCheckBox>
#include <QComboBox>
#include <QLabel>
#include <algorithm>
#include <cmath>

#include "app/document/document.h"
#include "app/jobs/answers.h"
#include "app/style/route_mark.h"
#include "app/style/shown_figure.h"
#include "app/style/theme.h"
#include "app/whatif/curve_plot.h"
#include "app/whatif/curve_reading.h"
#include "app/whatif/whatif_page.h"
#include "core/quantity/quantity_text.h"

namespace waybench {

Sweep WhatIfPage::gathered() const {
    Sweep s;
    if (const Variable* v = variable()) s.variable = *v;
    for (const auto& [at, point] : points_)
        s.points.push_back(*point);
    return s;
}

bool WhatIfPage::logarithmicFor(const std::vector<CurveContent::Point>& points) {
    double least = 1e300, most = 0;
    for (const CurveContent::Point& p : points)
        for (const Figure* f : {&p.printed, &p.machined}) {
            least = std::min(least, f->value);
            most = std::max(most, f->value);
        }
    if (!scaleChosen_ && points.size() > 1) logarithmic_->setChecked(least > 0 && most > 30 * least);
    return logarithmic_->isChecked();
}

void WhatIfPage::redraw() {
    const Variable* v = variable();
    const QuestionText& q = question();
    if (!v) {
        title_->setText(tr("No part to vary yet."));
        plot_->show({});
        side_->clear();
        return;
    }
    CurveContent content;
    content.from = from_;
    content.to = to_;
    content.cursor = v->current;
    content.unitX = shownUnit(v->unit);
    double most = 0;
    const LedgerRow* row = nullptr;
    for (const auto& [at, p] : points_) {
        if (!p->valid) continue;
        for (const RouteOutcome* o : {&p->comparison.printed, &p->comparison.machined})
            most = std::max(most, std::abs(o->at(q.question).value));
        for (const LedgerRow& r : p->comparison.ledger)
            if (r.question == q.question && !r.isFurther) row = &r;
    }
    const DisplayUnit unit = displayUnitFor(q.unit, most);
    for (const auto& [at, p] : points_) {
        if (!p->valid) continue;
        content.points.push_back({at, p->comparison.printed.at(q.question).times(unit.scale),
                                  p->comparison.machined.at(q.question).times(unit.scale),
                                  p->comparison.fidelity == Fidelity::draft});
    }
    content.logarithmic = logarithmicFor(content.points);
    const QString symbol = prettySymbol(unit.symbol);
    content.axisX = content.unitX.isEmpty() ? text(v->label) : tr("%1 in %2").arg(text(v->label), content.unitX);
    content.axisY = symbol.isEmpty() ? text(q.title) : tr("%1 in %2").arg(text(q.title), symbol);
    if (row && row->limit && v->name != "limit") {
        content.limit = *row->limit * unit.scale;
        content.limitIsUpper = row->limitIsUpper;
        content.limitName =
            (row->limitIsUpper ? tr("at most %1, from the load case") : tr("at least %1, from the load case"))
                .arg(shownQuantity(*row->limit, row->unit));
    }
    std::vector<Crossing> found;
    if (points_.size() > 1) found = crossings(gathered(), q.question);
    if (q.question == Question::deflection)
        for (const auto& [route, solved] : solved_)
            takeSolved(found, *solved, *v);
    QString letters;
    for (std::size_t k = 0; k < found.size() && k < 6; ++k) {
        const QChar letter = QChar(ushort('A' + k));
        letters += letter;
        const std::optional<RouteKind> route = found[k].route;
        const auto height = between(points_, found[k].at, q.question, route.value_or(RouteKind::printed));
        const double y = route && content.limit ? *content.limit : height ? height->value * unit.scale : 0;
        content.crossings.push_back({letter, found[k].at, found[k].low, found[k].high, y});
    }

    const QString finding = findingFrom(found);
    content.title = finding;
    title_->setText(finding);
    plot_->show(content);
    writeSide(found, letters);
}

QString WhatIfPage::findingFrom(const std::vector<Crossing>& found) const {
    const Variable* v = variable();
    const QuestionText& q = question();
    QStringList words;
    if (q.question == Question::deflection)
        for (const auto& [route, solved] : solved_) {
            const RouteKind ofRoute = route;
            const auto meets =
                std::find_if(found.begin(), found.end(), [ofRoute](const Crossing& c) { return c.route == ofRoute; });
            if (meets != found.end())
                words << text(meets->text);
            else if (!solved->fault && !solved->isUntouched)
                words << text(wordsOf(*solved, *v));
        }
    if (words.isEmpty() && !found.empty()) words << text(found.front().text);
    if (words.isEmpty() && points_.size() > 1)
        words << tr("No crossing between %1 and %2").arg(shownNumber(from_), shownQuantity(to_, v->unit));
    QString finding = words.join(tr("; "));
    if (finding.isEmpty()) finding = tr("%1 against %2").arg(text(q.title), text(v->label));
    finding[0] = finding[0].toUpper();
    return finding;
}

QString WhatIfPage::solvedLines() const {
    QString html;
    for (const RouteKind route : {RouteKind::printed, RouteKind::machined}) {
        const auto it = solved_.find(route);
        if (it == solved_.end()) {
            html += QStringLiteral("<div>%1 %2</div>").arg(QString::fromUtf8(nameOf(route)), tr("…"));
            continue;
        }
        QString words = text(wordsOf(*it->second, *variable()));
        if (it->second->sized)
            words = tr("%1; deflection there %2").arg(words, shown(it->second->sized->deflection).fullText());
        const QColor ink = it->second->fault ? colours().fault : colours().text;
        html += QStringLiteral("<div style='color:%1'>%2</div>").arg(ink.name(), words.toHtmlEscaped());
    }
    return html;
}

void WhatIfPage::writeSide(const std::vector<Crossing>& found, const QString& letters) {
    const Variable* v = variable();
    const QuestionText& q = question();
    const QString h = QStringLiteral("<p style='margin:10px 0 3px 0'><b>%1</b></p>");
    QString html = h.arg(tr("At %1").arg(shownQuantity(std::round(v->current * 1e4) / 1e4, v->unit).toHtmlEscaped()));
    const Answer answer = answers_.current();
    // A route with a value of its own is not at the cursor: then only the curve tells.
    const Part* part = document_.currentPart();
    const bool together = part && standsAt(*part, *v);
    const bool fresh = together && answers_.isCurrent();
    for (const RouteKind route : {RouteKind::printed, RouteKind::machined}) {
        std::optional<Figure> figure;
        if (fresh)
            figure = answer.comparison->outcome(route).at(q.question);
        else
            figure = between(points_, v->current, q.question, route);
        html += QStringLiteral("<div style='color:%1'>%2 %3</div>")
                    .arg((route == RouteKind::printed ? colours().printedText : colours().machinedText).name(),
                         QString::fromUtf8(nameOf(route)),
                         figure ? (fresh ? QString() : QStringLiteral("≈ ")) + shown(*figure).fullText().toHtmlEscaped()
                                : tr("…"));
    }
    if (!fresh)
        html += QStringLiteral("<div style='color:%1'>%2</div>")
                    .arg(colours().muted.name(),
                         together ? tr("read off the curve, being computed")
                                  : tr("read off the curves: the routes have values of their own here, and the "
                                       "cursor would set both"));
    for (const std::string& line : selections_)
        html += QStringLiteral("<p style='margin:10px 0 3px 0; color:%1'>%2</p>")
                    .arg(colours().fault.name(), text(line).toHtmlEscaped());
    if (q.question == Question::deflection) html += h.arg(tr("Solved for the limit")) + solvedLines();
    html += h.arg(tr("Crossings"));
    if (found.empty())
        html += QStringLiteral("<div>%1</div>").arg(points_.size() > 1 ? tr("none in this range") : tr("…"));
    for (int k = 0; k < int(found.size()) && k < letters.size(); ++k)
        html +=
            QStringLiteral("<div><b>%1</b> %2</div>").arg(letters[k], text(found[std::size_t(k)].text).toHtmlEscaped());
    QStringList missing;
    for (const auto& [at, p] : points_)
        if (!p->valid) missing << tr("%1: %2").arg(shownQuantity(at, v->unit), text(p->why));
    if (!missing.isEmpty())
        html += h.arg(tr("Not possible")) + missing.join(QStringLiteral("<br>"))
                                                .toHtmlEscaped()
                                                .replace(QStringLiteral("&lt;br&gt;"), QStringLiteral("<br>"));
    html +=
        QStringLiteral("<p style='color:%1;margin-top:12px'>%2</p>")
            .arg(colours().muted.name(),
                 tr("Drag the cursor, or move it with Left and Right: the part follows. Thick strokes on the axis are "
                    "the bands of the crossings."));
    side_->setText(html);
}

}  // namespace waybench
