#include "app/whatif/curve_plot.h"

#include <qcustomplot.h>

#include <QFileInfo>
#include <QSvgGenerator>
#include <algorithm>
#include <cmath>

#include "app/style/shown_figure.h"
#include "app/style/theme.h"
#include "app/whatif/curve_words.h"

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

struct CurvePlot::Drawing {
    QCustomPlot* plot = nullptr;
    QCPItemStraightLine* cursor = nullptr;
    QCPItemText* cursorText = nullptr;
    QCPItemTracer* cursorOn[2] = {nullptr, nullptr};
    QCPGraph* curve[2] = {nullptr, nullptr};
};

CurvePlot::CurvePlot(QWidget* parent) : QWidget(parent), drawing_(std::make_unique<Drawing>()) {
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(2, 2, 2, 2);
    drawing_->plot = new QCustomPlot(this);
    drawing_->plot->setFocusPolicy(Qt::NoFocus);
    drawing_->plot->setNoAntialiasingOnDrag(false);
    drawing_->plot->installEventFilter(this);
    column->addWidget(drawing_->plot);
    setFocusPolicy(Qt::StrongFocus);
    setAccessibleName(tr("What-if curves"));
    setMinimumSize(space(70), space(50));
    connect(&Theme::instance(), &Theme::changed, this, [this] { draw(false); });
}

CurvePlot::~CurvePlot() = default;

void CurvePlot::show(const CurveContent& content) {
    content_ = content;
    setAccessibleDescription(inWords(content));
    draw(false);
}

double CurvePlot::pixelOf(double at) const {
    return drawing_->plot->x() + drawing_->plot->xAxis->coordToPixel(at);
}

