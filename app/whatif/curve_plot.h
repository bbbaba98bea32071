#pragma once
#include <QString>
#include <QTimer>
#include <QWidget>
#include <memory>
#include <optional>
#include <vector>

#include "core/quantity/figure.h"

namespace waybench {

class CurveDrawing;

/// What the what-if plot shows, as plain values.
struct CurveContent {
    struct Point {
        double at = 0;
        Figure printed, machined;
        bool isDraft = false;
    };
    struct Mark {
        QString letter;
        double at = 0, low = 0, high = 0, height = 0;
    };
    QString title, axisX, axisY;  ///< axes with units
    std::vector<Point> points;    ///< ascending, displayed units on both axes
    double from = 0, to = 1;
    std::optional<double> limit;
    QString limitName;
    bool limitIsUpper = true;
    std::vector<Mark> crossings;
    bool logarithmic = false;
    double cursor = 0;                ///< the part as it is
    std::optional<double> startedAt;  ///< where a drag began
    QString unitX;
};

/// Both routes as curves with their bands against one variable. Printed: solid line, filled discs; machined: dashed,
/// open squares; each named at its end. The failing side of a limit is hatched. The cursor is the part's own value:
/// drag it, or move it with Left and Right (Page keys in tenths of the range), and the part follows.
class CurvePlot : public QWidget {
    Q_OBJECT
public:
    explicit CurvePlot(QWidget* parent = nullptr);
    ~CurvePlot() override;
    void show(const CurveContent& content);
    /// Only the cursor moved: nothing else is drawn anew.
    void setCursorValue(double at);
    /// By the ending: .svg, .pdf, .png (another is refused); always on white. @param source one line for the metadata
    bool exportTo(const QString& file, const QString& source);
    double pixelOf(double at) const;  ///< x in this widget's coordinates, for tests

Q_SIGNALS:
    /// By the pointer or by keys.
    void cursorDragged(double at);
    /// The drag ended, or the keys came to rest or lost the focus: what follows is another move.
    void settled();

protected:
    bool eventFilter(QObject* watched, QEvent* event) override;
    void keyPressEvent(QKeyEvent* event) override;
    void focusInEvent(QFocusEvent* event) override;
    void focusOutEvent(QFocusEvent* event) override;
    void paintEvent(QPaintEvent* event) override;

private:
    void draw(bool forPaper);
    void endKeys();
    std::unique_ptr<CurveDrawing> drawing_;
    CurveContent content_;
    QTimer keysRest_;
    bool dragging_ = false;
};

}  // namespace waybench
