#include "app/jobs/ways_up_job.h"

#include <functional>

#include "core/fault/input_fault.h"

namespace waybench {

WaysUpJob::WaysUpJob(std::shared_ptr<const Shop> shop, QObject* parent) : QObject(parent), shop_(std::move(shop)) {
    pool_.setMaxThreadCount(2);
}

WaysUpJob::~WaysUpJob() {
    task_.cancel();
    pool_.waitForDone();
}

void WaysUpJob::cancel() {
    task_.cancel();
    ++generation_;
    running_ = false;
}

void WaysUpJob::start(const Part& part, const std::filesystem::path& folder, const std::string& tariff) {
    cancel();
    task_ = Task();
    running_ = true;
    pool_.start([this, generation = generation_, part, folder, tariff, task = task_, shop = shop_] {
        const auto post = [this, generation](std::function<void()> deliver) {
            QMetaObject::invokeMethod(
                this,
                [this, generation, deliver = std::move(deliver)] {
                    if (generation != generation_) return;
                    running_ = false;
                    deliver();
                },
                Qt::QueuedConnection);
        };
        try {
            const auto ways =
                std::make_shared<const std::vector<printed::WayUp>>(waysUp(part, folder, *shop, tariff, task));
            post([this, ways] { Q_EMIT ranked(ways); });
        } catch (const Cancelled&) {
        } catch (const InputFault& fault) {
            post([this, said = Fault::from(fault)] { Q_EMIT faulted(said); });
        } catch (const std::exception& error) {
            const Fault said{QStringLiteral("internal"), {}, {}, QString::fromUtf8(error.what()), {}};
            post([this, said] { Q_EMIT faulted(said); });
        }
    });
}

}  // namespace waybench
