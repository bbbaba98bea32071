#pragma once
#include <QString>

class QCustomPlot;
class QCPGraph;
class QCPItemStraightLine;
class QCPItemText;
class QCPItemTracer;
class QWidget;

namespace waybench {

struct CurveContent;

/// The curves, their limit and crossings on their axes. What keys and pointer do with them is CurvePlot's.
class CurveDrawing {
public:
    explicit CurveDrawing(QWidget* parent);  ///< the plot belongs to the parent
    QCustomPlot* plot() const { return plot_; }
    /// Everything anew. @param forPaper light colours on white, whatever the theme
    void draw(const CurveContent& content, bool forPaper, bool hasFocus);
    /// Only the cursor moved.
    void setCursor(double at, const QString& unit);

private:
    struct Look;
    void dressAxes(const CurveContent& content, const Look& look);
    void setRanges(const CurveContent& content);
    void drawLimit(const CurveContent& content, const Look& look);
    void drawCurves(const CurveContent& content, const Look& look);
    void nameCurves(const CurveContent& content, const Look& look);
    void drawCrossings(const CurveContent& content, const Look& look);
    void drawCursor(const CurveContent& content, const Look& look);

    QCustomPlot* plot_;
    QCPGraph* curve_[2] = {nullptr, nullptr};
    QCPItemStraightLine* cursor_ = nullptr;
    QCPItemText* cursorText_ = nullptr;
    QCPItemTracer* cursorOn_[2] = {nullptr, nullptr};
};

}  // namespace waybench
