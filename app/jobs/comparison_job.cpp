#include "app/jobs/comparison_job.h"

#include <functional>
#include <utility>

#include "core/comparison/evaluator.h"

namespace waybench {

namespace {

std::shared_ptr<const DrawnSolid> drawn(std::shared_ptr<const Solid> solid) {
    return solid ? std::make_shared<const DrawnSolid>(std::move(solid)) : nullptr;
}

PartSolids solidsOf(const Part& part, SolidStore& store) {
    PartSolids solids;
    solids.printed = drawn(store.solid(part, RouteKind::printed));
    const std::shared_ptr<const Solid> machined = store.solid(part, RouteKind::machined);
    solids.machined = machined == solids.printed->solid ? solids.printed : drawn(machined);
    return solids;
}

Answer answerOf(Comparison comparison, const PartSolids& plain) {
    Answer answer;
    const auto pick = [&](const RouteOutcome& outcome, const std::shared_ptr<const DrawnSolid>& fallback) {
        if (!outcome.solid) return fallback;
        if (fallback && fallback->solid == outcome.solid) return fallback;
        return drawn(outcome.solid);
    };
    answer.solids.printed = pick(comparison.printed, plain.printed);
    answer.solids.machined = comparison.machined.solid && comparison.machined.solid == comparison.printed.solid
                                 ? answer.solids.printed
                                 : pick(comparison.machined, plain.machined);
    answer.comparison = std::make_shared<const Comparison>(std::move(comparison));
    return answer;
}

}  // namespace

ComparisonJob::ComparisonJob(std::shared_ptr<const Shop> shop, QObject* parent)
    : QObject(parent), shop_(std::move(shop)) {
    pool_.setMaxThreadCount(2);  // a cancelled run may still be leaving while the next one starts
    pulse_.setInterval(100);
    connect(&pulse_, &QTimer::timeout, this, [this] { Q_EMIT progressed(progress()); });
}

ComparisonJob::~ComparisonJob() {
    task_.cancel();
    pool_.waitForDone();
}

void ComparisonJob::setStage(Stage stage) {
    if (stage_ == stage) return;
    stage_ = stage;
    if (isRunning())
        pulse_.start();
    else
        pulse_.stop();
    Q_EMIT stageChanged(stage);
}

void ComparisonJob::cancel() {
    if (!isRunning()) return;
    task_.cancel();
    ++generation_;
    setStage(Stage::cancelled);
}

quint64 ComparisonJob::start(const Part& part, const std::filesystem::path& folder, const std::string& tariff,
                             Depth depth) {
    task_.cancel();
    task_ = Task();
    const quint64 generation = ++generation_;
    setStage(Stage::drafting);
    // Everything the worker touches is a copy or shared; `this` outlives it, see the destructor.
    pool_.start([this, generation, part, folder, tariff, depth, task = task_, shop = shop_] {
        const auto post = [this, generation](std::function<void()> deliver) {
            QMetaObject::invokeMethod(
                this,
                [this, generation, deliver = std::move(deliver)] {
                    if (generation == generation_) deliver();
                },
                Qt::QueuedConnection);
        };
        const auto fail = [&](const Fault& fault) {
            post([this, generation, fault] {
                setStage(Stage::faulty);
                Q_EMIT faulted(generation, fault);
            });
        };
        try {
            task.check();
            const auto store = std::make_shared<SolidStore>(folder);
            const PartSolids plain = solidsOf(part, *store);
            const Evaluator evaluate = realEvaluator(store, *shop, tariff);
            post([this, generation, plain] { Q_EMIT solidsReady(generation, plain); });
            const bool only = depth == Depth::draftOnly;
            const Answer draft =
                answerOf(compareBy(evaluate, part, Fidelity::draft, only ? task : task.part(0, 0.15)), plain);
            post([this, generation, draft, only] {
                setStage(only ? Stage::done : Stage::refining);
                Q_EMIT answered(generation, draft);
            });
            if (only) return;
            const Answer standard = answerOf(compareBy(evaluate, part, Fidelity::standard, task.part(0.15, 1)), plain);
            post([this, generation, standard] {
                setStage(Stage::done);
                Q_EMIT answered(generation, standard);
            });
        } catch (const Cancelled&) {
        } catch (const InputFault& fault) {
            fail(Fault::from(fault));
        } catch (const std::exception& error) {
            fail({QStringLiteral("internal"),
                  {},
                  {},
                  QString::fromUtf8(error.what()),
                  tr("this is a defect of ours; the last answer stays")});
        }
    });
    return generation;
}

}  // namespace waybench
