#pragma once
#include <QString>
#include <vector>

#include "core/geometry/vector.h"

namespace waybench {

/// A unit a drawing or body may have been made in.
struct FileUnit {
    QString name;  ///< "inch"
    double size_mm;
};
/// Those the user is offered, the usual one first.
const std::vector<FileUnit>& fileUnits();

/// "120 × 60 × 8 mm"; two sides where the third is none.
QString shownSize(const Vec3& size_mm);

}  // namespace waybench
