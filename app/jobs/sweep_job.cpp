#include "app/jobs/sweep_job.h"

#include <functional>

#include "app/jobs/answers.h"

namespace waybench {

bool haveSameCurves(const SweepOrder& a, const SweepOrder& b) {
    const auto bare = [](const SweepOrder& order) { return with(order.part, order.variable, order.from); };
    return a.variable.name == b.variable.name && a.from == b.from && a.to == b.to && a.points == b.points &&
           a.refine == b.refine && a.solve == b.solve && a.tariff == b.tariff && a.folder == b.folder &&
           sameInputs(bare(a), bare(b));
}

SweepJob::SweepJob(std::shared_ptr<const Shop> shop, QObject* parent) : QObject(parent), shop_(std::move(shop)) {
    pool_.setMaxThreadCount(2);
}

SweepJob::~SweepJob() {
    task_.cancel();
    pool_.waitForDone();
}

void SweepJob::cancel() {
    task_.cancel();
    ++generation_;
    running_ = false;
}

quint64 SweepJob::start(const SweepOrder& order) {
    task_.cancel();
    task_ = Task();
    const quint64 generation = ++generation_;
    running_ = true;
    pool_.start([this, generation, order, task = task_, shop = shop_] {
        const auto post = [this, generation](std::function<void()> deliver) {
            QMetaObject::invokeMethod(
                this,
                [this, generation, deliver = std::move(deliver)] {
                    if (generation == generation_) deliver();
                },
                Qt::QueuedConnection);
        };
        const auto onPoint = [&](const SweepPoint& point) {
            auto light = std::make_shared<SweepPoint>(point);  // curves need figures only, not shapes and fields
            for (RouteOutcome* outcome : {&light->comparison.printed, &light->comparison.machined}) {
                outcome->solid.reset();
                outcome->structure.reset();
                for (CaseAnswer& answer : outcome->cases)
                    answer.structure.reset();
            }
            post([this, generation, light] { Q_EMIT pointReady(generation, light); });
        };
        const auto pass = [&](Fidelity fidelity, const Task& share) {
            sweep(order.part, order.folder, *shop, order.tariff, order.variable, order.from, order.to, order.points,
                  fidelity, share.part(0, 0.7), onPoint);
            share.check();
            if (!order.solve) return;
            double begin = 0.7;
            for (const RouteKind route : {RouteKind::printed, RouteKind::machined}) {
                const auto answer = std::make_shared<SolvedLimit>(
                    solveInOrBeside(order.part, order.folder, *shop, order.tariff, order.variable, route, order.from,
                                    order.to, fidelity, share.part(begin, begin + 0.15)));
                begin += 0.15;
                post([this, generation, answer] { Q_EMIT solved(generation, answer); });
            }
        };
        try {
            pass(Fidelity::draft, task.part(0, order.refine ? 0.15 : 1));
            if (order.refine) pass(Fidelity::standard, task.part(0.15, 1));
            post([this, generation] {
                running_ = false;
                Q_EMIT finished(generation);
            });
        } catch (const Cancelled&) {
        } catch (const InputFault& fault) {
            post([this, generation, said = Fault::from(fault)] {
                running_ = false;
                Q_EMIT faulted(generation, said);
            });
        } catch (const std::exception& error) {
            const Fault said{QStringLiteral("internal"), {}, {}, QString::fromUtf8(error.what()), {}};
            post([this, generation, said] {
                running_ = false;
                Q_EMIT faulted(generation, said);
            });
        }
    });
    return generation;
}

}  // namespace waybench
