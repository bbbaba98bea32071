#pragma once
#include <QDialog>

#include "core/geometry/vector.h"

class QButtonGroup;

namespace waybench {

/// Asks for the unit of a file that does not say: how large the part would be in each stands beside it.
class UnitQuestion : public QDialog {
    Q_OBJECT
public:
    /// @param fileName without folder. @param size overall, in units of the file
    UnitQuestion(const QString& fileName, const Vec3& size, QWidget* parent = nullptr);
    double unit_mm() const;

private:
    QButtonGroup* choices_;
};

}  // namespace waybench
