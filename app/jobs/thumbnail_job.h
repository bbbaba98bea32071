#pragma once
#include <QImage>
#include <QObject>
#include <QSize>
#include <QThreadPool>
#include <filesystem>

#include "core/comparison/part.h"

namespace waybench {

/// Draws small pictures of parts off the window thread. Parts whose shape cannot be built give a null image.
class ThumbnailJob : public QObject {
    Q_OBJECT
public:
    explicit ThumbnailJob(QObject* parent = nullptr);
    ~ThumbnailJob() override;
    void ask(const Part& part, const std::filesystem::path& folder, QSize size, double ratio);
    void dropAll();

Q_SIGNALS:
    void drawn(const QString& partName, const QImage& image);

private:
    QThreadPool pool_;
    quint64 generation_ = 0;
};

}  // namespace waybench
