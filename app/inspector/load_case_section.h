#pragma once
#include <QStringList>
#include <functional>
#include <optional>
#include <vector>

#include "app/inspector/field_section.h"

class QToolButton;
class QVBoxLayout;

namespace waybench {

class FaceChooser;
class FieldMessage;
class LoadCaseRow;
class VectorField;
struct FieldDescription;

/// What holds the part, what pushes on it, where its deflection counts and what it may be; one load case at a time,
/// chosen at the head. Undoing an edit of another case shows that one.
class LoadCaseSection : public Section {
    Q_OBJECT
public:
    explicit LoadCaseSection(Document& document, QWidget* parent = nullptr);
    void showPart(const Part& part) override;
    bool showFault(const QString& place, const QString& words) override;
    void clearFault() override;
    /// Faces of the current solid, for the choosers.
    void setFaces(const QStringList& names);

    std::size_t chosenCase() const { return chosen_; }
    void chooseCase(std::size_t index);

    // What a picked face in the views asks for, of the chosen case.
    void hold(const QString& face, HoldKind kind);
    void load(const QString& face);
    void attach(const QString& face);
    void measure(const QString& face);
    void release(const QString& face);

Q_SIGNALS:
    /// The chosen case as the fields show it.
    void caseShown(const waybench::LoadCase& loadCase, std::size_t index);

private:
    using Selector = std::function<FaceSelector&(LoadCase&)>;
    using Number = std::function<double&(LoadCase&)>;
    using Direction = std::function<Vec3&(LoadCase&)>;
    /// The message a fault's place belongs to: "hold 1", "deflection limit".
    struct Spot {
        QString place;
        std::function<void(const QString& words)> say;
    };

    /// Words of a choice among the six ways along the axes, with a vector for any other.
    struct DirectionWords {
        QString key, name, help, vectorName, vectorHelp;
        QString step;  ///< "measure along %1"
        QString none;  ///< entry that takes the direction away; empty: there must be one, and only its way counts
    };
    struct DirectionFields {
        ChoiceBox* choice;
        VectorField* vector;
    };

    void build(const LoadCase& loadCase);
    void buildHolds(const LoadCase& loadCase, QVBoxLayout* column);
    void buildHeavy(const LoadCase& loadCase, QVBoxLayout* column);
    void buildLoads(const LoadCase& loadCase, QVBoxLayout* column);
    void buildMeasurement(QVBoxLayout* column);
    void buildUse(const LoadCase& loadCase, QVBoxLayout* column);
    void connectRow();
    /// The case the fields are about.
    const LoadCase& chosenOf(const Part& part) const;
    /// Which case to show after an edit, undo or redo: the one that changed.
    void followChange(const Part& part);
    void edit(const QString& text, const QString& mergeWord, const std::function<void(LoadCase&)>& change);
    /// The cross behind an entry of a list. @param step named in the undo menu
    QToolButton* removeEntry(const QString& words, const QString& name, const QString& step,
                             std::function<void(LoadCase&)> removal);
    ChoiceBox* kindChoice(const QString& key, const QString& name,
                          const std::vector<std::pair<QString, QString>>& kinds, int now);
    DirectionFields directionFields(const DirectionWords& words, Direction which);
    FaceChooser* faceChooser(const QString& name, Selector which);
    QuantityField* number(const FieldDescription& description, const QString& faultPlace, Number which);
    /// A message under the row built last, for faults about `place`.
    FieldMessage* spot(const QString& place, QVBoxLayout* column, ChoiceBox* box = nullptr);
    /// A face that nothing uses yet, for a new entry.
    std::string freeFace(const LoadCase& loadCase) const;
    void keepSelectors(const Part& part);
    QString signatureOf(const LoadCase& loadCase) const;

    LoadCaseRow* row_;
    QWidget* host_ = nullptr;
    QStringList faces_;
    std::size_t chosen_ = 0;
    Part shown_;                      ///< as of the last showing
    std::vector<FaceSelector> kept_;  ///< boxes and points of this part: stay to be chosen
    QString built_;
    std::vector<std::function<void(const LoadCase&)>> show_;  ///< brings each field in line
    std::vector<Spot> spots_;
};

}  // namespace waybench
