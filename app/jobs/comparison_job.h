#pragma once
#include <QObject>
#include <QThreadPool>
#include <QTimer>
#include <filesystem>
#include <memory>

#include "app/document/fault.h"
#include "app/jobs/answer.h"
#include "core/bench/shop.h"
#include "core/progress/task.h"

namespace waybench {

/// Runs one part's comparison off the window thread: shapes first, then a draft, then the standard answer.
///
/// start() cancels what runs; results of an older start are dropped by their generation number. Signals come queued in
/// the thread this object lives in. Destruction cancels and waits only as long as core takes to notice.
class ComparisonJob : public QObject {
    Q_OBJECT
public:
    enum class Stage { idle, drafting, refining, done, cancelled, faulty };
    Q_ENUM(Stage)
    enum class Depth { draftOnly, draftThenStandard };

    explicit ComparisonJob(std::shared_ptr<const Shop> shop, QObject* parent = nullptr);
    ~ComparisonJob() override;

    /// @return the generation its signals will carry
    quint64 start(const Part& part, const std::filesystem::path& folder, const std::string& tariff,
                  Depth depth = Depth::draftThenStandard);
    void cancel();
    Stage stage() const { return stage_; }
    bool isRunning() const { return stage_ == Stage::drafting || stage_ == Stage::refining; }
    quint64 generation() const { return generation_; }
    /// 0..1 over draft and standard together, monotone within one start.
    double progress() const { return task_.progress(); }

Q_SIGNALS:
    void solidsReady(quint64 generation, const waybench::PartSolids& solids);
    void answered(quint64 generation, const waybench::Answer& answer);
    void faulted(quint64 generation, const waybench::Fault& fault);
    void stageChanged(waybench::ComparisonJob::Stage stage);
    void progressed(double share);

private:
    void setStage(Stage stage);
    std::shared_ptr<const Shop> shop_;
    QThreadPool pool_;
    QTimer pulse_;
    Task task_;
    quint64 generation_ = 0;
    Stage stage_ = Stage::idle;
};

}  // namespace waybench
