#pragma once
#include <map>
#include <string>

#include "app/inspector/field_section.h"
#include "app/jobs/answer.h"

class QLabel;

namespace waybench {

/// Dimensions of the shape, each with a quiet "differs" disclosure that lets a route take its own value.
class ShapeSection : public Section {
    Q_OBJECT
public:
    explicit ShapeSection(Document& document, QWidget* parent = nullptr);
    void showPart(const Part& part) override;
    bool showFault(const QString& place, const QString& words) override;
    void clearFault() override;
    /// Tells the overall size of what is there, so that a slip of units is seen.
    void showSolids(const PartSolids& solids);

private:
    struct Row;
    void build(const Part& part);
    QString check(const std::string& key, double value, int route) const;
    void take(const std::string& key, double value, int route, const QString& mergeWord);
    void removeOverrides(const std::string& key);
    void makeUnitRow();
    void showUnit(const Shape& shape);

    QLabel *origin_, *size_;
    QWidget* unitRow_;  ///< drawings and surfaces only
    ChoiceBox* unit_;
    QWidget* rowsHost_ = nullptr;
    std::map<std::string, Row*> rows_;
    std::string builtFor_;
};

}  // namespace waybench
