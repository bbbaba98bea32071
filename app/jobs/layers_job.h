#pragma once
#include <QObject>
#include <QThreadPool>
#include <filesystem>
#include <memory>

#include "app/document/fault.h"
#include "app/layers/time_share.h"
#include "core/comparison/part.h"
#include "core/printed/layer_view.h"
#include "core/progress/task.h"

namespace waybench {

/// Lays out the printed part's layers off the window thread: first what all layers share, then the one looked at, then
/// the times of all from the print job, as a draft and in full. A layer asked for meanwhile is laid out beside that; of
/// several only the last. Same rules as ComparisonJob: what comes is of the last start, or does not come.
class LayersJob : public QObject {
    Q_OBJECT
public:
    explicit LayersJob(std::shared_ptr<const Shop> shop, QObject* parent = nullptr);
    ~LayersJob() override;
    void start(const Part& part, const std::filesystem::path& folder);
    void cancel();
    /// Lay out layer k of the view last opened. Precondition: opened was signalled, k below its layer count.
    void look(std::size_t k);
    bool isRunning() const { return running_; }
    double progress() const { return task_.progress(); }

Q_SIGNALS:
    void opened(std::shared_ptr<const waybench::printed::LayerView> view);
    void laid(std::shared_ptr<const waybench::printed::LaidLayer> layer);
    void timed(std::shared_ptr<const waybench::TimesOfLayers> times);  ///< the last of a start is complete
    void faulted(const waybench::Fault& fault);

private:
    std::shared_ptr<const Shop> shop_;
    QThreadPool pool_, lookers_;
    Task task_, looking_;
    std::shared_ptr<const printed::LayerView> view_;
    quint64 generation_ = 0, look_ = 0;
    bool running_ = false;
};

}  // namespace waybench
