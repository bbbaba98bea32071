#pragma once
#include <QObject>
#include <QThreadPool>
#include <memory>
#include <vector>

#include "app/document/fault.h"
#include "core/comparison/ways_up.h"
#include "core/progress/task.h"

namespace waybench {

/// Ranks the ways a part can stand, off the window thread. Same rules as ComparisonJob.
class WaysUpJob : public QObject {
    Q_OBJECT
public:
    explicit WaysUpJob(std::shared_ptr<const Shop> shop, QObject* parent = nullptr);
    ~WaysUpJob() override;
    void start(const Part& part, const std::filesystem::path& folder, const std::string& tariff);
    void cancel();
    bool isRunning() const { return running_; }
    double progress() const { return task_.progress(); }

Q_SIGNALS:
    void ranked(std::shared_ptr<const std::vector<waybench::printed::WayUp>> ways);
    void faulted(const waybench::Fault& fault);

private:
    std::shared_ptr<const Shop> shop_;
    QThreadPool pool_;
    Task task_;
    quint64 generation_ = 0;
    bool running_ = false;
};

}  // namespace waybench
