#pragma once
#include <QImage>
#include <QObject>
#include <QThreadPool>
#include <memory>

#include "app/document/fault.h"
#include "app/page/page_painter.h"
#include "core/progress/task.h"
#include "core/project/project.h"

namespace waybench {

/// What the one page is made of; enough to paint it at any size.
struct PageMaterial {
    PageContent content;
    std::shared_ptr<const Comparison> comparison;
};

/// Makes the page's content (with its own small sweep), its picture at a zoom, and its PDF, off the window thread.
class PageJob : public QObject {
    Q_OBJECT
public:
    explicit PageJob(std::shared_ptr<const Shop> shop, QObject* parent = nullptr);
    ~PageJob() override;
    /// @param comparison final answer if there is one already, else it is computed
    quint64 start(const Project& project, const Part& part, std::shared_ptr<const Comparison> comparison);
    void paint(std::shared_ptr<const PageMaterial> material, Paper paper, double pixelsPerMm, double ratio);
    void writePdf(std::shared_ptr<const PageMaterial> material, Paper paper, const QString& file);
    void cancel();

Q_SIGNALS:
    void ready(std::shared_ptr<const waybench::PageMaterial> material);
    void painted(const QImage& page);
    void written(const QString& file);
    void faulted(const waybench::Fault& fault);

private:
    std::shared_ptr<const Shop> shop_;
    QThreadPool pool_;
    Task task_;
    quint64 generation_ = 0, painting_ = 0;
};

}  // namespace waybench
