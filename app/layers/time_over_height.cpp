#include "app/layers/time_over_height.h"

#include <QHelpEvent>
#include <QMouseEvent>
#include <QPainter>
#include <QToolTip>
#include <algorithm>
#include <cmath>

#include "app/layers/layer_keys.h"
#include "app/style/shown_figure.h"
#include "app/style/theme.h"

namespace waybench {

namespace {

constexpr double kHatchedFrom_px = 6;  // a hatch in a thinner strip is noise

/// 1, 2 or 5 times a power of ten, at least what is asked.
double roundStep(double atLeast) {
    const double power = std::pow(10, std::floor(std::log10(std::max(1e-9, atLeast))));
    for (const double factor : {1.0, 2.0, 5.0})
        if (factor * power >= atLeast * (1 - 1e-9)) return factor * power;
    return 10 * power;
}

}  // namespace

TimeOverHeight::TimeOverHeight(QWidget* parent) : QWidget(parent) {
    setFocusPolicy(Qt::StrongFocus);
    setAttribute(Qt::WA_OpaquePaintEvent);
    setAccessibleName(tr("Time over height"));
    setMinimumSize(space(48), space(28));
    connect(&Theme::instance(), &Theme::changed, this, [this] {
        shares_ = {};
        update();
    });
}

void TimeOverHeight::show(std::shared_ptr<const printed::LayerView> view, std::shared_ptr<const TimesOfLayers> times) {
    view_ = std::move(view);
    times_ = std::move(times);
    double longest = 0;
    if (times_)
        for (const printed::LayerTime& time : times_->layers)
            longest = std::max(longest, time.total_s());
    most_s_ = longest > 0 ? longest * 1.03 : 1;
    shares_ = {};
    setLayer(layer_);
}

void TimeOverHeight::setLayer(std::size_t k) {
    layer_ = k;
    setAccessibleDescription(wordsOf(k));
    update();
}

QRectF TimeOverHeight::plot() const {
    const QFontMetricsF metrics(textFont(TextSize::small));
    const double left = metrics.horizontalAdvance(QStringLiteral("0000")) + space(3);
    return QRectF(rect()).adjusted(left, metrics.height() + space(3), -space(4), -(metrics.height() + space(2)));
}

double TimeOverHeight::xOf(double height_mm) const {
    const QRectF box = plot();
    return box.left() + box.width() * height_mm / std::max(1e-9, view_->size_mm().z());
}

QPoint TimeOverHeight::placeOf(std::size_t k) const {
    if (!view_) return {};
    const printed::Layer& place = view_->placeOf(k);
    return QPointF(xOf(place.bottom_mm + place.height_mm / 2), plot().bottom() - space(2)).toPoint();
}

std::size_t TimeOverHeight::layerAt(double x) const {
    const QRectF box = plot();
    const double height = (x - box.left()) / box.width() * view_->size_mm().z();
    std::size_t low = 0, high = view_->layerCount();
    while (low + 1 < high) {
        const std::size_t middle = (low + high) / 2;
        (view_->placeOf(middle).bottom_mm <= height ? low : high) = middle;
    }
    return low;
}

void TimeOverHeight::drawShares() {
    const double ratio = devicePixelRatioF();
    const QRectF box = plot();
    shares_ = QPixmap((QSizeF(size()) * ratio).toSize());
    shares_.setDevicePixelRatio(ratio);
    shares_.fill(colours().sheet);
    if (!times_ || !view_ || box.width() < 4) return;
    QPainter painter(&shares_);
    // one column of device pixels at a time: the mean of the layers in it, shares on top of each other
    const int columns = int(std::ceil(box.width() * ratio));
    std::array<QPolygonF, kTimeShares> lower, upper;
    std::array<double, kTimeShares> thickest{};
    std::size_t from = 0;
    for (int column = 0; column < columns; ++column) {
        const double end = (column + 1) / double(columns) * view_->size_mm().z() * (1 + 1e-9);
        const auto topOf = [&](std::size_t k) { return view_->placeOf(k).bottom_mm + view_->placeOf(k).height_mm; };
        std::size_t to = from;
        while (to + 1 < view_->layerCount() && topOf(to) < end)
            ++to;
        const double near = box.left() + column / ratio, far = box.left() + (column + 1) / ratio;
        double y = box.bottom();
        for (std::size_t s = 0; s < kTimeShares; ++s) {
            double sum = 0;
            for (std::size_t k = from; k <= to; ++k)
                sum += secondsOf(times_->layers[k], TimeShare(s));
            const double thickness = sum / double(to - from + 1) / most_s_ * box.height();
            thickest[s] = std::max(thickest[s], thickness);
            lower[s] << QPointF(near, y) << QPointF(far, y);
            y -= thickness;
            upper[s] << QPointF(near, y) << QPointF(far, y);
        }
        from = to + 1 < view_->layerCount() && topOf(to) <= end ? to + 1 : to;
    }
    for (std::size_t s = 0; s < kTimeShares; ++s) {
        if (thickest[s] <= 0) continue;
        std::reverse(upper[s].begin(), upper[s].end());
        paintShare(painter, lower[s] + upper[s], TimeShare(s), colours(), thickest[s] < kHatchedFrom_px);
    }
}

void TimeOverHeight::drawAxes(QPainter& painter) const {
    const QRectF box = plot();
    const QFontMetricsF metrics(textFont(TextSize::small));
    painter.setFont(textFont(TextSize::small));
    painter.setPen(colours().muted);
    painter.drawText(QRectF(space(2), space(1), width() / 2.0, metrics.height()), Qt::AlignLeft | Qt::AlignVCenter,
                     tr("s per layer"));
    const QString across = tr("height, mm");
    const double acrossFrom = box.right() - metrics.horizontalAdvance(across) + space(3);
    const double belowAxis = box.bottom() + space(1);
    painter.drawText(QPointF(acrossFrom, belowAxis + metrics.ascent()), across);
    painter.setPen(QPen(colours().mark, 1));
    painter.drawLine(box.bottomLeft(), box.topLeft());
    painter.drawLine(box.bottomLeft(), box.bottomRight());
    if (!view_) return;
    const double wide = metrics.horizontalAdvance(QStringLiteral("0000.0"));
    const double tall = view_->size_mm().z();
    const double step = roundStep(tall * wide * 1.6 / std::max(1.0, box.width()));
    for (int i = 0; i * step <= tall * (1 + 1e-9); ++i) {
        const double x = xOf(i * step);
        painter.setPen(QPen(colours().mark, 1));
        painter.drawLine(QPointF(x, box.bottom()), QPointF(x, box.bottom() + 3));
        if (x + wide / 2 > acrossFrom) continue;
        painter.setPen(colours().muted);
        painter.drawText(QRectF(x - wide, belowAxis, 2 * wide, metrics.height()), Qt::AlignCenter,
                         shownNumber(std::round(i * step * 1e6) / 1e6));
    }
    if (!times_) return;
    const double second = roundStep(most_s_ * metrics.height() * 1.6 / std::max(1.0, box.height()));
    for (int i = 0; i * second <= most_s_; ++i) {
        const double y = box.bottom() - i * second / most_s_ * box.height();
        painter.setPen(QPen(colours().mark, 1));
        painter.drawLine(QPointF(box.left() - 3, y), QPointF(box.left(), y));
        painter.setPen(colours().muted);
        painter.drawText(QRectF(0, y - metrics.height() / 2, box.left() - space(2), metrics.height()),
                         Qt::AlignRight | Qt::AlignVCenter, shownNumber(std::round(i * second * 1e6) / 1e6));
    }
}

void TimeOverHeight::drawMark(QPainter& painter) const {
    if (!view_ || layer_ >= view_->layerCount()) return;
    const QRectF box = plot();
    const printed::Layer& place = view_->placeOf(layer_);
    const double x = xOf(place.bottom_mm + place.height_mm);
    painter.setRenderHint(QPainter::Antialiasing);
    painter.setPen(QPen(colours().sheet, 3.5));
    painter.drawLine(QPointF(x, box.top()), QPointF(x, box.bottom() - 1));
    painter.setPen(QPen(colours().highlight, 2));
    painter.drawLine(QPointF(x, box.top()), QPointF(x, box.bottom()));
    const double side = space(2);
    painter.setPen(QPen(colours().text, 1));
    painter.setBrush(colours().highlight);
    painter.drawPolygon(
        QPolygonF({{x, box.top()}, {x - side * 0.7, box.top() - side}, {x + side * 0.7, box.top() - side}}));
    painter.setBrush(Qt::NoBrush);
}

void TimeOverHeight::paintEvent(QPaintEvent*) {
    if (shares_.isNull()) drawShares();
    QPainter painter(this);
    painter.drawPixmap(0, 0, shares_);
    drawAxes(painter);
    drawMark(painter);
    painter.setRenderHint(QPainter::Antialiasing, false);
    painter.setPen(QPen(hasFocus() ? colours().accent : colours().rule, hasFocus() ? 2 : 1));
    painter.drawRect(hasFocus() ? rect().adjusted(1, 1, -1, -1) : rect().adjusted(0, 0, -1, -1));
}

void TimeOverHeight::resizeEvent(QResizeEvent*) {
    shares_ = {};
}

void TimeOverHeight::mousePressEvent(QMouseEvent* event) {
    if (view_ && event->button() == Qt::LeftButton) Q_EMIT layerAsked(int(layerAt(event->position().x())));
}

void TimeOverHeight::mouseMoveEvent(QMouseEvent* event) {
    if (view_ && event->buttons() & Qt::LeftButton) Q_EMIT layerAsked(int(layerAt(event->position().x())));
}

void TimeOverHeight::keyPressEvent(QKeyEvent* event) {
    if (const auto step = layerStepOf(*event))
        Q_EMIT stepAsked(*step);
    else if (event->key() == Qt::Key_Home || event->key() == Qt::Key_End)
        Q_EMIT endAsked(event->key() == Qt::Key_End);
    else
        QWidget::keyPressEvent(event);
}

QString TimeOverHeight::wordsOf(std::size_t k) const {
    if (!view_ || k >= view_->layerCount()) return {};
    const printed::Layer& place = view_->placeOf(k);
    QString words =
        tr("Layer %1, top at %2").arg(k + 1).arg(shownBriefly(place.bottom_mm + place.height_mm, Unit::millimetre));
    if (!times_ || k >= times_->layers.size()) return words;
    words += QStringLiteral(": ") + shownBriefly(times_->layers[k].total_s(), Unit::second);
    for (std::size_t s = 0; s < kTimeShares; ++s)
        if (const double seconds = secondsOf(times_->layers[k], TimeShare(s)); seconds > 0)
            words +=
                QStringLiteral("\n") + wordOf(TimeShare(s)) + QLatin1Char(' ') + shownBriefly(seconds, Unit::second);
    return words;
}

bool TimeOverHeight::event(QEvent* event) {
    if (event->type() == QEvent::ToolTip && view_) {
        const auto* help = static_cast<QHelpEvent*>(event);
        QToolTip::showText(help->globalPos(), wordsOf(layerAt(help->pos().x())), this);
        return true;
    }
    return QWidget::event(event);
}

}  // namespace waybench
