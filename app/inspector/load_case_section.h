#pragma once
#include <QStringList>
#include <functional>
#include <vector>

#include "app/inspector/field_section.h"

class QComboBox;

namespace waybench {

/// What holds the part, what pushes on it, where its deflection counts and what it may be.
class LoadCaseSection : public Section {
    Q_OBJECT
public:
    explicit LoadCaseSection(Document& document, QWidget* parent = nullptr);
    void showPart(const Part& part) override;
    /// Faces of the current solid, for the choosers.
    void setFaces(const QStringList& names);

    // What a picked face in the views asks for.
    void hold(const QString& face);
    void load(const QString& face);
    void measure(const QString& face);
    void release(const QString& face);

private:
    void build(const LoadCase& loadCase);
    void edit(const QString& text, const QString& mergeWord, const std::function<void(LoadCase&)>& change);
    /// A chooser of faces; `show` later sets it to the selector in use.
    QComboBox* faceChooser(QWidget* parent, const QString& name, std::function<FaceSelector&(LoadCase&)> which);
    QuantityField* number(QWidget* parent, const QString& key, const QString& label, const QString& help, Unit unit,
                          double minimum, double maximum, std::function<double&(LoadCase&)> which);
    QString signatureOf(const LoadCase& loadCase) const;

    QWidget* host_ = nullptr;
    QStringList faces_;
    QString built_;
    std::vector<std::function<void(const LoadCase&)>> show_;  ///< brings each field in line
};

}  // namespace waybench
