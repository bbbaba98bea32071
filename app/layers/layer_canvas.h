#pragma once
#include <QPainterPath>
#include <QThreadPool>
#include <QTimer>
#include <QWidget>
#include <memory>

#include "app/layers/layer_painter.h"

namespace waybench {

/// One layer from above, to scale. The outline stands at once; the beads are painted off the window thread and follow.
/// Wheel and plus or minus zoom, dragging moves, 0 or a double click fits, arrow and page keys ask for other layers.
class LayerCanvas : public QWidget {
    Q_OBJECT
public:
    explicit LayerCanvas(QWidget* parent = nullptr);
    ~LayerCanvas() override;

    /// Another print; fitted on showing. Null clears.
    void setView(std::shared_ptr<const printed::LayerView> view);
    /// Layer k with its outline; its beads come with showLaid.
    void showLayer(std::size_t k);
    void showLaid(std::shared_ptr<const printed::LaidLayer> laid);
    void setShown(const ShareSwitches& shown);
    void fit();
    const LayerFrame& frame() const { return frame_; }
    /// Whether the picture on screen is of the layer and frame asked for.
    bool isPainted() const { return painted_.number == wanted_ && !painted_.image.isNull(); }

Q_SIGNALS:
    void stepAsked(int layers);
    void endAsked(bool top);

protected:
    void paintEvent(QPaintEvent* event) override;
    void resizeEvent(QResizeEvent* event) override;
    void wheelEvent(QWheelEvent* event) override;
    void mousePressEvent(QMouseEvent* event) override;
    void mouseMoveEvent(QMouseEvent* event) override;
    void mouseReleaseEvent(QMouseEvent* event) override;
    void mouseDoubleClickEvent(QMouseEvent* event) override;
    void keyPressEvent(QKeyEvent* event) override;
    void changeEvent(QEvent* event) override;

private:
    struct Painted {
        QImage image;
        LayerFrame frame;
        std::size_t layer = 0;
        quint64 number = 0;
    };
    void zoomAbout(const QPointF& pixel, double factor);
    void moved();
    void paintAnew();
    void drawScaleBar(QPainter& painter) const;
    void stopPainting();

    std::shared_ptr<const printed::LayerView> view_;
    std::shared_ptr<const printed::LaidLayer> laid_;
    std::size_t layer_ = 0;
    QPainterPath outline_, support_;
    ShareSwitches shown_{};
    LayerFrame frame_;
    bool isFitted_ = true;
    QPointF grabbedAt_;
    bool dragging_ = false;
    Painted painted_;
    quint64 wanted_ = 0;
    Task painting_;
    QTimer soon_;
    QThreadPool pool_;
};

}  // namespace waybench
