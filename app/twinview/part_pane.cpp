#include "app/twinview/part_pane.h"

#include <QContextMenuEvent>
#include <QElapsedTimer>
#include <QKeyEvent>
#include <QMouseEvent>
#include <QPainter>
#include <QWheelEvent>
#include <cmath>

#include "app/style/route_mark.h"
#include "app/style/shown_figure.h"
#include "app/style/theme.h"
#include "app/twinview/load_symbols.h"

namespace waybench {

namespace {
constexpr int kSettle_ms = 180;
constexpr double kQuickBudget_ms = 40;  // beyond this, moving pictures are painted at half size

SymbolStyle symbolStyle() {
    SymbolStyle style;
    if (Theme::instance().isDark()) {
        style.load = QColor(0xe3, 0xa8, 0xdb);
        style.hold = QColor(0xb4, 0xd6, 0xc6);
        style.measure = QColor(0xf0, 0xee, 0xe8);
        style.halo = QColor(20, 24, 27, 205);
    }
    style.size_px = space(8);
    return style;
}
}  // namespace

PartPane::PartPane(RouteKind route, std::shared_ptr<Camera> camera, QWidget* parent)
    : QWidget(parent), route_(route), camera_(std::move(camera)) {
    setFocusPolicy(Qt::StrongFocus);
    setMouseTracking(true);
    setAttribute(Qt::WA_OpaquePaintEvent);
    setAccessibleName(route == RouteKind::printed ? tr("Part, printed") : tr("Part, machined"));
    pool_.setMaxThreadCount(1);
    settle_.setSingleShot(true);
    settle_.setInterval(kSettle_ms);
    connect(&settle_, &QTimer::timeout, this, &PartPane::paintFine);
    connect(&Theme::instance(), &Theme::changed, this, &PartPane::paintFine);
}

PartPane::~PartPane() {
    pool_.clear();
    pool_.waitForDone();
}

void PartPane::showScene(PaneScene scene) {
    if (!scene.solid || (scene_.solid && scene.solid->solid->faces.size() != scene_.solid->solid->faces.size()))
        picked_ = -1;
    scene_ = std::move(scene);
    paintFine();
}

void PartPane::showLoadCase(const LoadCase& loadCase) {
    scene_.loadCase = loadCase;
    update();
}

void PartPane::setCaption(const QString& recipe, const QString& obstacle) {
    recipe_ = recipe;
    obstacle_ = obstacle;
    setAccessibleDescription(obstacle.isEmpty() ? recipe : recipe + QStringLiteral(". ") + obstacle);
    setToolTip(recipe);
    update();
}

void PartPane::setStale(bool stale) {
    if (stale_ == stale) return;
    stale_ = stale;
    update();
}

void PartPane::cameraMoved(bool moving) {
    if (moving)
        paintQuickly();
    else
        paintFine();
}

PaintStyle PartPane::styleOf(const PaneScene& scene, int supersampling) const {
    const Palette& c = colours();
    PaintStyle style;
    style.ground = c.sheet;
    style.body = c.body;
    style.edge = c.edge;
    style.highlight = c.highlight;
    if (scene.deforms()) {
        style.displacement = scene.outcome->structure->displacement_mm;
        style.displacementScale = scene.displacementScale;
    }
    if (scene.field && scene.solid && scene.field->size() == scene.solid->solid->mesh.vertices.size()) {
        style.field = *scene.field;
        style.fieldMaximum = scene.fieldMaximum;
    }
    if (picked_ >= 0) style.highlightedFaces = {picked_};
    style.supersampling = supersampling;
    return style;
}

void PartPane::paintQuickly() {
    settle_.start();
    if (!scene_.solid || size().isEmpty()) return;
    QElapsedTimer clock;
    clock.start();
    ++wanted_;  // a fine picture on its way is of an older view
    const double ratio = lastCost_ms_ > kQuickBudget_ms ? 0.5 : 1.0;
    painted_ = MeshPainter::paint(scene_.solid->paintable, *camera_, size(), ratio, styleOf(scene_, 1));
    paintedCamera_ = *camera_;
    lastCost_ms_ = double(clock.nsecsElapsed()) / 1e6 / (ratio * ratio);
    update();
}

void PartPane::paintFine() {
    settle_.stop();
    const quint64 wanted = ++wanted_;
    if (!scene_.solid || size().isEmpty()) {
        painted_ = {};
        update();
        return;
    }
    pool_.clear();
    pool_.start([this, wanted, scene = scene_, camera = *camera_, extent = size(), ratio = devicePixelRatioF(),
                 style = styleOf(scene_, 2)] {
        PaintedMesh painted = MeshPainter::paint(scene.solid->paintable, camera, extent, ratio, style);
        QMetaObject::invokeMethod(
            this,
            [this, wanted, camera, painted = std::move(painted)]() mutable {
                if (wanted != wanted_) return;
                painted_ = std::move(painted);
                paintedCamera_ = camera;
                update();
            },
            Qt::QueuedConnection);
    });
}

void PartPane::paintEvent(QPaintEvent*) {
    const Palette& c = colours();
    QPainter painter(this);
    painter.fillRect(rect(), c.sheet);
    if (!painted_.image.isNull()) {
        painter.setRenderHint(QPainter::SmoothPixmapTransform);
        painter.drawImage(rect(), painted_.image);
        painter.setRenderHint(QPainter::Antialiasing);
        painter.setFont(textFont(TextSize::small));
        std::span<const Vec3> displacement;
        if (scene_.deforms()) displacement = scene_.outcome->structure->displacement_mm;
        paintLoadSymbols(painter, paintedCamera_, size(), *scene_.solid->solid, scene_.loadCase, symbolStyle(),
                         displacement, scene_.displacementScale);
    }
    paintCaption(painter);
    if (hasFocus()) {
        painter.setRenderHint(QPainter::Antialiasing, false);
        painter.setPen(QPen(c.accent, 2));
        painter.setBrush(Qt::NoBrush);
        painter.drawRect(rect().adjusted(1, 1, -1, -1));
    }
}

void PartPane::paintCaption(QPainter& painter) {
    const Palette& c = colours();
    const bool left = route_ == RouteKind::printed;
    const auto side = left ? Qt::AlignLeft : Qt::AlignRight;
    const int margin = space(3), glyph = space(5);
    painter.setFont(textFont(TextSize::lead, QFont::DemiBold));
    const QString word = left ? tr("printed") : tr("machined");
    const int line = painter.fontMetrics().height();
    const QRect head(margin, space(2), width() - 2 * margin, std::max(line, glyph));
    const QRectF mark(left ? head.left() : head.right() - glyph, head.top(), glyph, glyph);
    paintRouteMark(painter, mark, left ? RouteMark::printed : RouteMark::machined);
    painter.setPen(textColourOf(route_));
    painter.drawText(head.adjusted(left ? glyph + space(2) : 0, 0, left ? 0 : -glyph - space(2), 0),
                     side | Qt::AlignVCenter, word);
    painter.setFont(textFont(TextSize::small));
    painter.setPen(c.muted);
    const QFontMetrics small = painter.fontMetrics();
    const QString note = stale_ ? tr("being recomputed") : recipe_;
    painter.drawText(QRect(margin, head.bottom() + 2, width() - 2 * margin, small.height()), side | Qt::AlignVCenter,
                     small.elidedText(note, Qt::ElideRight, width() - 2 * margin));
    if (!obstacle_.isEmpty()) {
        const QRect box = small.boundingRect(QRect(0, 0, width() - 2 * margin - space(4), height() / 2),
                                             Qt::AlignLeft | Qt::TextWordWrap, obstacle_);
        QRect frame = box.adjusted(-space(2), -space(1), space(2), space(1));
        frame.moveBottomLeft(QPoint(left ? margin : width() - margin - frame.width(), height() - margin));
        painter.setPen(QPen(c.fault, 1));
        painter.setBrush(c.sheet);
        painter.drawRect(frame);
        painter.setPen(c.fault);
        painter.drawText(frame.adjusted(space(2), space(1), -space(2), -space(1)), Qt::AlignLeft | Qt::TextWordWrap,
                         obstacle_);
    }
}

int PartPane::captionHeight() {
    return QFontMetrics(textFont(TextSize::lead, QFont::DemiBold)).height() +
           QFontMetrics(textFont(TextSize::small)).height() + space(3);
}

void PartPane::resizeEvent(QResizeEvent*) {
    paintFine();
    Q_EMIT resized();
}

int PartPane::faceAt(const QPointF& position) const {
    if (!scene_.solid || painted_.image.isNull()) return -1;
    const double shrink = painted_.image.width() / painted_.image.devicePixelRatio() / std::max(1, width());
    const int triangle = painted_.triangleAtPixel(position * shrink);
    const auto& faceOf = scene_.solid->solid->faceOfTriangle;
    if (triangle < 0 || triangle >= int(faceOf.size())) return -1;
    return int(faceOf[std::size_t(triangle)]);
}

void PartPane::pickFace(int face) {
    picked_ = face;
    paintFine();
}

void PartPane::mousePressEvent(QMouseEvent* event) {
    pressed_ = last_ = event->position();
    dragged_ = false;
}

void PartPane::mouseMoveEvent(QMouseEvent* event) {
    const QPointF at = event->position();
    if (event->buttons() == Qt::NoButton) {
        const int face = faceAt(at);
        Q_EMIT faceHovered(face >= 0 ? text(scene_.solid->solid->faces[std::size_t(face)].name) : QString());
        return;
    }
    if (!dragged_ && (at - pressed_).manhattanLength() < 4) return;
    dragged_ = true;
    const QPointF d = at - last_;
    last_ = at;
    if ((event->buttons() & Qt::MiddleButton) || (event->modifiers() & Qt::ShiftModifier))
        camera_->pan(d.x(), d.y(), size());
    else
        camera_->orbit(-d.x() * 0.009, d.y() * 0.009);
    Q_EMIT cameraChanged(true);
}

void PartPane::mouseReleaseEvent(QMouseEvent* event) {
    if (dragged_) {
        dragged_ = false;
        return;
    }
    if (event->button() != Qt::LeftButton) return;
    const int face = faceAt(event->position());
    pickFace(face);
    if (face >= 0) Q_EMIT faceChosen(face, event->globalPosition().toPoint());
}

void PartPane::contextMenuEvent(QContextMenuEvent* event) {
    const int face = event->reason() == QContextMenuEvent::Mouse ? faceAt(event->pos()) : picked_;
    if (face < 0) return;
    pickFace(face);
    Q_EMIT faceChosen(face,
                      event->reason() == QContextMenuEvent::Mouse ? event->globalPos() : mapToGlobal(rect().center()));
}

void PartPane::leaveEvent(QEvent*) {
    Q_EMIT faceHovered({});
}

void PartPane::wheelEvent(QWheelEvent* event) {
    camera_->zoom(std::pow(1.0015, event->angleDelta().y()), event->position(), size());
    event->accept();
    Q_EMIT cameraChanged(true);
}

void PartPane::walkFaces(int step) {
    if (!scene_.solid || scene_.solid->solid->faces.empty()) return;
    const int count = int(scene_.solid->solid->faces.size());
    pickFace(((picked_ < 0 ? (step > 0 ? -1 : 0) : picked_) + step + count) % count);
    Q_EMIT faceHovered(text(scene_.solid->solid->faces[std::size_t(picked_)].name));
}

void PartPane::keyPressEvent(QKeyEvent* event) {
    const bool shift = event->modifiers() & Qt::ShiftModifier;
    const double turn = 0.12, slide = 24;
    double dx = 0, dy = 0;
    switch (event->key()) {
        case Qt::Key_Left:
            dx = -1;
            break;
        case Qt::Key_Right:
            dx = 1;
            break;
        case Qt::Key_Up:
            dy = -1;
            break;
        case Qt::Key_Down:
            dy = 1;
            break;
        case Qt::Key_Plus:
        case Qt::Key_Equal:
            camera_->zoom(1.2, QPointF(width() / 2.0, height() / 2.0), size());
            break;
        case Qt::Key_Minus:
            camera_->zoom(1 / 1.2, QPointF(width() / 2.0, height() / 2.0), size());
            break;
        case Qt::Key_0:
        case Qt::Key_Home:
            return Q_EMIT fitAsked();
        case Qt::Key_N:
            return walkFaces(1);
        case Qt::Key_P:
            return walkFaces(-1);
        case Qt::Key_Return:
        case Qt::Key_Enter:
        case Qt::Key_Space:
            if (picked_ >= 0) Q_EMIT faceChosen(picked_, mapToGlobal(rect().center()));
            return;
        default:
            return QWidget::keyPressEvent(event);
    }
    if (shift)
        camera_->pan(dx * slide, dy * slide, size());
    else
        camera_->orbit(-dx * turn, dy * turn);
    Q_EMIT cameraChanged(true);
}

}  // namespace waybench
