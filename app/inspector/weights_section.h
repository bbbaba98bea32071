#pragma once
#include <map>
#include <string>

#include "app/inspector/field_section.h"

class QSlider;
class QLabel;

namespace waybench {

/// How much each ranked question counts when both routes are good enough. Changing a weight computes nothing again.
class WeightsSection : public Section {
    Q_OBJECT
public:
    explicit WeightsSection(Document& document, QWidget* parent = nullptr);
    void showPart(const Part& part) override;

private:
    struct Row {
        QSlider* slider;
        QLabel* word;
    };
    std::map<std::string, Row> rows_;
};

}  // namespace waybench
