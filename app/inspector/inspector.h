#pragma once
#include <QStringList>
#include <QWidget>
#include <vector>

#include "app/document/fault.h"

class QLabel;
class QScrollArea;

namespace waybench {

class Document;
class FieldMessage;
class LoadCaseSection;
class ShapeSection;
class Section;
class TitleBlockSection;
struct Part;
struct PartSolids;

/// Everything that can be changed about the current part and the page's title block, in sections. At the head a strip
/// for faults no field can be named for; at the foot a line about the field that is looked at: its range, its
/// standard, what it does.
class Inspector : public QWidget {
    Q_OBJECT
public:
    explicit Inspector(Document& document, QWidget* parent = nullptr);
    /// Brings every field in line; null leaves the title block alone to be edited.
    void showPart(const Part* part);
    /// Face names for the choosers.
    void showSolids(const PartSolids& solids);
    void setFaces(const QStringList& names);
    /// Beside the field whose place the fault names, else in the strip at the head. Stays until the next edit or
    /// clearFault.
    void showFault(const Fault& fault);
    void clearFault();
    QString stripText() const;
    LoadCaseSection* loadCase() const { return loadCase_; }

Q_SIGNALS:
    void describeAsked(const QString& words);

protected:
    void paintEvent(QPaintEvent* event) override;

private:
    void refresh();
    void refreshOther();
    void orderTabs();

    Document& document_;
    std::vector<Section*> sections_;
    ShapeSection* shape_;
    LoadCaseSection* loadCase_;
    TitleBlockSection* titleBlock_;
    QScrollArea* scroll_;
    FieldMessage* strip_;
    QLabel* about_;
};

}  // namespace waybench
