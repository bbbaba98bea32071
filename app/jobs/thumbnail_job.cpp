#include "app/jobs/thumbnail_job.h"

#include "app/style/theme.h"
#include "app/twinview/mesh_painter.h"

namespace waybench {

ThumbnailJob::ThumbnailJob(QObject* parent) : QObject(parent) {
    pool_.setMaxThreadCount(1);
}

ThumbnailJob::~ThumbnailJob() {
    pool_.clear();
    pool_.waitForDone();
}

void ThumbnailJob::dropAll() {
    ++generation_;
    pool_.clear();
}

void ThumbnailJob::ask(const Part& part, const std::filesystem::path& folder, QSize size, double ratio) {
    PaintStyle style;
    style.body = colours().body;
    style.edge = colours().edge;
    style.supersampling = 3;
    pool_.start([this, part, folder, size, ratio, style, generation = generation_] {
        QImage image;
        try {
            const Solid solid = buildSolid(part.shape, folder);
            Camera camera;
            camera.fit(boundsOf(solid.mesh), size, 1.1);
            image = MeshPainter::paint(PaintableSolid(solid), camera, size, ratio, style).image;
        } catch (const std::exception&) {
            // the verdict line says what is wrong with the part
        }
        QMetaObject::invokeMethod(
            this,
            [this, name = QString::fromStdString(part.name), image, generation] {
                if (generation == generation_) Q_EMIT drawn(name, image);
            },
            Qt::QueuedConnection);
    });
}

}  // namespace waybench
