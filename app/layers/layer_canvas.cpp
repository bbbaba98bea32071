#include "app/layers/layer_canvas.h"

#include <QKeyEvent>
#include <QMouseEvent>
#include <QPainter>
#include <QWheelEvent>
#include <algorithm>
#include <cmath>

#include "app/layers/layer_keys.h"
#include "app/style/shown_figure.h"
#include "app/style/theme.h"

namespace waybench {

namespace {
constexpr double kLeastScale = 0.05, kMostScale = 800;  // pixels per millimetre
constexpr double kNotch = 1.2;                          // zoom of one notch of the wheel
}  // namespace

LayerCanvas::LayerCanvas(QWidget* parent) : QWidget(parent) {
    setFocusPolicy(Qt::StrongFocus);
    setAttribute(Qt::WA_OpaquePaintEvent);
    setAccessibleName(tr("Layer from above"));
    setMinimumSize(space(60), space(50));
    setCursor(Qt::OpenHandCursor);
    shown_.fill(true);
    pool_.setMaxThreadCount(2);  // one may still be leaving
    soon_.setSingleShot(true);
    soon_.setInterval(0);
    connect(&soon_, &QTimer::timeout, this, &LayerCanvas::paintAnew);
    connect(&Theme::instance(), &Theme::changed, this, &LayerCanvas::moved);
}

LayerCanvas::~LayerCanvas() {
    stopPainting();
    pool_.waitForDone();
}

void LayerCanvas::stopPainting() {
    painting_.cancel();
    painting_ = Task();
    pool_.clear();
}

void LayerCanvas::setView(std::shared_ptr<const printed::LayerView> view) {
    const bool isOtherSize = !view || !view_ || (view->size_mm() - view_->size_mm()).norm() > 1e-6;
    view_ = std::move(view);
    laid_.reset();
    painted_ = {};
    outline_ = {};
    support_ = {};
    ++wanted_;
    stopPainting();
    if (isOtherSize) isFitted_ = true;
    if (isFitted_) fit();
    update();
}

void LayerCanvas::showLayer(std::size_t k) {
    if (!view_ || k >= view_->layerCount()) return;
    layer_ = k;
    laid_.reset();
    outline_ = outlineOf(view_->sectionOf(k));
    support_ = outlineOf(view_->supportOf(k));
    ++wanted_;
    update();
}

void LayerCanvas::showLaid(std::shared_ptr<const printed::LaidLayer> laid) {
    if (!laid || laid->index != layer_) return;
    laid_ = std::move(laid);
    moved();
}

void LayerCanvas::setShown(const ShareSwitches& shown) {
    shown_ = shown;
    moved();
}

void LayerCanvas::fit() {
    isFitted_ = true;
    if (!view_) return;
    const Vec3& size = view_->size_mm();
    const double edge = space(3), foot = space(10);  // at the foot the scale bar
    const double across = (width() - 2 * edge) / std::max(1.0, size.x()),
                 along = (height() - edge - foot) / std::max(1.0, size.y());
    frame_.scale = std::clamp(std::min(across, along), kLeastScale, kMostScale);
    frame_.centre_mm = QPointF(size.x() / 2, size.y() / 2 - (foot - edge) / 2 / frame_.scale);
    moved();
}

void LayerCanvas::moved() {
    ++wanted_;
    soon_.start();
    update();
}

void LayerCanvas::paintAnew() {
    stopPainting();
    if (!laid_ || size().isEmpty()) return;
    LayerStyle style{colours(), shown_};
    pool_.start([this, number = wanted_, laid = laid_, frame = frame_, extent = size(), ratio = devicePixelRatioF(),
                 style, task = painting_] {
        try {
            Painted painted{paintLayer(*laid, frame, extent, ratio, style, task), frame, laid->index, number};
            QMetaObject::invokeMethod(
                this,
                [this, painted = std::move(painted)]() mutable {
                    if (painted.layer != layer_ || painted.number < painted_.number) return;
                    painted_ = std::move(painted);
                    update();
                },
                Qt::QueuedConnection);
        } catch (const Cancelled&) {
        }
    });
}

void LayerCanvas::paintEvent(QPaintEvent*) {
    QPainter painter(this);
    painter.fillRect(rect(), colours().sheet);
    if (view_) {
        painter.setRenderHint(QPainter::Antialiasing);
        paintSection(painter, outline_, support_, frame_, size(), colours());
        if (!painted_.image.isNull() && painted_.layer == layer_) {
            // while a picture of this frame is on its way the last one stands in, moved and scaled
            const double grown = frame_.scale / painted_.frame.scale;
            const QSizeF extent = painted_.image.deviceIndependentSize() * grown;
            const QPointF centre =
                frame_.toWindow(Vec2(painted_.frame.centre_mm.x(), painted_.frame.centre_mm.y()), QSizeF(size()));
            const QRectF target(centre - QPointF(extent.width(), extent.height()) / 2, extent);
            painter.setRenderHint(QPainter::SmoothPixmapTransform, grown != 1);
            painter.drawImage(target, painted_.image);
        }
        drawScaleBar(painter);
    }
    painter.setRenderHint(QPainter::Antialiasing, false);
    painter.setPen(QPen(hasFocus() ? colours().accent : colours().rule, hasFocus() ? 2 : 1));
    painter.drawRect(hasFocus() ? rect().adjusted(1, 1, -1, -1) : rect().adjusted(0, 0, -1, -1));
}

void LayerCanvas::drawScaleBar(QPainter& painter) const {
    const double most_mm = 0.22 * width() / frame_.scale;
    const double power = std::pow(10, std::floor(std::log10(most_mm)));
    const double length_mm = most_mm >= 5 * power ? 5 * power : most_mm >= 2 * power ? 2 * power : power;
    const double length_px = length_mm * frame_.scale;
    const QString words = shownQuantity(length_mm, Unit::millimetre);
    painter.setFont(textFont(TextSize::small));
    const QFontMetricsF metrics(painter.font());
    const double x = space(3), y = height() - space(3);
    const QRectF ground(x - space(1), y - metrics.height() - space(2),
                        std::max(length_px, metrics.horizontalAdvance(words)) + 2 * space(1),
                        metrics.height() + space(3));
    QColor veil = colours().sheet;
    veil.setAlphaF(0.85F);
    painter.fillRect(ground, veil);
    painter.setPen(QPen(colours().text, 1.5));
    painter.drawLine(QPointF(x, y), QPointF(x + length_px, y));
    for (const double end : {x, x + length_px})
        painter.drawLine(QPointF(end, y - 3), QPointF(end, y + 3));
    painter.drawText(QPointF(x, y - space(1) - metrics.descent()), words);
}

void LayerCanvas::resizeEvent(QResizeEvent*) {
    if (isFitted_)
        fit();
    else
        moved();
}

void LayerCanvas::zoomAbout(const QPointF& pixel, double factor) {
    if (!view_) return;
    const Vec2 kept = frame_.toBed(pixel, size());
    frame_.scale = std::clamp(frame_.scale * factor, kLeastScale, kMostScale);
    const Vec2 now = frame_.toBed(pixel, size());
    frame_.centre_mm += QPointF(kept.x() - now.x(), kept.y() - now.y());
    isFitted_ = false;
    moved();
}

void LayerCanvas::wheelEvent(QWheelEvent* event) {
    zoomAbout(event->position(), std::pow(kNotch, event->angleDelta().y() / 120.0));
    event->accept();
}

void LayerCanvas::mousePressEvent(QMouseEvent* event) {
    if (event->button() != Qt::LeftButton && event->button() != Qt::MiddleButton) return;
    dragging_ = true;
    grabbedAt_ = event->position();
    setCursor(Qt::ClosedHandCursor);
}

void LayerCanvas::mouseMoveEvent(QMouseEvent* event) {
    if (!dragging_ || !view_) return;
    const QPointF by = (event->position() - grabbedAt_) / frame_.scale;
    grabbedAt_ = event->position();
    frame_.centre_mm += QPointF(-by.x(), by.y());
    isFitted_ = false;
    moved();
}

void LayerCanvas::mouseReleaseEvent(QMouseEvent*) {
    dragging_ = false;
    setCursor(Qt::OpenHandCursor);
}

void LayerCanvas::mouseDoubleClickEvent(QMouseEvent* event) {
    if (event->button() == Qt::LeftButton) fit();
}

void LayerCanvas::keyPressEvent(QKeyEvent* event) {
    const QPointF middle(width() / 2.0, height() / 2.0);
    if (const auto step = layerStepOf(*event)) {
        Q_EMIT stepAsked(*step);
    } else if (event->key() == Qt::Key_Home || event->key() == Qt::Key_End) {
        Q_EMIT endAsked(event->key() == Qt::Key_End);
    } else if (event->key() == Qt::Key_0) {
        fit();
    } else if (event->key() == Qt::Key_Plus || event->key() == Qt::Key_Equal) {
        zoomAbout(middle, kNotch);
    } else if (event->key() == Qt::Key_Minus) {
        zoomAbout(middle, 1 / kNotch);
    } else {
        QWidget::keyPressEvent(event);
    }
}

void LayerCanvas::changeEvent(QEvent* event) {
    if (event->type() == QEvent::FontChange) update();
    QWidget::changeEvent(event);
}

}  // namespace waybench
