#include "app/inspector/settings_section.h"

#include <QHBoxLayout>
#include <QLabel>
#include <QVBoxLayout>

#include "app/document/document.h"
#include "app/inspector/choice_field.h"
#include "app/inspector/field_message.h"
#include "app/inspector/quantity_field.h"
#include "app/style/shown_figure.h"
#include "app/style/theme.h"
#include "core/quantity/quantity_text.h"

namespace waybench {

namespace {
bool isShare(const SettingDescription& s) {
    return s.unit == Unit::none && !s.isWhole && s.maximum <= 1.0001 && s.minimum >= 0 && s.choices.empty();
}
}  // namespace

SettingsSection::SettingsSection(const QString& title, std::vector<SettingDescription> settings, Access access,
                                 Document& document, QWidget* parent)
    : Section(title, document, parent), settings_(std::move(settings)), access_(std::move(access)) {
    for (const SettingDescription& s : settings_) {
        if (!s.choices.empty()) {
            auto* row = new QWidget(this);
            auto* line = new QHBoxLayout(row);
            line->setContentsMargins(fieldIndent(), 0, 0, 0);
            line->setSpacing(space(2));
            auto* label = new QLabel(text(s.label), row);
            auto* box = new ChoiceBox(row);
            for (const std::string& choice : s.choices)
                box->addItem(access_.titleOf(choice), text(choice));
            box->setMinimumContentsLength(8);
            box->setSizePolicy(QSizePolicy::Expanding, QSizePolicy::Fixed);
            box->setAccessibleName(text(s.label));
            box->setObjectName(QStringLiteral("choice ") + text(s.key));
            box->setDescription(text(s.label) + QStringLiteral(". ") + text(s.help));
            label->setBuddy(adopt(box));
            line->addWidget(label);
            line->addStretch();
            line->addWidget(box, 1);
            body()->addWidget(row);
            auto* message = new FieldMessage(this);
            message->setContentsMargins(fieldIndent(), 0, 0, 0);
            body()->addWidget(message);
            choices_[s.key] = {box, message};
            connect(box, &QComboBox::activated, this,
                    [this, s, box](int k) { take(s, box->itemData(k).toString().toStdString(), {}); });
            continue;
        }
        FieldDescription f;
        f.key = text(s.key);
        f.label = text(s.label);
        f.help = text(s.help);
        f.unit = s.unit;
        f.minimum = s.minimum;
        f.maximum = s.maximum;
        f.standard = s.standard;
        f.isWhole = s.isWhole;
        if (isShare(s)) {
            f.displayScale = 100;
            f.displayUnit = QStringLiteral("%");
        }
        auto* field = adopt(new QuantityField(f, this));
        field->setCheck([this, s](double v) -> QString {
            const Part* part = this->document().currentPart();
            if (!part) return {};
            try {
                Part next = *part;
                access_.set(next, s.key, plainNumber(v));
            } catch (const InputFault& fault) {
                return text(fault.problem());
            }
            return {};
        });
        connect(field, &QuantityField::edited, this,
                [this, s](double v, const QString& word) { take(s, plainNumber(v), word); });
        body()->addWidget(field);
        fields_[s.key] = field;
    }
}

void SettingsSection::showPart(const Part& part) {
    for (const SettingDescription& s : settings_) {
        const std::string now = access_.get(part, s.key);
        if (const auto it = choices_.find(s.key); it != choices_.end()) {
            QComboBox* box = it->second.box;
            int k = box->findData(text(now));
            if (k < 0) {  // named by the project, not in the catalogue: said as it is
                box->addItem(tr("%1 (unknown)").arg(text(now)), text(now));
                k = box->count() - 1;
            }
            box->setCurrentIndex(k);
        } else if (const auto field = fields_.find(s.key); field != fields_.end()) {
            try {
                field->second->setValue(parseQuantity(now, s.unit));
            } catch (const InputFault& fault) {
                field->second->setProblem(text(fault.problem()));
            }
        }
    }
}

bool SettingsSection::showFault(const QString& place, const QString& words) {
    for (const SettingDescription& s : settings_) {
        if (place != QStringLiteral("setting '%1'").arg(text(s.key))) continue;
        if (const auto it = choices_.find(s.key); it != choices_.end()) {
            it->second.box->setProblem(words);
            it->second.message->say(words);
        } else {
            fields_.at(s.key)->setProblem(words);
        }
        return true;
    }
    return false;
}

void SettingsSection::clearFault() {
    for (auto& [key, choice] : choices_) {
        choice.box->setProblem({});
        choice.message->say({});
    }
    for (auto& [key, field] : fields_)
        field->setProblem({});
}

void SettingsSection::take(const SettingDescription& setting, const std::string& value, const QString& mergeWord) {
    const Part* part = document().currentPart();
    if (!part) return;
    Part next = *part;
    const std::string before = access_.get(next, setting.key);
    try {
        access_.set(next, setting.key, value);
    } catch (const InputFault& fault) {
        if (const auto field = fields_.find(setting.key); field != fields_.end())
            field->second->setProblem(text(fault.problem()));
        return;
    }
    const bool isChoice = !setting.choices.empty();
    const auto word = [&](const std::string& v) { return isChoice ? access_.titleOf(v) : text(v); };
    document().editCurrent(next, tr("%1 %2 → %3").arg(text(setting.label), word(before), word(value)), mergeWord);
}

SettingsSection* makeRecipeSection(Document& document, QWidget* parent) {
    const Shop& shop = document.shop();
    return new SettingsSection(
        SettingsSection::tr("Printed recipe"), printed::settingDescriptions(shop),
        {.get = [](const Part& p, const std::string& key) { return printed::get(p.recipe, key); },
         .set = [](Part& p, const std::string& key, const std::string& v) { printed::set(p.recipe, key, v); },
         .titleOf =
             [&shop](const std::string& choice) {
                 for (const auto& m : shop.printingMaterials)
                     if (m.key == choice) return text(m.title);
                 for (const auto& m : shop.printers)
                     if (m.key == choice) return text(m.title);
                 return text(choice);
             }},
        document, parent);
}

SettingsSection* makePlanSection(Document& document, QWidget* parent) {
    const Shop& shop = document.shop();
    return new SettingsSection(
        SettingsSection::tr("Machining plan"), machined::settingDescriptions(shop),
        {.get = [](const Part& p, const std::string& key) { return machined::get(p.plan, key); },
         .set = [](Part& p, const std::string& key, const std::string& v) { machined::set(p.plan, key, v); },
         .titleOf =
             [&shop](const std::string& choice) {
                 for (const auto& m : shop.stockMaterials)
                     if (m.key == choice) return text(m.title);
                 for (const auto& m : shop.mills)
                     if (m.key == choice) return text(m.title);
                 for (const auto& w : shop.workholdings)
                     if (w.key == choice) return text(w.title);
                 return text(choice);
             }},
        document, parent);
}

}  // namespace waybench
