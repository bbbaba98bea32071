#pragma once
#include <functional>
#include <vector>

#include "app/document/edits.h"
#include "app/inspector/field_section.h"

namespace waybench {

class TextField;

/// What the page's title block says about the project, and the workshop rates all its parts are costed with.
class TitleBlockSection : public Section {
    Q_OBJECT
public:
    explicit TitleBlockSection(Document& document, QWidget* parent = nullptr);
    void showPart(const Part& part) override;
    bool showFault(const QString& place, const QString& words) override;
    void clearFault() override;
    /// The block belongs to the project, not to the part.
    void showBlock();

private:
    TextField* addField(const QString& key, const QString& label, const QString& help, std::string TitleBlock::*which);

    ChoiceBox* tariff_;
    std::vector<std::function<void(const TitleBlock&)>> show_;
};

}  // namespace waybench
