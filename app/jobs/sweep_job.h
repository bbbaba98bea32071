#pragma once
#include <QObject>
#include <QThreadPool>

#include "app/document/fault.h"
#include "core/comparison/solved_limit.h"
#include "core/progress/task.h"

namespace waybench {

/// What a what-if asks for.
struct SweepOrder {
    Part part;
    std::filesystem::path folder;
    std::string tariff;
    Variable variable;
    double from = 0, to = 0;
    int points = 9;
    bool refine = true;  ///< a second pass at standard fidelity
    bool solve = true;   ///< size both routes for their limit
};
/// Whether two orders have the same curves; where the cursor stands on them, the variable's current value, is no part
/// of it. @throws InputFault when the part cannot have the variable at the start of the range
bool haveSameCurves(const SweepOrder& a, const SweepOrder& b);

/// Runs a sweep off the window thread, points arriving one by one: whole range as draft, then both routes sized for
/// the limit, then again at standard fidelity. Same rules as ComparisonJob.
class SweepJob : public QObject {
    Q_OBJECT
public:
    explicit SweepJob(std::shared_ptr<const Shop> shop, QObject* parent = nullptr);
    ~SweepJob() override;
    quint64 start(const SweepOrder& order);
    void cancel();
    bool isRunning() const { return running_; }
    double progress() const { return task_.progress(); }

Q_SIGNALS:
    void pointReady(quint64 generation, std::shared_ptr<const waybench::SweepPoint> point);
    void solved(quint64 generation, std::shared_ptr<const waybench::SolvedLimit> answer);
    void finished(quint64 generation);
    void faulted(quint64 generation, const waybench::Fault& fault);

private:
    std::shared_ptr<const Shop> shop_;
    QThreadPool pool_;
    Task task_;
    quint64 generation_ = 0;
    bool running_ = false;
};

}  // namespace waybench
