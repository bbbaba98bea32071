#pragma once
#include <QTimer>
#include <QWidget>
#include <map>
#include <optional>
#include <vector>

#include "app/jobs/sweep_job.h"
#include "app/whatif/curve_plot.h"

class QCheckBox;
class QComboBox;
class QLabel;
class QPushButton;

namespace waybench {

class Answers;
class Document;
class QuantityField;

/// Choose a dimension or setting and a question; see both routes against it, where they meet the limit and where they
/// cross. The cursor is the part's own value.
class WhatIfPage : public QWidget {
    Q_OBJECT
public:
    WhatIfPage(Document& document, Answers& answers, QWidget* parent = nullptr);
    CurvePlot* plot() const { return plot_; }
    int pointCount() const { return int(points_.size()); }
    bool exportTo(const QString& file);
    QString finding() const;

Q_SIGNALS:
    void faulted(const waybench::Fault& fault);
    void noted(const QString& message);

protected:
    void showEvent(QShowEvent* event) override;
    void hideEvent(QHideEvent* event) override;
    void paintEvent(QPaintEvent* event) override;

private:
    void listVariables();
    void rangeFromCurrent();
    void restartSoon();
    void restart();
    void tellProgress();
    void redraw();
    /// Nothing to draw: the curves of other inputs are taken away, and the reason stands in their place.
    void abandon(const QString& why);
    void follow(double at);
    const Variable* variable() const;
    const QuestionText& question() const;
    Sweep gathered() const;
    /// The user's choice, or without one a log scale where the figures span more than about a decade and a half.
    bool logarithmicFor(const std::vector<CurveContent::Point>& points);
    /// Where each route becomes good enough, else where they cross, else that they do not.
    QString findingFrom(const std::vector<Crossing>& crossings) const;
    QString solvedLines() const;
    void writeSide(const std::vector<Crossing>& crossings, const QString& letters);

    Document& document_;
    Answers& answers_;
    SweepJob job_;
    QTimer soon_, pulse_;
    std::vector<Variable> variables_;
    std::string partName_, chosen_;
    std::optional<SweepOrder> swept_;  ///< what the curves are of, or will be
    std::map<double, std::shared_ptr<const SweepPoint>> points_;
    std::map<RouteKind, std::shared_ptr<const SolvedLimit>> solved_;
    std::vector<std::string> selections_;  ///< boxes that take other faces along the curve
    double from_ = 0, to_ = 0;
    int bout_ = 0;
    bool listing_ = false, scaleChosen_ = false;

    QComboBox* variableChoice_;
    QComboBox* questionChoice_;
    QuantityField* fromField_ = nullptr;
    QuantityField* toField_ = nullptr;
    QWidget* rangeHost_;
    QCheckBox* logarithmic_;
    QPushButton* export_;
    QLabel* title_;
    QLabel* state_;
    QLabel* side_;
    CurvePlot* plot_;
};

}  // namespace waybench
