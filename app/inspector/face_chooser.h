#pragma once
#include <QStringList>
#include <vector>

#include "app/inspector/choice_field.h"
#include "core/geometry/solid.h"

namespace waybench {

/// Chooses a face of the solid by its name. Boxes and points that the project uses stand below the names and stay
/// to be chosen again; a name the solid no longer has stays visible as it is.
class FaceChooser : public ChoiceBox {
    Q_OBJECT
public:
    /// @param name what the face is for, "held face 1"; read out and shown as the description
    explicit FaceChooser(const QString& name, QWidget* parent = nullptr);
    void show(const FaceSelector& now, const QStringList& faces, const std::vector<FaceSelector>& kept);

Q_SIGNALS:
    void chosen(const waybench::FaceSelector& selector);

private:
    std::vector<FaceSelector> offered_;  ///< one per entry
};

/// "top", or in words where a selector is no name.
QString wordOf(const FaceSelector& selector);

}  // namespace waybench
