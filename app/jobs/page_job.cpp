#include "app/jobs/page_job.h"

#include <QPainter>
#include <algorithm>
#include <cmath>

#include "app/page/page_pdf.h"

namespace waybench {

namespace {
/// Range of the page's what-if: a factor of two about the present value, inside the dimension's own range.
std::optional<Sweep> pageSweep(const Project& project, const Part& part, const Shop& shop, const Task& task) {
    const std::vector<Variable> variables = variablesOf(part, shop);
    if (variables.empty() || variables.front().unit != Unit::millimetre) return std::nullopt;
    const Variable& v = variables.front();
    const double from = std::max(v.minimum, v.current * 0.5), to = std::min(v.maximum, v.current * 2.0);
    if (!(from < to)) return std::nullopt;
    return sweep(part, project.folder(), shop, project.tariff, v, from, to, 7, Fidelity::draft, task);
}
}  // namespace

PageJob::PageJob(std::shared_ptr<const Shop> shop, QObject* parent) : QObject(parent), shop_(std::move(shop)) {
    pool_.setMaxThreadCount(2);
}

PageJob::~PageJob() {
    task_.cancel();
    pool_.waitForDone();
}

void PageJob::cancel() {
    task_.cancel();
    ++generation_;
}

quint64 PageJob::start(const Project& project, const Part& part, std::shared_ptr<const Comparison> comparison) {
    task_.cancel();
    task_ = Task();
    const quint64 generation = ++generation_;
    pool_.start([this, generation, project, part, comparison, task = task_, shop = shop_]() mutable {
        Fault fault;
        std::shared_ptr<PageMaterial> material;
        try {
            if (!comparison)
                comparison = std::make_shared<const Comparison>(
                    compare(part, project.folder(), *shop, project.tariff, Fidelity::standard, task.part(0, 0.6)));
            const auto whatIf = pageSweep(project, part, *shop, task.part(0.6, 1));
            task.check();
            material = std::make_shared<PageMaterial>();
            material->content = pageContent(project, *comparison, whatIf ? &*whatIf : nullptr, *shop);
            material->comparison = comparison;
        } catch (const Cancelled&) {
            return;
        } catch (const InputFault& said) {
            fault = Fault::from(said);
        } catch (const std::exception& error) {
            fault = {QStringLiteral("internal"), {}, {}, QString::fromUtf8(error.what()), {}};
        }
        QMetaObject::invokeMethod(
            this,
            [this, generation, material, fault] {
                if (generation != generation_) return;
                if (material)
                    Q_EMIT ready(material);
                else
                    Q_EMIT faulted(fault);
            },
            Qt::QueuedConnection);
    });
    return generation;
}

void PageJob::paint(std::shared_ptr<const PageMaterial> material, Paper paper, double pixelsPerMm, double ratio) {
    const quint64 painting = ++painting_;
    pool_.start([this, painting, material, paper, pixelsPerMm, ratio] {
        const QSizeF size = sizeOf(paper) * pixelsPerMm * ratio;
        QImage image(int(std::lround(size.width())), int(std::lround(size.height())), QImage::Format_RGB32);
        image.setDotsPerMeterX(int(std::lround(pixelsPerMm * ratio * 1000)));
        image.setDotsPerMeterY(int(std::lround(pixelsPerMm * ratio * 1000)));
        image.fill(Qt::white);
        {
            QPainter painter(&image);
            painter.setRenderHints(QPainter::Antialiasing | QPainter::TextAntialiasing |
                                   QPainter::SmoothPixmapTransform);
            paintPage(painter, pixelsPerMm * ratio, paper, material->content, *material->comparison);
        }
        image.setDevicePixelRatio(ratio);
        QMetaObject::invokeMethod(
            this,
            [this, painting, image] {
                if (painting == painting_) Q_EMIT painted(image);
            },
            Qt::QueuedConnection);
    });
}

void PageJob::writePdf(std::shared_ptr<const PageMaterial> material, Paper paper, const QString& file) {
    pool_.start([this, material, paper, file] {
        Fault fault;
        bool done = false;
        try {
            writePagePdf(file, paper, material->content, *material->comparison);
            done = true;
        } catch (const InputFault& said) {
            fault = Fault::from(said);
        } catch (const std::exception& error) {
            fault = {QStringLiteral("cannot_write"), file, {}, QString::fromUtf8(error.what()), {}};
        }
        QMetaObject::invokeMethod(
            this,
            [this, done, fault, file] {
                if (done)
                    Q_EMIT written(file);
                else
                    Q_EMIT faulted(fault);
            },
            Qt::QueuedConnection);
    });
}

}  // namespace waybench
