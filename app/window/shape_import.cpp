#include "app/window/shape_import.h"

#include <QFileInfo>

#include "app/document/document.h"
#include "app/window/unit_question.h"
#include "core/fault/input_fault.h"

namespace waybench {

ShapeImport::ShapeImport(Document& document, QWidget* window) : QObject(window), document_(document), window_(window) {
    pool_.setMaxThreadCount(1);
}

ShapeImport::~ShapeImport() {
    pool_.clear();
    pool_.waitForDone();
}

void ShapeImport::take(const QString& file) {
    waiting_ << file;
    next();
}

void ShapeImport::next() {
    if (busy_ || waiting_.isEmpty()) return;
    busy_ = true;
    pool_.start([this, path = std::filesystem::path(waiting_.front().toStdString())] {
        std::optional<FileMeasure> measure;
        try {
            measure = measured(path, path.filename());
        } catch (const InputFault&) {
        } catch (const std::exception&) {  // such as no memory for it
        }
        QMetaObject::invokeMethod(
            this, [this, measure] { measuredOne(measure); }, Qt::QueuedConnection);
    });
}

void ShapeImport::measuredOne(const std::optional<FileMeasure>& measure) {
    const QString file = waiting_.takeFirst();
    double unit_mm = 0;
    bool isWanted = true;
    if (measure && !measure->statesUnit) {
        UnitQuestion question(QFileInfo(file).fileName(), measure->size, window_);
        isWanted = question.exec() == QDialog::Accepted;
        unit_mm = question.unit_mm();
    }
    if (isWanted) document_.importShape(file, unit_mm);
    busy_ = false;
    next();
}

}  // namespace waybench
