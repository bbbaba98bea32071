#pragma once
#include <functional>
#include <map>
#include <string>
#include <vector>

#include "app/inspector/field_section.h"
#include "core/route/route.h"

namespace waybench {

class FieldMessage;

/// Fields made from setting descriptions: the printed recipe or the machining plan. Which of the two, the access says.
class SettingsSection : public Section {
    Q_OBJECT
public:
    struct Access {
        std::function<std::string(const Part&, const std::string& key)> get;
        std::function<void(Part&, const std::string& key, const std::string& value)> set;
        std::function<QString(const std::string& choice)> titleOf;  ///< words for a choice's key
    };
    SettingsSection(const QString& title, std::vector<SettingDescription> settings, Access access, Document& document,
                    QWidget* parent = nullptr);
    void showPart(const Part& part) override;
    bool showFault(const QString& place, const QString& words) override;
    void clearFault() override;

private:
    void take(const SettingDescription& setting, const std::string& value, const QString& mergeWord);

    std::vector<SettingDescription> settings_;
    Access access_;
    std::map<std::string, QuantityField*> fields_;
    struct Choice {
        ChoiceBox* box;
        FieldMessage* message;
    };
    std::map<std::string, Choice> choices_;
};

SettingsSection* makeRecipeSection(Document& document, QWidget* parent);
SettingsSection* makePlanSection(Document& document, QWidget* parent);

}  // namespace waybench
