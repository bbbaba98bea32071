#pragma once
#include <QStringList>
#include <functional>
#include <optional>
#include <vector>

#include "app/inspector/field_section.h"

class QVBoxLayout;

namespace waybench {

class FaceChooser;
class FieldMessage;
struct FieldDescription;

/// What holds the part, what pushes on it, where its deflection counts and what it may be.
class LoadCaseSection : public Section {
    Q_OBJECT
public:
    explicit LoadCaseSection(Document& document, QWidget* parent = nullptr);
    void showPart(const Part& part) override;
    bool showFault(const QString& place, const QString& words) override;
    void clearFault() override;
    /// Faces of the current solid, for the choosers.
    void setFaces(const QStringList& names);

    // What a picked face in the views asks for.
    void hold(const QString& face);
    void load(const QString& face);
    void measure(const QString& face);
    void release(const QString& face);

private:
    using Selector = std::function<FaceSelector&(LoadCase&)>;
    using Number = std::function<double&(LoadCase&)>;
    /// The message a fault's place belongs to: "hold 1", "deflection limit".
    struct Spot {
        QString place;
        std::function<void(const QString& words)> say;
    };

    void build(const LoadCase& loadCase);
    void buildHolds(const LoadCase& loadCase, QVBoxLayout* column);
    void buildLoads(const LoadCase& loadCase, QVBoxLayout* column);
    void buildMeasurement(QVBoxLayout* column);
    void buildUse(const LoadCase& loadCase, QVBoxLayout* column);
    void edit(const QString& text, const QString& mergeWord, const std::function<void(LoadCase&)>& change);
    FaceChooser* faceChooser(const QString& name, Selector which);
    QuantityField* number(const FieldDescription& description, const QString& faultPlace, Number which);
    /// A message under the row built last, for faults about `place`.
    FieldMessage* spot(const QString& place, QVBoxLayout* column, ChoiceBox* box = nullptr);
    /// A face that nothing uses yet, for a new entry.
    std::string freeFace(const LoadCase& loadCase) const;
    void keepSelectors(const Part& part);
    QString signatureOf(const LoadCase& loadCase) const;

    QWidget* host_ = nullptr;
    QStringList faces_;
    std::string part_;
    std::vector<FaceSelector> kept_;  ///< boxes and points of this part: stay to be chosen
    QString built_;
    std::vector<std::function<void(const LoadCase&)>> show_;  ///< brings each field in line
    std::vector<Spot> spots_;
};

}  // namespace waybench
