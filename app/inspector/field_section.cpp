#include "app/inspector/field_section.h"

#include <QSettings>
#include <QToolButton>
#include <QVBoxLayout>
#include <algorithm>

#include "app/document/document.h"
#include "app/inspector/choice_field.h"
#include "app/inspector/quantity_field.h"
#include "app/style/theme.h"

namespace waybench {

int fieldIndent() {
    return std::max(24, space(4)) + space(1);
}

Section::Section(const QString& title, Document& document, QWidget* parent) : QWidget(parent), document_(document) {
    heading_ = new QToolButton(this);
    heading_->setText(title);
    heading_->setCheckable(true);
    heading_->setAutoRaise(true);
    heading_->setToolButtonStyle(Qt::ToolButtonTextBesideIcon);
    heading_->setFont(textFont(TextSize::lead, QFont::DemiBold));
    heading_->setSizePolicy(QSizePolicy::Expanding, QSizePolicy::Fixed);
    content_ = new QWidget(this);
    body_ = new QVBoxLayout(content_);
    body_->setContentsMargins(space(1), 0, space(1), space(3));
    body_->setSpacing(space(1));
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(space(1));
    column->addWidget(heading_);
    column->addWidget(content_);
    const QString key = QStringLiteral("inspector/open/") + title;
    connect(heading_, &QToolButton::toggled, this, [this, key](bool open) {
        content_->setVisible(open);
        heading_->setArrowType(open ? Qt::DownArrow : Qt::RightArrow);
        QSettings().setValue(key, open);
    });
    setOpen(QSettings().value(key, true).toBool());
}

void Section::setOpen(bool open) {
    heading_->setChecked(open);
    content_->setVisible(open);
    heading_->setArrowType(open ? Qt::DownArrow : Qt::RightArrow);
}

bool Section::isOpen() const {
    return heading_->isChecked();
}

QString Section::title() const {
    return heading_->text();
}

bool Section::showFault(const QString&, const QString&) {
    return false;
}

ChoiceBox* Section::adopt(ChoiceBox* box) {
    connect(box, &ChoiceBox::describeAsked, this, &Section::describeAsked);
    return box;
}

QuantityField* Section::adopt(QuantityField* field) {
    connect(field, &QuantityField::describeAsked, this, &Section::describeAsked);
    return field;
}

}  // namespace waybench