void CurvePlot::draw(bool forPaper) {
    const Palette& c = forPaper ? lightPalette() : colours();
    const QColor ground = forPaper ? QColor(Qt::white) : c.sheet;
    QCustomPlot* plot = drawing_->plot;
    plot->clearItems();
    plot->clearGraphs();
    plot->setBackground(ground);
    plot->axisRect()->setupFullAxesBox(false);
    plot->axisRect()->setAutoMargins(QCP::msLeft | QCP::msBottom);
    plot->axisRect()->setMargins(QMargins(0, space(8), kEndLabel_px, 0));
    plot->axisRect()->setMinimumMargins(QMargins(space(4), space(8), kEndLabel_px, space(4)));
    const QFont body = textFont(TextSize::body), small = textFont(TextSize::small);
    const auto dress = [&](QCPAxis* axis, const QString& label) {
        axis->setLabel(label);
        axis->setLabelFont(body);
        axis->setTickLabelFont(small);
        axis->setLabelColor(c.text);
        axis->setTickLabelColor(c.muted);
        axis->setBasePen(QPen(c.mark, 1));
        axis->setTickPen(QPen(c.mark, 1));
        axis->setSubTickPen(QPen(c.rule, 1));
        axis->grid()->setPen(QPen(c.rule, 0.8));
        axis->grid()->setZeroLinePen(QPen(c.mark, 1));
        axis->setTickLengthIn(0);
        axis->setTickLengthOut(4);
        axis->setSubTickLengthIn(0);
    };
    plot->xAxis2->setVisible(false);
    plot->yAxis2->setVisible(false);
    dress(plot->xAxis, content_.axisX);
    dress(plot->yAxis, content_.logarithmic ? tr("%1, log scale").arg(content_.axisY) : content_.axisY);
    plot->xAxis->grid()->setVisible(false);

    Ends ends;
    for (const CurveContent::Point& p : content_.points)
        for (const Figure* f : {&p.printed, &p.machined}) {
            ends.include(content_.logarithmic && f->low <= 0 ? f->value : f->low);
            ends.include(f->high);
        }
    if (content_.limit) ends.include(*content_.limit);
    if (ends.high < ends.low) ends = {0, 1};
    if (content_.logarithmic && ends.high > 0) {
        const double least = std::max(ends.low, ends.high * 1e-6);
        plot->yAxis->setScaleType(QCPAxis::stLogarithmic);
        plot->yAxis->setTicker(QSharedPointer<QCPAxisTickerLog>::create());
        plot->yAxis->setNumberFormat(QStringLiteral("g"));
        plot->yAxis->setNumberPrecision(3);
        plot->yAxis->setRange(least / 1.3, ends.high * 1.3);
    } else {
        plot->yAxis->setScaleType(QCPAxis::stLinear);
        plot->yAxis->setTicker(QSharedPointer<QCPAxisTicker>::create());
        plot->yAxis->setNumberFormat(QStringLiteral("g"));
        plot->yAxis->setNumberPrecision(4);
        plot->yAxis->setRange(std::min(0.0, ends.low * 1.05), ends.high > 0 ? ends.high * 1.08 : 1);
    }
    const double margin = (content_.to - content_.from) * 0.02;
    plot->xAxis->setRange(content_.from - margin, content_.to + margin);

    if (content_.limit) {
        auto* failing = new QCPItemRect(plot);
        failing->setClipToAxisRect(true);
        const QCPRange y = plot->yAxis->range();
        // A hatched border on the failing side, wide enough to be seen and no wider, so that curves stay clear.
        const double border = 0.055;
        double edge = *content_.limit + (content_.limitIsUpper ? 1 : -1) * border * y.size();
        if (content_.logarithmic)
            edge = *content_.limit * std::pow(y.upper / y.lower, content_.limitIsUpper ? border : -border);
        failing->topLeft->setCoords(plot->xAxis->range().lower, std::max(edge, *content_.limit));
        failing->bottomRight->setCoords(plot->xAxis->range().upper, std::min(edge, *content_.limit));
        QColor hatch = c.fault;
        hatch.setAlphaF(0.5f);
        failing->setBrush(QBrush(hatch, Qt::BDiagPattern));
        failing->setPen(Qt::NoPen);
        auto* line = new QCPItemStraightLine(plot);
        line->point1->setCoords(content_.from, *content_.limit);
        line->point2->setCoords(content_.to, *content_.limit);
        line->setPen(QPen(c.fault, 1.6));
        auto* name = new QCPItemText(plot);
        // The name stands at the end where the curves keep further away.
        const auto room = [&](const CurveContent::Point& p) {
            const double limit = plot->yAxis->coordToPixel(*content_.limit);
            return std::min(std::abs(plot->yAxis->coordToPixel(p.printed.value) - limit),
                            std::abs(plot->yAxis->coordToPixel(p.machined.value) - limit));
        };
        const bool atStart = content_.points.size() > 1 && room(content_.points.front()) > room(content_.points.back());
        name->setPositionAlignment((atStart ? Qt::AlignLeft : Qt::AlignRight) |
                                   (content_.limitIsUpper ? Qt::AlignBottom : Qt::AlignTop));
        name->position->setCoords(atStart ? plot->xAxis->range().lower : plot->xAxis->range().upper, *content_.limit);
        name->setText(content_.limitName);
        name->setFont(small);
        name->setColor(c.fault);
        QColor halo = ground;
        halo.setAlphaF(0.85f);
        name->setBrush(halo);
        name->setPadding(QMargins(5, 1, 5, 1));
    }

    for (int route = 0; route < 2; ++route) {
        QVector<double> x, y, low, high;
        for (const CurveContent::Point& p : content_.points) {
            const Figure& f = route == 0 ? p.printed : p.machined;
            x << p.at;
            y << f.value;
            low << (content_.logarithmic ? std::max(f.low, plot->yAxis->range().lower) : f.low);
            high << f.high;
        }
        const QColor ink = route == 0 ? c.printed : c.machined;
        QColor wash = ink;
        wash.setAlphaF(0.15f);
        QCPGraph* lower = plot->addGraph();
        lower->setData(x, low, true);
        lower->setPen(Qt::NoPen);
        QCPGraph* upper = plot->addGraph();
        upper->setData(x, high, true);
        upper->setPen(Qt::NoPen);
        upper->setBrush(wash);
        upper->setChannelFillGraph(lower);
        QCPGraph* curve = plot->addGraph();
        curve->setData(x, y, true);
        curve->setPen(QPen(ink, 2.4, route == 0 ? Qt::SolidLine : Qt::DashLine));
        curve->setScatterStyle(route == 0
                                   ? QCPScatterStyle(QCPScatterStyle::ssDisc, ink, 6)
                                   : QCPScatterStyle(QCPScatterStyle::ssSquare, QPen(ink, 1.6), QBrush(ground), 6.5));
        drawing_->curve[route] = curve;
    }

    if (!content_.points.empty()) {
        const CurveContent::Point& last = content_.points.back();
        double pixel[2] = {plot->yAxis->coordToPixel(last.printed.value),
                           plot->yAxis->coordToPixel(last.machined.value)};
        // Names at the ends must not lie on each other.
        const double apart = QFontMetricsF(body).height();
        if (std::abs(pixel[0] - pixel[1]) < apart) {
            const double middle = (pixel[0] + pixel[1]) / 2, up = pixel[0] <= pixel[1] ? -1 : 1;
            pixel[0] = middle + up * apart / 2;
            pixel[1] = middle - up * apart / 2;
        }
        for (int route = 0; route < 2; ++route) {
            auto* name = new QCPItemText(plot);
            name->setClipToAxisRect(false);
            name->setPositionAlignment(Qt::AlignLeft | Qt::AlignVCenter);
            name->position->setType(QCPItemPosition::ptPlotCoords);
            name->position->setCoords(last.at, plot->yAxis->pixelToCoord(pixel[route]));
            name->setText(route == 0 ? tr("printed") : tr("machined"));
            name->setFont(textFont(TextSize::body, QFont::DemiBold));
            name->setColor(route == 0 ? c.printedText : c.machinedText);
            name->setPadding(QMargins(14, 0, 0, 0));
        }
    }

    for (const CurveContent::Mark& m : content_.crossings) {
        auto* span = new QCPItemLine(plot);
        const double floor = plot->yAxis->range().lower;
        span->start->setCoords(std::max(m.low, content_.from), floor);
        span->end->setCoords(std::min(m.high, content_.to), floor);
        span->setPen(QPen(c.text, 5, Qt::SolidLine, Qt::FlatCap));
        auto* drop = new QCPItemLine(plot);
        drop->start->setCoords(m.at, floor);
        drop->end->setCoords(m.at, m.height);
        drop->setPen(QPen(c.text, 1, Qt::DotLine));
        auto* ring = new QCPItemText(plot);
        ring->setPositionAlignment(Qt::AlignCenter);
        ring->position->setCoords(m.at, m.height);
        ring->setText(m.letter);
        ring->setFont(textFont(TextSize::small, QFont::Bold));
        ring->setColor(c.text);
        ring->setBrush(ground);
        ring->setPen(QPen(c.text, 1));
        ring->setPadding(QMargins(4, 1, 4, 1));
    }

    if (content_.startedAt) {
        auto* ghost = new QCPItemStraightLine(plot);
        ghost->point1->setCoords(*content_.startedAt, plot->yAxis->range().lower);
        ghost->point2->setCoords(*content_.startedAt, plot->yAxis->range().upper);
        ghost->setPen(QPen(c.mark, 1, Qt::DotLine));
    }
    drawing_->cursor = new QCPItemStraightLine(plot);
    drawing_->cursor->setPen(QPen(c.accent, hasFocus() && !forPaper ? 2.6 : 1.6));
    drawing_->cursorText = new QCPItemText(plot);
    drawing_->cursorText->setClipToAxisRect(false);
    drawing_->cursorText->setPositionAlignment(Qt::AlignHCenter | Qt::AlignBottom);
    drawing_->cursorText->setFont(textFont(TextSize::small, QFont::DemiBold));
    drawing_->cursorText->setColor(c.accentText);
    drawing_->cursorText->setBrush(c.accent);
    drawing_->cursorText->setPadding(QMargins(6, 2, 6, 2));
    for (int route = 0; route < 2; ++route) {
        drawing_->cursorOn[route] = nullptr;
        if (content_.points.size() < 2) continue;
        auto* tracer = new QCPItemTracer(plot);
        tracer->setGraph(drawing_->curve[route]);
        tracer->setInterpolating(true);
        tracer->setStyle(route == 0 ? QCPItemTracer::tsCircle : QCPItemTracer::tsSquare);
        tracer->setSize(11);
        tracer->setPen(QPen(c.accent, 2));
        tracer->setBrush(Qt::NoBrush);
        drawing_->cursorOn[route] = tracer;
    }
    setCursorValue(content_.cursor);
}

