#include "app/document/file_units.h"

#include <QCoreApplication>
#include <QStringList>
#include <cmath>

#include "app/style/shown_figure.h"

namespace waybench {

const std::vector<FileUnit>& fileUnits() {
    const auto named = [](const char* name) { return QCoreApplication::translate("FileUnit", name); };
    static const std::vector<FileUnit> units{
        {named("millimetre"), 1}, {named("centimetre"), 10}, {named("metre"), 1000}, {named("inch"), 25.4}};
    return units;
}

QString shownSize(const Vec3& size_mm) {
    QStringList sides;
    for (int axis = 0; axis < (size_mm.z() > 0 ? 3 : 2); ++axis)
        sides << shownNumber(std::round(100 * size_mm[axis]) / 100);
    return sides.join(QStringLiteral(" × ")) + QChar(0x202f) + shownUnit(Unit::millimetre);
}

}  // namespace waybench
