#include "app/whatif/curve_plot.h"

#include <qcustomplot.h>

#include <algorithm>

#include "app/style/theme.h"
#include "app/whatif/curve_drawing.h"
#include "app/whatif/curve_words.h"

namespace waybench {

namespace {
/// Longer than the pause before a held key repeats: a held key is one move.
constexpr int kKeysRest_ms = 800;
}  // namespace

CurvePlot::CurvePlot(QWidget* parent) : QWidget(parent), drawing_(std::make_unique<CurveDrawing>(this)) {
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(2, 2, 2, 2);
    drawing_->plot()->installEventFilter(this);
    column->addWidget(drawing_->plot());
    setFocusPolicy(Qt::StrongFocus);
    setAccessibleName(tr("What-if curves"));
    setMinimumSize(space(70), space(50));
    keysRest_.setSingleShot(true);
    keysRest_.setInterval(kKeysRest_ms);
    connect(&keysRest_, &QTimer::timeout, this, &CurvePlot::settled);
    connect(&Theme::instance(), &Theme::changed, this, [this] { draw(false); });
}

CurvePlot::~CurvePlot() = default;

void CurvePlot::show(const CurveContent& content) {
    content_ = content;
    setAccessibleDescription(inWords(content));
    draw(false);
}

double CurvePlot::pixelOf(double at) const {
    return drawing_->plot()->x() + drawing_->plot()->xAxis->coordToPixel(at);
}

void CurvePlot::draw(bool forPaper) {
    drawing_->draw(content_, forPaper, hasFocus());
}

void CurvePlot::setCursorValue(double at) {
    content_.cursor = at;
    drawing_->setCursor(at, content_.unitX);
}

bool CurvePlot::eventFilter(QObject* watched, QEvent* event) {
    if (watched != drawing_->plot()) return QWidget::eventFilter(watched, event);
    const auto valueAt = [&](const QMouseEvent* mouse) {
        return std::clamp(drawing_->plot()->xAxis->pixelToCoord(mouse->position().x()), content_.from, content_.to);
    };
    if (event->type() == QEvent::MouseButtonPress && static_cast<QMouseEvent*>(event)->button() == Qt::LeftButton) {
        endKeys();
        setFocus(Qt::MouseFocusReason);
        dragging_ = true;
        content_.startedAt = content_.cursor;
        draw(false);
        Q_EMIT cursorDragged(valueAt(static_cast<QMouseEvent*>(event)));
        return true;
    }
    if (event->type() == QEvent::MouseMove && dragging_) {
        Q_EMIT cursorDragged(valueAt(static_cast<QMouseEvent*>(event)));
        return true;
    }
    if (event->type() == QEvent::MouseButtonRelease && dragging_) {
        dragging_ = false;
        content_.startedAt.reset();
        Q_EMIT cursorDragged(valueAt(static_cast<QMouseEvent*>(event)));
        Q_EMIT settled();
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
    Q_EMIT cursorDragged(std::clamp(next, content_.from, content_.to));
    keysRest_.start();
}

void CurvePlot::endKeys() {
    if (!keysRest_.isActive()) return;
    keysRest_.stop();
    Q_EMIT settled();
}

void CurvePlot::focusInEvent(QFocusEvent* event) {
    QWidget::focusInEvent(event);
    draw(false);
    update();
}
void CurvePlot::focusOutEvent(QFocusEvent* event) {
    QWidget::focusOutEvent(event);
    endKeys();
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

}  // namespace waybench
