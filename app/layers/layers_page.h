#pragma once
#include <QTimer>
#include <QWidget>
#include <optional>

#include "app/jobs/layers_job.h"
#include "app/jobs/ways_up_job.h"
#include "app/layers/layer_canvas.h"
#include "app/layers/time_over_height.h"

class QComboBox;
class QLabel;
class QPushButton;
class QSpinBox;
class QStackedLayout;

namespace waybench {

class Answers;
class Document;
class LayerLegend;
class WaysUpPanel;

/// The printed part layer by layer: what the nozzle lays, where over the height the time goes, and which way up the
/// part had better stand.
class LayersPage : public QWidget {
    Q_OBJECT
public:
    LayersPage(Document& document, Answers& answers, QWidget* parent = nullptr);
    LayerCanvas* canvas() const { return canvas_; }
    TimeOverHeight* profile() const { return profile_; }
    int layer() const { return int(layer_); }  ///< from 0 on the bed
    int layerCount() const { return view_ ? int(view_->layerCount()) : 0; }
    bool isTimed() const { return times_ && times_->isComplete; }

protected:
    void showEvent(QShowEvent* event) override;
    void hideEvent(QHideEvent* event) override;
    void paintEvent(QPaintEvent* event) override;

private:
    QWidget* makeHead();
    QWidget* makeLayers();
    QWidget* makeEmpty();
    void connectJobs();
    void restartSoon();
    void restart();
    void restartWays(const Part& part);
    void open(std::shared_ptr<const printed::LayerView> view);
    /// Nothing to look at: why, and what to do.
    void abandon(const QString& why, bool mayShowAllTheSame = false);
    void goTo(int layer);
    void tellPart();
    void tell();
    void tellProgress();
    void tellAnswer();
    /// What the layers take and what comes on top, as the ledger has it.
    QString timesText() const;
    void takeWayUp(const printed::Stance& stance);

    Document& document_;
    Answers& answers_;
    LayersJob job_;
    WaysUpJob waysJob_;
    QTimer soon_, pulse_;
    std::optional<Part> opened_, ranked_;  ///< what was last started with
    std::string rankedTariff_, shownAllTheSame_;
    std::shared_ptr<const printed::LayerView> view_;
    std::shared_ptr<const printed::LaidLayer> laid_;
    std::shared_ptr<const TimesOfLayers> times_;
    std::vector<double> elapsed_s_;  ///< of the layers up to and with each
    std::optional<printed::LayerTime> whole_;
    std::shared_ptr<const RouteOutcome> final_;  ///< of what the fields show, once it is there
    std::size_t layer_ = 0;

    QWidget* head_;
    QComboBox* part_;
    QLabel* recipe_;
    QStackedLayout* stack_;
    QWidget* layers_;
    QLabel* emptyWords_;
    QPushButton* allTheSame_;
    QLabel* readout_;
    QLabel* state_;
    QSpinBox* number_;
    QLabel* count_;
    LayerCanvas* canvas_;
    TimeOverHeight* profile_;
    LayerLegend* legend_;
    WaysUpPanel* ways_;
};

}  // namespace waybench
