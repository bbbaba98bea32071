#pragma once
#include <QImage>
#include <QThreadPool>
#include <QTimer>
#include <QWidget>
#include <memory>

#include "app/jobs/answer.h"
#include "app/twinview/camera.h"
#include "app/twinview/mesh_painter.h"

namespace waybench {

/// Everything one pane draws; replaced as a whole, so that a picture being painted elsewhere keeps what it needs.
struct PaneScene {
    std::shared_ptr<const DrawnSolid> solid;
    std::shared_ptr<const RouteOutcome> outcome;       ///< owner of the displacements; may be empty
    std::shared_ptr<const std::vector<double>> field;  ///< per vertex, or empty
    double fieldMaximum = 1;
    double displacementScale = 0;  ///< 0 = undeformed
    LoadCase loadCase;
    bool deforms() const {
        return solid && outcome && outcome->structure && displacementScale > 0 &&
               outcome->structure->displacement_mm.size() == solid->solid->mesh.vertices.size();
    }
};

/// One of the two linked views. Draws with the shared camera; while it is moved quickly and at once, at rest once more
/// in full quality off the window thread. Mouse: drag turns, middle or Shift-drag shifts, wheel zooms, a click picks
/// a face. Keys: arrows turn, Shift+arrows shift, + - zoom, 0 fits, N and P walk over the faces, Return offers what can
/// be done with the face.
class PartPane : public QWidget {
    Q_OBJECT
public:
    PartPane(RouteKind route, std::shared_ptr<Camera> camera, QWidget* parent = nullptr);
    ~PartPane() override;

    void showScene(PaneScene scene);
    const PaneScene& scene() const { return scene_; }
    /// Other symbols over the same picture.
    void showLoadCase(const LoadCase& loadCase);
    void setCaption(const QString& recipe, const QString& obstacle);
    void setStale(bool stale);
    /// Camera moved by the other pane or by us. @param moving draw quickly now, in full quality a moment later
    void cameraMoved(bool moving);
    int pickedFace() const { return picked_; }
    void pickFace(int face);

    /// Height the caption takes at the top; a fitted part keeps clear of it.
    static int captionHeight();

    QSize sizeHint() const override { return {420, 300}; }
    QSize minimumSizeHint() const override { return {160, 130}; }

Q_SIGNALS:
    void cameraChanged(bool moving);
    void faceChosen(int face, const QPoint& global);  ///< a menu is wanted there
    void faceHovered(const QString& name);
    void fitAsked();
    void resized();

protected:
    void paintEvent(QPaintEvent* event) override;
    void resizeEvent(QResizeEvent* event) override;
    void mousePressEvent(QMouseEvent* event) override;
    void mouseMoveEvent(QMouseEvent* event) override;
    void mouseReleaseEvent(QMouseEvent* event) override;
    void leaveEvent(QEvent* event) override;
    void wheelEvent(QWheelEvent* event) override;
    void keyPressEvent(QKeyEvent* event) override;
    void contextMenuEvent(QContextMenuEvent* event) override;

private:
    PaintStyle styleOf(const PaneScene& scene, int supersampling) const;
    void paintFine();
    void paintQuickly();
    void walkFaces(int step);
    void paintCaption(QPainter& painter);
    int faceAt(const QPointF& position) const;

    RouteKind route_;
    std::shared_ptr<Camera> camera_;
    PaneScene scene_;
    PaintedMesh painted_;
    Camera paintedCamera_;
    QThreadPool pool_;
    QTimer settle_;
    quint64 wanted_ = 0;
    QString recipe_, obstacle_;
    bool stale_ = false, dragged_ = false;
    QPointF pressed_, last_;
    int picked_ = -1;
    double lastCost_ms_ = 0;
};

}  // namespace waybench
