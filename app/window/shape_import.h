#pragma once
#include <QObject>
#include <QStringList>
#include <QThreadPool>
#include <optional>

#include "core/geometry/import/shape_file.h"

class QWidget;

namespace waybench {

class Document;

/// Takes drawings and bodies into the document, one after the other: each is measured off the window thread, and where
/// it does not say its unit the user is asked, once. A file that cannot be read is taken as it is, so that the part's
/// own message says what is wrong with it; a question that is dismissed leaves its file out.
class ShapeImport : public QObject {
    Q_OBJECT
public:
    ShapeImport(Document& document, QWidget* window);
    ~ShapeImport() override;
    void take(const QString& file);

private:
    void next();
    void measuredOne(const std::optional<FileMeasure>& measure);

    Document& document_;
    QWidget* window_;
    QThreadPool pool_;
    QStringList waiting_;
    bool busy_ = false;
};

}  // namespace waybench