void CurvePlot::setCursorValue(double at) {
    content_.cursor = at;
    QCustomPlot* plot = drawing_->plot;
    if (!drawing_->cursor) return;
    const QCPRange y = plot->yAxis->range();
    drawing_->cursor->point1->setCoords(at, y.lower);
    drawing_->cursor->point2->setCoords(at, y.upper);
    drawing_->cursorText->position->setCoords(at, y.upper);
    drawing_->cursorText->setText(shownNumber(std::round(at * 1000) / 1000) +
                                  (content_.unitX.isEmpty() ? QString() : QChar(0x202f) + content_.unitX));
    for (QCPItemTracer* tracer : drawing_->cursorOn)
        if (tracer) tracer->setGraphKey(at);
    plot->replot(QCustomPlot::rpQueuedReplot);
}

bool CurvePlot::eventFilter(QObject* watched, QEvent* event) {
    if (watched != drawing_->plot) return QWidget::eventFilter(watched, event);
    const auto valueAt = [&](const QMouseEvent* mouse) {
        return std::clamp(drawing_->plot->xAxis->pixelToCoord(mouse->position().x()), content_.from, content_.to);
    };
    if (event->type() == QEvent::MouseButtonPress && static_cast<QMouseEvent*>(event)->button() == Qt::LeftButton) {
        setFocus(Qt::MouseFocusReason);
        dragging_ = true;
        content_.startedAt = content_.cursor;
        draw(false);
        Q_EMIT cursorDragged(valueAt(static_cast<QMouseEvent*>(event)), false);
        return true;
    }
    if (event->type() == QEvent::MouseMove && dragging_) {
        Q_EMIT cursorDragged(valueAt(static_cast<QMouseEvent*>(event)), false);
        return true;
    }
    if (event->type() == QEvent::MouseButtonRelease && dragging_) {
        dragging_ = false;
        content_.startedAt.reset();
        Q_EMIT cursorDragged(valueAt(static_cast<QMouseEvent*>(event)), true);
        draw(false);
        return true;
    }
    return QWidget::eventFilter(watched, event);
}

