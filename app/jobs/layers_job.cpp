#include "app/jobs/layers_job.h"

#include <functional>

#include "core/comparison/part_solid.h"
#include "core/fault/input_fault.h"
#include "core/printed/print_job.h"

namespace waybench {

LayersJob::LayersJob(std::shared_ptr<const Shop> shop, QObject* parent) : QObject(parent), shop_(std::move(shop)) {
    pool_.setMaxThreadCount(2);  // a cancelled run may still be leaving while the next one starts
    lookers_.setMaxThreadCount(2);
}

LayersJob::~LayersJob() {
    task_.cancel();
    looking_.cancel();
    pool_.waitForDone();
    lookers_.waitForDone();
}

void LayersJob::cancel() {
    task_.cancel();
    looking_.cancel();
    ++generation_;
    ++look_;
    view_.reset();
    running_ = false;
}

void LayersJob::start(const Part& part, const std::filesystem::path& folder) {
    cancel();
    task_ = Task();
    running_ = true;
    pool_.start([this, generation = generation_, part, folder, task = task_, shop = shop_] {
        const auto post = [this, generation](std::function<void()> deliver) {
            QMetaObject::invokeMethod(
                this,
                [this, generation, deliver = std::move(deliver)] {
                    if (generation == generation_) deliver();
                },
                Qt::QueuedConnection);
        };
        const auto fail = [&](const Fault& fault) {
            post([this, fault] {
                running_ = false;
                Q_EMIT faulted(fault);
            });
        };
        try {
            const Solid solid = solidOf(part, RouteKind::printed, folder);
            const printed::Recipe recipe = printed::asLaid(part.recipe);
            const Printer& printer = shop->printer(recipe.printer);
            const PrintingMaterial& material = shop->printingMaterial(recipe.material);
            const auto view =
                std::make_shared<const printed::LayerView>(solid.mesh, recipe, printer, material, task.part(0, 0.2));
            post([this, view] {
                view_ = view;
                Q_EMIT opened(view);
            });
            for (const bool isDraft : {true, false}) {
                const printed::PrintJob job = printed::printJob(view->sections(), recipe, printer, material, isDraft,
                                                                isDraft ? task.part(0.2, 0.3) : task.part(0.3, 1));
                const auto times = std::make_shared<const TimesOfLayers>(TimesOfLayers{job.layerTimes, !isDraft});
                post([this, times] {
                    running_ = !times->isComplete;
                    Q_EMIT timed(times);
                });
            }
        } catch (const Cancelled&) {
        } catch (const InputFault& fault) {
            fail(Fault::from(fault));
        } catch (const std::exception& error) {
            fail({QStringLiteral("internal"), {}, {}, QString::fromUtf8(error.what()), {}});
        }
    });
}

void LayersJob::look(std::size_t k) {
    if (!view_) return;
    looking_.cancel();
    looking_ = Task();
    const quint64 look = ++look_;
    lookers_.clear();
    lookers_.start([this, look, k, view = view_, task = looking_] {
        const auto post = [this, look](std::function<void()> deliver) {
            QMetaObject::invokeMethod(
                this,
                [this, look, deliver = std::move(deliver)] {
                    if (look == look_) deliver();
                },
                Qt::QueuedConnection);
        };
        try {
            const auto layer = std::make_shared<const printed::LaidLayer>(view->laid(k, task));
            post([this, layer] { Q_EMIT laid(layer); });
        } catch (const Cancelled&) {
        } catch (const std::exception& error) {
            const Fault said{QStringLiteral("internal"), {}, {}, QString::fromUtf8(error.what()), {}};
            post([this, said] { Q_EMIT faulted(said); });
        }
    });
}

}  // namespace waybench
