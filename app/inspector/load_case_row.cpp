#include "app/inspector/load_case_row.h"

#include <QToolButton>
#include <QVBoxLayout>

#include "app/document/load_cases.h"
#include "app/inspector/choice_field.h"
#include "app/inspector/field_message.h"
#include "app/inspector/field_rows.h"
#include "app/inspector/field_section.h"
#include "app/inspector/text_field.h"
#include "app/style/shown_figure.h"
#include "app/style/theme.h"

namespace waybench {

LoadCaseRow::LoadCaseRow(QWidget* parent) : QWidget(parent) {
    choice_ = new ChoiceBox(this);
    choice_->setObjectName(QStringLiteral("choice load case"));
    choice_->setAccessibleName(tr("load case being edited"));
    choice_->setMinimumContentsLength(8);
    choice_->setSizePolicy(QSizePolicy::Expanding, QSizePolicy::Fixed);
    connect(choice_, &QComboBox::activated, this, [this](int k) { Q_EMIT chosen(std::size_t(k)); });
    connect(choice_, &ChoiceBox::describeAsked, this, &LoadCaseRow::describeAsked);
    const auto button = [this](const QString& words, const QString& name, const QString& help) {
        auto* made = new QToolButton(this);
        made->setObjectName(name);
        made->setText(words);
        made->setAutoRaise(true);
        made->setFont(textFont(TextSize::small));
        made->setToolTip(help);
        made->setAccessibleName(help);
        made->setFocusPolicy(Qt::StrongFocus);
        made->setMinimumSize(24, 24);
        return made;
    };
    auto* add = button(tr("+"), QStringLiteral("add load case"),
                       tr("New load case, held and measured as this one, with no load yet"));
    auto* copy = button(tr("copy"), QStringLiteral("copy load case"), tr("Copy of this load case with all its loads"));
    remove_ = removeButton(tr("Take this load case away"), QStringLiteral("remove load case"), this);
    connect(add, &QToolButton::clicked, this, &LoadCaseRow::addAsked);
    connect(copy, &QToolButton::clicked, this, &LoadCaseRow::copyAsked);
    connect(remove_, &QToolButton::clicked, this, &LoadCaseRow::removeAsked);
    name_ = new TextField(QStringLiteral("load case name"), tr("its name"),
                          tr("Of this load case, unlike the others' of the part."), this);
    name_->setCheck([this](const QString& name) { return refusal(name); });
    connect(name_, &TextField::edited, this, &LoadCaseRow::renameAsked);
    connect(name_, &TextField::describeAsked, this, &LoadCaseRow::describeAsked);
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(space(1));
    addFieldRow(column, {choice_, add, copy, remove_});
    message_ = new FieldMessage(this);
    message_->setContentsMargins(fieldIndent(), 0, 0, 0);
    column->addWidget(message_);
    column->addWidget(name_);
}

QString LoadCaseRow::refusal(const QString& name) const {
    if (name.isEmpty()) return tr("A load case needs a name.");
    if (others_.contains(name)) return tr("Another load case of the part is called %1.").arg(name);
    return {};
}

void LoadCaseRow::say(const QString& problem) {
    message_->say(problem);
    choice_->setProblem(problem);
}

void LoadCaseRow::show(const Part& part, std::size_t chosen) {
    QStringList names;
    for (std::size_t k = 0; k < part.loadCaseCount(); ++k)
        names << text(part.loadCaseAt(k).name);
    QStringList offered;
    for (int k = 0; k < choice_->count(); ++k)
        offered << choice_->itemText(k);
    if (offered != names) {
        choice_->clear();
        choice_->addItems(names);
    }
    choice_->setCurrentIndex(int(chosen));
    const QString& name = names.at(qsizetype(chosen));
    choice_->setDescription(
        names.size() == 1 ? tr("%1: the only load case. Each further one must hold as well.").arg(name)
                          : tr("%1: load case %2 of %3, shown in the fields below and in the views. Each must hold.")
                                .arg(name)
                                .arg(chosen + 1)
                                .arg(names.size()));
    remove_->setEnabled(names.size() > 1);
    remove_->setToolTip(names.size() > 1 ? tr("Take this load case away") : tr("A part keeps one load case"));
    name_->setValue(name);
    others_ = names;
    others_.removeAt(qsizetype(chosen));
}

}  // namespace waybench
