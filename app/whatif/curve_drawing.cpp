#include "app/whatif/curve_drawing.h"

#include <qcustomplot.h>

#include <algorithm>
#include <cmath>

#include "app/style/shown_figure.h"
#include "app/style/theme.h"
#include "app/whatif/curve_plot.h"

namespace waybench {

namespace {
constexpr int kEndLabel_px = 96;

struct Ends {
    double low = 1e300, high = -1e300;
    void include(double v) {
        low = std::min(low, v);
        high = std::max(high, v);
    }
};
}  // namespace

struct CurveDrawing::Look {
    const Palette& palette;
    QColor ground;
    bool forPaper, hasFocus;
};

CurveDrawing::CurveDrawing(QWidget* parent) : plot_(new QCustomPlot(parent)) {
    plot_->setFocusPolicy(Qt::NoFocus);
    plot_->setNoAntialiasingOnDrag(false);
}

void CurveDrawing::draw(const CurveContent& content, bool forPaper, bool hasFocus) {
    const Palette& palette = forPaper ? lightPalette() : colours();
    const Look look{palette, forPaper ? QColor(Qt::white) : palette.sheet, forPaper, hasFocus};
    plot_->clearItems();
    plot_->clearGraphs();
    plot_->setBackground(look.ground);
    dressAxes(content, look);
    setRanges(content);
    if (content.limit) drawLimit(content, look);
    drawCurves(content, look);
    if (!content.points.empty()) nameCurves(content, look);
    drawCrossings(content, look);
    drawCursor(content, look);
    setCursor(content.cursor, content.unitX);
}

void CurveDrawing::dressAxes(const CurveContent& content, const Look& look) {
    const QFont body = textFont(TextSize::body), small = textFont(TextSize::small);
    plot_->axisRect()->setupFullAxesBox(false);
    plot_->axisRect()->setAutoMargins(QCP::msLeft | QCP::msBottom);
    plot_->axisRect()->setMargins(QMargins(0, space(8), kEndLabel_px, 0));
    plot_->axisRect()->setMinimumMargins(QMargins(space(4), space(8), kEndLabel_px, space(4)));
    const auto dress = [&](QCPAxis* axis, const QString& label) {
        axis->setLabel(label);
        axis->setLabelFont(body);
        axis->setTickLabelFont(small);
        axis->setLabelColor(look.palette.text);
        axis->setTickLabelColor(look.palette.muted);
        axis->setBasePen(QPen(look.palette.mark, 1));
        axis->setTickPen(QPen(look.palette.mark, 1));
        axis->setSubTickPen(QPen(look.palette.rule, 1));
        axis->grid()->setPen(QPen(look.palette.rule, 0.8));
        axis->grid()->setZeroLinePen(QPen(look.palette.mark, 1));
        axis->setTickLengthIn(0);
        axis->setTickLengthOut(4);
        axis->setSubTickLengthIn(0);
    };
    plot_->xAxis2->setVisible(false);
    plot_->yAxis2->setVisible(false);
    dress(plot_->xAxis, content.axisX);
    dress(plot_->yAxis, content.logarithmic ? CurvePlot::tr("%1, log scale").arg(content.axisY) : content.axisY);
    plot_->xAxis->grid()->setVisible(false);
}

void CurveDrawing::setRanges(const CurveContent& content) {
    Ends ends;
    for (const CurveContent::Point& p : content.points)
        for (const Figure* f : {&p.printed, &p.machined}) {
            ends.include(content.logarithmic && f->low <= 0 ? f->value : f->low);
            ends.include(f->high);
        }
    if (content.limit) ends.include(*content.limit);
    if (ends.high < ends.low) ends = {0, 1};
    if (content.logarithmic && ends.high > 0) {
        const double least = std::max(ends.low, ends.high * 1e-6);
        plot_->yAxis->setScaleType(QCPAxis::stLogarithmic);
        plot_->yAxis->setTicker(QSharedPointer<QCPAxisTickerLog>::create());
        plot_->yAxis->setNumberFormat(QStringLiteral("g"));
        plot_->yAxis->setNumberPrecision(3);
        plot_->yAxis->setRange(least / 1.3, ends.high * 1.3);
    } else {
        plot_->yAxis->setScaleType(QCPAxis::stLinear);
        plot_->yAxis->setTicker(QSharedPointer<QCPAxisTicker>::create());
        plot_->yAxis->setNumberFormat(QStringLiteral("g"));
        plot_->yAxis->setNumberPrecision(4);
        plot_->yAxis->setRange(std::min(0.0, ends.low * 1.05), ends.high > 0 ? ends.high * 1.08 : 1);
    }
    const double margin = (content.to - content.from) * 0.02;
    plot_->xAxis->setRange(content.from - margin, content.to + margin);
}

void CurveDrawing::drawLimit(const CurveContent& content, const Look& look) {
    auto* failing = new QCPItemRect(plot_);
    failing->setClipToAxisRect(true);
    const QCPRange y = plot_->yAxis->range();
    // A hatched border on the failing side, wide enough to be seen and no wider, so that curves stay clear.
    const double border = 0.055;
    double edge = *content.limit + (content.limitIsUpper ? 1 : -1) * border * y.size();
    if (content.logarithmic)
        edge = *content.limit * std::pow(y.upper / y.lower, content.limitIsUpper ? border : -border);
    failing->topLeft->setCoords(plot_->xAxis->range().lower, std::max(edge, *content.limit));
    failing->bottomRight->setCoords(plot_->xAxis->range().upper, std::min(edge, *content.limit));
    QColor hatch = look.palette.fault;
    hatch.setAlphaF(0.5f);
    failing->setBrush(QBrush(hatch, Qt::BDiagPattern));
    failing->setPen(Qt::NoPen);
    auto* line = new QCPItemStraightLine(plot_);
    line->point1->setCoords(content.from, *content.limit);
    line->point2->setCoords(content.to, *content.limit);
    line->setPen(QPen(look.palette.fault, 1.6));
    auto* name = new QCPItemText(plot_);
    // The name stands at the end where the curves keep further away.
    const auto room = [&](const CurveContent::Point& p) {
        const double limit = plot_->yAxis->coordToPixel(*content.limit);
        return std::min(std::abs(plot_->yAxis->coordToPixel(p.printed.value) - limit),
                        std::abs(plot_->yAxis->coordToPixel(p.machined.value) - limit));
    };
    const bool atStart = content.points.size() > 1 && room(content.points.front()) > room(content.points.back());
    name->setPositionAlignment((atStart ? Qt::AlignLeft : Qt::AlignRight) |
                               (content.limitIsUpper ? Qt::AlignBottom : Qt::AlignTop));
    name->position->setCoords(atStart ? plot_->xAxis->range().lower : plot_->xAxis->range().upper, *content.limit);
    name->setText(content.limitName);
    name->setFont(textFont(TextSize::small));
    name->setColor(look.palette.fault);
    QColor halo = look.ground;
    halo.setAlphaF(0.85f);
    name->setBrush(halo);
    name->setPadding(QMargins(5, 1, 5, 1));
}

void CurveDrawing::drawCurves(const CurveContent& content, const Look& look) {
    for (int route = 0; route < 2; ++route) {
        QVector<double> x, y, low, high;
        for (const CurveContent::Point& p : content.points) {
            const Figure& f = route == 0 ? p.printed : p.machined;
            x << p.at;
            y << f.value;
            low << (content.logarithmic ? std::max(f.low, plot_->yAxis->range().lower) : f.low);
            high << f.high;
        }
        const QColor ink = route == 0 ? look.palette.printed : look.palette.machined;
        QColor wash = ink;
        wash.setAlphaF(0.15f);
        QCPGraph* lower = plot_->addGraph();
        lower->setData(x, low, true);
        lower->setPen(Qt::NoPen);
        QCPGraph* upper = plot_->addGraph();
        upper->setData(x, high, true);
        upper->setPen(Qt::NoPen);
        upper->setBrush(wash);
        upper->setChannelFillGraph(lower);
        QCPGraph* curve = plot_->addGraph();
        curve->setData(x, y, true);
        curve->setPen(QPen(ink, 2.4, route == 0 ? Qt::SolidLine : Qt::DashLine));
        curve->setScatterStyle(
            route == 0 ? QCPScatterStyle(QCPScatterStyle::ssDisc, ink, 6)
                       : QCPScatterStyle(QCPScatterStyle::ssSquare, QPen(ink, 1.6), QBrush(look.ground), 6.5));
        curve_[route] = curve;
    }
}

void CurveDrawing::nameCurves(const CurveContent& content, const Look& look) {
    const CurveContent::Point& last = content.points.back();
    double pixel[2] = {plot_->yAxis->coordToPixel(last.printed.value), plot_->yAxis->coordToPixel(last.machined.value)};
    // Names at the ends must not lie on each other.
    const double apart = QFontMetricsF(textFont(TextSize::body)).height();
    if (std::abs(pixel[0] - pixel[1]) < apart) {
        const double middle = (pixel[0] + pixel[1]) / 2, up = pixel[0] <= pixel[1] ? -1 : 1;
        pixel[0] = middle + up * apart / 2;
        pixel[1] = middle - up * apart / 2;
    }
    for (int route = 0; route < 2; ++route) {
        auto* name = new QCPItemText(plot_);
        name->setClipToAxisRect(false);
        name->setPositionAlignment(Qt::AlignLeft | Qt::AlignVCenter);
        name->position->setType(QCPItemPosition::ptPlotCoords);
        name->position->setCoords(last.at, plot_->yAxis->pixelToCoord(pixel[route]));
        name->setText(route == 0 ? CurvePlot::tr("printed") : CurvePlot::tr("machined"));
        name->setFont(textFont(TextSize::body, QFont::DemiBold));
        name->setColor(route == 0 ? look.palette.printedText : look.palette.machinedText);
        name->setPadding(QMargins(14, 0, 0, 0));
    }
}

void CurveDrawing::drawCrossings(const CurveContent& content, const Look& look) {
    for (const CurveContent::Mark& m : content.crossings) {
        auto* span = new QCPItemLine(plot_);
        const double floor = plot_->yAxis->range().lower;
        span->start->setCoords(std::max(m.low, content.from), floor);
        span->end->setCoords(std::min(m.high, content.to), floor);
        span->setPen(QPen(look.palette.text, 5, Qt::SolidLine, Qt::FlatCap));
        auto* drop = new QCPItemLine(plot_);
        drop->start->setCoords(m.at, floor);
        drop->end->setCoords(m.at, m.height);
        drop->setPen(QPen(look.palette.text, 1, Qt::DotLine));
        auto* ring = new QCPItemText(plot_);
        ring->setPositionAlignment(Qt::AlignCenter);
        ring->position->setCoords(m.at, m.height);
        ring->setText(m.letter);
        ring->setFont(textFont(TextSize::small, QFont::Bold));
        ring->setColor(look.palette.text);
        ring->setBrush(look.ground);
        ring->setPen(QPen(look.palette.text, 1));
        ring->setPadding(QMargins(4, 1, 4, 1));
    }
}

void CurveDrawing::drawCursor(const CurveContent& content, const Look& look) {
    if (content.startedAt) {
        auto* ghost = new QCPItemStraightLine(plot_);
        ghost->point1->setCoords(*content.startedAt, plot_->yAxis->range().lower);
        ghost->point2->setCoords(*content.startedAt, plot_->yAxis->range().upper);
        ghost->setPen(QPen(look.palette.mark, 1, Qt::DotLine));
    }
    cursor_ = new QCPItemStraightLine(plot_);
    cursor_->setPen(QPen(look.palette.accent, look.hasFocus && !look.forPaper ? 2.6 : 1.6));
    cursorText_ = new QCPItemText(plot_);
    cursorText_->setClipToAxisRect(false);
    cursorText_->setPositionAlignment(Qt::AlignHCenter | Qt::AlignBottom);
    cursorText_->setFont(textFont(TextSize::small, QFont::DemiBold));
    cursorText_->setColor(look.palette.accentText);
    cursorText_->setBrush(look.palette.accent);
    cursorText_->setPadding(QMargins(6, 2, 6, 2));
    for (int route = 0; route < 2; ++route) {
        cursorOn_[route] = nullptr;
        if (content.points.size() < 2) continue;
        auto* tracer = new QCPItemTracer(plot_);
        tracer->setGraph(curve_[route]);
        tracer->setInterpolating(true);
        tracer->setStyle(route == 0 ? QCPItemTracer::tsCircle : QCPItemTracer::tsSquare);
        tracer->setSize(11);
        tracer->setPen(QPen(look.palette.accent, 2));
        tracer->setBrush(Qt::NoBrush);
        cursorOn_[route] = tracer;
    }
}

void CurveDrawing::setCursor(double at, const QString& unit) {
    if (!cursor_) return;
    const QCPRange y = plot_->yAxis->range();
    cursor_->point1->setCoords(at, y.lower);
    cursor_->point2->setCoords(at, y.upper);
    cursorText_->position->setCoords(at, y.upper);
    cursorText_->setText(shownNumber(std::round(at * 1000) / 1000) +
                         (unit.isEmpty() ? QString() : QChar(0x202f) + unit));
    for (QCPItemTracer* tracer : cursorOn_)
        if (tracer) tracer->setGraphKey(at);
    plot_->replot(QCustomPlot::rpQueuedReplot);
}

}  // namespace waybench
