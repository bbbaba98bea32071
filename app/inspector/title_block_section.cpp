#include "app/inspector/title_block_section.h"

#include <QDate>
#include <QHBoxLayout>
#include <QLabel>
#include <QVBoxLayout>

#include "app/document/document.h"
#include "app/inspector/choice_field.h"
#include "app/inspector/text_field.h"
#include "app/style/shown_figure.h"
#include "app/style/theme.h"

namespace waybench {

TitleBlockSection::TitleBlockSection(Document& document, QWidget* parent)
    : Section(tr("Title block"), document, parent) {
    addField(QStringLiteral("title"), tr("title"), tr("Of the rig; stands at the head of the page."),
             &TitleBlock::title);
    addField(QStringLiteral("identification"), tr("identification"), tr("Number the page is filed under."),
             &TitleBlock::identification);
    addField(QStringLiteral("author"), tr("author"), tr("Who prepared the page."), &TitleBlock::author);
    TextField* date = addField(QStringLiteral("date"), tr("date of issue"),
                               tr("Year, month, day: 2026-01-31. Typed, so that the same project gives the same page."),
                               &TitleBlock::date);
    date->setCheck([](const QString& words) {
        if (words.isEmpty() || QDate::fromString(words, Qt::ISODate).isValid()) return QString();
        return tr("“%1” is no date. Write year, month, day: 2026-01-31. The last valid date stays in use.").arg(words);
    });
    addField(QStringLiteral("note"), tr("note"), tr("A line of your own for the page."), &TitleBlock::note);

    auto* row = new QWidget(this);
    auto* line = new QHBoxLayout(row);
    line->setContentsMargins(fieldIndent(), 0, 0, 0);
    line->setSpacing(space(2));
    auto* label = new QLabel(tr("workshop rates"), row);
    tariff_ = new ChoiceBox(row);
    tariff_->setObjectName(QStringLiteral("choice tariff"));
    tariff_->setAccessibleName(label->text());
    tariff_->setMinimumContentsLength(12);
    tariff_->setDescription(tr("Workshop rates: labour, electricity and machine hours every part is costed with."));
    for (const Tariff& tariff : document.shop().tariffs)
        tariff_->addItem(text(tariff.title), text(tariff.key));
    label->setBuddy(adopt(tariff_));
    line->addWidget(label, 2);
    line->addWidget(tariff_, 3);
    body()->addWidget(row);
    connect(tariff_, &QComboBox::activated, this, [this](int k) {
        TitleBlock next = this->document().titleBlock();
        next.tariff = tariff_->itemData(k).toString().toStdString();
        this->document().editTitleBlock(next, tr("workshop rates → %1").arg(tariff_->itemText(k)));
    });
    connect(&document, &Document::titleBlockChanged, this, &TitleBlockSection::showBlock);
    connect(&document, &Document::projectReset, this, &TitleBlockSection::showBlock);
    showBlock();
}

TextField* TitleBlockSection::addField(const QString& key, const QString& label, const QString& help,
                                       std::string TitleBlock::*which) {
    auto* field = new TextField(key, label, help, this);
    connect(field, &TextField::describeAsked, this, &Section::describeAsked);
    connect(field, &TextField::edited, this, [this, label, which](const QString& words) {
        TitleBlock next = document().titleBlock();
        next.*which = words.toStdString();
        document().editTitleBlock(next, tr("%1 → %2").arg(label, words));
    });
    show_.push_back([field, which](const TitleBlock& block) { field->setValue(text(block.*which)); });
    body()->addWidget(field);
    return field;
}

void TitleBlockSection::showPart(const Part&) {}

bool TitleBlockSection::showFault(const QString& place, const QString& words) {
    if (place != QLatin1String("tariff")) return false;
    tariff_->setProblem(words);
    return false;  // the words themselves go to the strip at the top
}

void TitleBlockSection::clearFault() {
    tariff_->setProblem({});
}

void TitleBlockSection::showBlock() {
    setEnabled(document().isOpen());
    const TitleBlock block = document().titleBlock();
    for (const auto& show : show_)
        show(block);
    int index = tariff_->findData(text(block.tariff));
    if (index < 0 && document().isOpen()) {
        tariff_->addItem(tr("%1 (unknown)").arg(text(block.tariff)), text(block.tariff));
        index = tariff_->count() - 1;
    }
    tariff_->setCurrentIndex(index);
}

}  // namespace waybench
