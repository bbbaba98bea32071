#include "app/inspector/text_field.h"

#include <QGridLayout>
#include <QKeyEvent>
#include <QLabel>
#include <QLineEdit>

#include "app/inspector/field_keys.h"
#include "app/inspector/field_message.h"
#include "app/inspector/field_section.h"
#include "app/style/theme.h"

namespace waybench {

TextField::TextField(const QString& key, const QString& label, const QString& help, QWidget* parent)
    : QWidget(parent), help_(label + QStringLiteral(". ") + help) {
    auto* name = new QLabel(label, this);
    entry_ = new QLineEdit(this);
    entry_->setObjectName(QStringLiteral("entry ") + key);
    entry_->setAccessibleName(label);
    entry_->setMinimumHeight(24);
    entry_->installEventFilter(this);
    name->setBuddy(entry_);
    message_ = new FieldMessage(this);
    setToolTip(help_);
    auto* grid = new QGridLayout(this);
    grid->setContentsMargins(fieldIndent(), 0, 0, 0);
    grid->setHorizontalSpacing(space(2));
    grid->setVerticalSpacing(1);
    grid->addWidget(name, 0, 0);
    grid->addWidget(entry_, 0, 1);
    grid->addWidget(message_, 1, 0, 1, 2);
    grid->setColumnStretch(0, 2);
    grid->setColumnStretch(1, 3);
    connect(entry_, &QLineEdit::textEdited, this, [this] { typing_ = true; });
    connect(entry_, &QLineEdit::editingFinished, this, &TextField::take);
}

void TextField::setValue(const QString& value) {
    value_ = value;
    if (typing_) return;
    if (entry_->text() != value) {
        entry_->setText(value);
        entry_->setCursorPosition(0);
    }
    say({});
}

QString TextField::problem() const {
    return message_->text();
}

void TextField::say(const QString& problem) {
    message_->say(problem);
    entry_->setAccessibleDescription(problem);
    entry_->setProperty("faulty", !problem.isEmpty());
    entry_->update();
}

void TextField::take() {
    if (!typing_) return;
    typing_ = false;
    const QString typed = entry_->text().trimmed();
    const QString said = check_ ? check_(typed) : QString();
    say(said);
    if (!said.isEmpty() || typed == value_) return;
    value_ = typed;
    Q_EMIT edited(typed);
}

bool TextField::eventFilter(QObject* watched, QEvent* event) {
    if (watched != entry_) return QWidget::eventFilter(watched, event);
    if (endsTyping(event)) take();
    if (belongsToWindow(event, typing_)) return true;
    if (event->type() == QEvent::FocusIn) {
        Q_EMIT describeAsked(help_);
    } else if (event->type() == QEvent::KeyPress && static_cast<QKeyEvent*>(event)->key() == Qt::Key_Escape &&
               typing_) {
        typing_ = false;
        entry_->setText(value_);
        say({});
        return true;
    }
    return QWidget::eventFilter(watched, event);
}

}  // namespace waybench
