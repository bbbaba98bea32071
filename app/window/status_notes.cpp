#include "app/window/status_notes.h"

#include <QHBoxLayout>
#include <QLabel>
#include <QToolButton>

#include "app/style/theme.h"

namespace waybench {

namespace {

QLabel* line(const QString& accessibleName, QWidget* parent) {
    auto* label = new QLabel(parent);
    label->setSizePolicy(QSizePolicy::Ignored, QSizePolicy::Preferred);  // the caution beside it is never cut
    label->setTextFormat(Qt::PlainText);
    label->setTextInteractionFlags(Qt::TextSelectableByMouse);
    label->setAccessibleName(accessibleName);
    return label;
}

void write(QLabel* label, const QString& words) {
    label->setText(words);
    label->setToolTip(words);
}

}  // namespace

StatusNotes::StatusNotes(QWidget* parent) : QWidget(parent) {
    fault_ = line(tr("Fault"), this);
    dismiss_ = new QToolButton(this);
    dismiss_->setObjectName(QStringLiteral("dismiss fault"));
    dismiss_->setText(QStringLiteral("×"));
    dismiss_->setToolTip(tr("Dismiss this message"));
    dismiss_->setAccessibleName(tr("Dismiss the fault"));
    dismiss_->setAutoRaise(true);
    note_ = line(tr("Note"), this);
    auto* row = new QHBoxLayout(this);
    row->setContentsMargins(0, 0, 0, 0);
    row->addWidget(fault_, 3);
    row->addWidget(dismiss_);
    row->addWidget(note_, 2);
    connect(dismiss_, &QToolButton::clicked, this, &StatusNotes::clearFault);
    connect(&Theme::instance(), &Theme::changed, this, &StatusNotes::colour);
    colour();
    clearFault();
}

void StatusNotes::colour() {
    QPalette palette = fault_->palette();
    palette.setColor(QPalette::WindowText, colours().fault);
    fault_->setPalette(palette);
}

void StatusNotes::note(const QString& words, About about) {
    about_ = about;
    write(note_, words);
}

void StatusNotes::dropNoteAboutAnswers() {
    if (about_ == About::answers) write(note_, {});
}

void StatusNotes::showFault(const QString& words) {
    write(fault_, words);
    fault_->show();
    dismiss_->show();
}

void StatusNotes::clearFault() {
    write(fault_, {});
    fault_->hide();
    dismiss_->hide();
}

QString StatusNotes::noteText() const {
    return note_->text();
}

QString StatusNotes::faultText() const {
    return fault_->text();
}

}  // namespace waybench