void CurvePlot::keyPressEvent(QKeyEvent* event) {
    const double range = content_.to - content_.from;
    double next = content_.cursor;
    switch (event->key()) {
        case Qt::Key_Left:
            next -= range / 100;
            break;
        case Qt::Key_Right:
            next += range / 100;
            break;
        case Qt::Key_PageDown:
            next -= range / 10;
            break;
        case Qt::Key_PageUp:
            next += range / 10;
            break;
        case Qt::Key_Home:
            next = content_.from;
            break;
        case Qt::Key_End:
            next = content_.to;
            break;
        default:
            QWidget::keyPressEvent(event);
            return;
    }
    Q_EMIT cursorDragged(std::clamp(next, content_.from, content_.to), false);
}

void CurvePlot::focusInEvent(QFocusEvent* event) {
    QWidget::focusInEvent(event);
    draw(false);
    update();
}
void CurvePlot::focusOutEvent(QFocusEvent* event) {
    QWidget::focusOutEvent(event);
    draw(false);
    update();
}

void CurvePlot::paintEvent(QPaintEvent*) {
    QPainter painter(this);
    painter.fillRect(rect(), colours().sheet);
    if (hasFocus()) {
        painter.setPen(QPen(colours().accent, 2));
        painter.drawRect(rect().adjusted(1, 1, -1, -1));
    }
}

bool CurvePlot::exportTo(const QString& file, const QString& source) {
    const QString ending = QFileInfo(file).suffix().toLower();
    if (ending != QLatin1String("svg") && ending != QLatin1String("pdf") && ending != QLatin1String("png"))
        return false;
    QCustomPlot* plot = drawing_->plot;
    plot->plotLayout()->insertRow(0);
    auto* title = new QCPTextElement(plot, content_.title, textFont(TextSize::lead, QFont::DemiBold));
    title->setTextColor(lightPalette().text);
    plot->plotLayout()->addElement(0, 0, title);
    // Names at the curves' ends are laid out in pixels: of the export's size, with its title in place.
    const int width = 900, height = 560;
    const QRect before = plot->viewport();
    plot->setViewport(QRect(0, 0, width, height));
    draw(true);
    plot->replot(QCustomPlot::rpImmediateRefresh);
    draw(true);
    bool done = false;
    if (ending == QLatin1String("pdf")) {
        done = plot->savePdf(file, width, height, QCP::epNoCosmetic,
                             QStringLiteral("Waybench ") + QStringLiteral(WAYBENCH_VERSION),
                             content_.title + QStringLiteral(" · ") + source);
    } else if (ending == QLatin1String("svg")) {
        QSvgGenerator generator;
        generator.setFileName(file);
        generator.setResolution(96);
        generator.setSize(QSize(width, height));
        generator.setViewBox(QRect(0, 0, width, height));
        generator.setTitle(content_.title);
        generator.setDescription(source);
        QCPPainter painter;
        if (painter.begin(&generator)) {
            painter.setMode(QCPPainter::pmVectorized);
            painter.setMode(QCPPainter::pmNoCaching);
            painter.setMode(QCPPainter::pmNonCosmetic);
            plot->toPainter(&painter, width, height);
            done = painter.end();
        }
    } else {
        done = plot->savePng(file, width, height, 300.0 / 96.0, -1, 300);
        QImage image(file);
        if (done && !image.isNull()) {
            image.setText(QStringLiteral("Title"), content_.title);
            image.setText(QStringLiteral("Source"), source);
            done = image.save(file);
        }
    }
    plot->plotLayout()->remove(title);
    plot->plotLayout()->simplify();
    plot->setViewport(before);
    draw(false);
    return done;
}

}  // namespace waybench
