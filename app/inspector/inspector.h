#pragma once
#include <QStringList>
#include <QWidget>
#include <vector>

class QLabel;
class QScrollArea;

namespace waybench {

class Document;
class LoadCaseSection;
class Section;

/// Everything that can be changed about the current part, in sections, and at the foot one line about the field that
/// is looked at: its range, its standard, what it does.
class Inspector : public QWidget {
    Q_OBJECT
public:
    explicit Inspector(Document& document, QWidget* parent = nullptr);
    void setFaces(const QStringList& names);
    LoadCaseSection* loadCase() const { return loadCase_; }

protected:
    void paintEvent(QPaintEvent* event) override;

private:
    void refresh();
    Document& document_;
    std::vector<Section*> sections_;
    LoadCaseSection* loadCase_;
    QScrollArea* scroll_;
    QLabel* about_;
};

}  // namespace waybench
