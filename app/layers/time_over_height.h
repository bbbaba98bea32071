#pragma once
#include <QPixmap>
#include <QWidget>
#include <memory>
#include <vector>

#include "app/layers/time_share.h"
#include "core/printed/layer_view.h"

namespace waybench {

/// Height to the right, time per layer upwards, stacked by what it goes to. The current layer is marked at its top; a
/// click or a drag asks for another.
class TimeOverHeight : public QWidget {
    Q_OBJECT
public:
    explicit TimeOverHeight(QWidget* parent = nullptr);
    void show(std::shared_ptr<const printed::LayerView> view, std::shared_ptr<const TimesOfLayers> times);
    void setLayer(std::size_t k);
    /// Window pixel of a layer's middle.
    QPoint placeOf(std::size_t k) const;

Q_SIGNALS:
    void layerAsked(int k);
    void stepAsked(int layers);
    void endAsked(bool top);

protected:
    void paintEvent(QPaintEvent* event) override;
    void resizeEvent(QResizeEvent* event) override;
    void mousePressEvent(QMouseEvent* event) override;
    void mouseMoveEvent(QMouseEvent* event) override;
    void keyPressEvent(QKeyEvent* event) override;
    bool event(QEvent* event) override;

private:
    QRectF plot() const;
    double xOf(double height_mm) const;
    std::size_t layerAt(double x) const;
    void drawShares();
    void drawAxes(QPainter& painter) const;
    void drawMark(QPainter& painter) const;
    QString wordsOf(std::size_t k) const;

    std::shared_ptr<const printed::LayerView> view_;
    std::shared_ptr<const TimesOfLayers> times_;
    std::size_t layer_ = 0;
    double most_s_ = 1;  ///< end of the time axis
    QPixmap shares_;     ///< the stacked areas, drawn anew when times, size or colours change
};

}  // namespace waybench
