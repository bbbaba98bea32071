#include "app/inspector/vector_field.h"

#include <QGridLayout>
#include <QKeyEvent>
#include <QLabel>
#include <QLineEdit>
#include <QWheelEvent>
#include <cmath>

#include "app/inspector/field_keys.h"
#include "app/inspector/field_message.h"
#include "app/inspector/field_section.h"
#include "app/style/shown_figure.h"
#include "app/style/theme.h"
#include "core/fault/input_fault.h"
#include "core/quantity/quantity_text.h"

namespace waybench {

namespace {
constexpr const char* kAxes[] = {"x", "y", "z"};
}

VectorField::VectorField(const QString& key, const QString& label, Unit unit, double step, QWidget* parent)
    : QWidget(parent), key_(key), label_(label), unit_(unit), step_(step) {
    auto* grid = new QGridLayout(this);
    grid->setContentsMargins(fieldIndent(), 0, 0, 0);
    grid->setHorizontalSpacing(space(1));
    grid->setVerticalSpacing(1);
    for (int axis = 0; axis < 3; ++axis) {
        auto* letter = new QLabel(QString::fromLatin1(kAxes[axis]), this);
        letter->setForegroundRole(QPalette::PlaceholderText);
        auto* entry = new QLineEdit(this);
        entry->setAlignment(Qt::AlignRight);
        entry->setAccessibleName(tr("%1, %2").arg(label, letter->text()));
        entry->setObjectName(QStringLiteral("entry %1 %2").arg(key, letter->text()));
        entry->setMinimumWidth(space(8));
        entry->installEventFilter(this);
        letter->setBuddy(entry);
        entries_[std::size_t(axis)] = entry;
        grid->addWidget(letter, 0, 2 * axis);
        grid->addWidget(entry, 0, 2 * axis + 1);
        grid->setColumnStretch(2 * axis + 1, 1);
        connect(entry, &QLineEdit::textEdited, this, [this, axis] {
            if (typingAxis_ != axis) bout_ = nextBout();
            typingAxis_ = axis;
            pause_.start();
        });
        connect(entry, &QLineEdit::editingFinished, this, [this, axis] {
            if (typingAxis_ == axis) take(axis, true);
        });
    }
    auto* symbol = new QLabel(shownUnit(unit), this);
    symbol->setForegroundRole(QPalette::PlaceholderText);
    symbol->setVisible(!symbol->text().isEmpty());
    grid->addWidget(symbol, 0, 6);
    message_ = new FieldMessage(this);
    grid->addWidget(message_, 1, 0, 1, 7);
    pause_.setSingleShot(true);
    pause_.setInterval(350);
    connect(&pause_, &QTimer::timeout, this, [this] {
        if (typingAxis_ >= 0) take(typingAxis_, false);
    });
}

void VectorField::setValue(const Vec3& value) {
    value_ = value;
    for (int axis = 0; axis < 3; ++axis) {
        QLineEdit* entry = entries_[std::size_t(axis)];
        if (axis != typingAxis_ && entry->text() != shownNumber(value[axis])) entry->setText(shownNumber(value[axis]));
    }
    for (int axis = 0; axis < 3; ++axis)
        if (axis != typingAxis_) say(axis, {});
}

void VectorField::abandon() {
    pause_.stop();
    typingAxis_ = -1;
}

void VectorField::setProblem(const QString& problem) {
    outside_ = problem;
    for (int axis = 0; axis < 3; ++axis)
        say(axis, refused_[std::size_t(axis)]);
}

QString VectorField::problem() const {
    return message_->text();
}

void VectorField::say(int axis, const QString& refused) {
    refused_[std::size_t(axis)] = refused;
    QString first = outside_;
    for (const QString& each : refused_)
        if (!each.isEmpty()) first = each;
    message_->say(first);
    const QString& problem = refused.isEmpty() ? outside_ : refused;
    QLineEdit* entry = entries_[std::size_t(axis)];
    entry->setAccessibleDescription(problem);
    entry->setProperty("faulty", !problem.isEmpty());
    entry->update();
}

void VectorField::take(int axis, bool final) {
    pause_.stop();
    QLineEdit* entry = entries_[std::size_t(axis)];
    QString typed = entry->text().trimmed();
    typed.replace(QChar(0x2212), QLatin1Char('-'));
    if (final) typingAxis_ = -1;
    try {
        const double next = parseQuantity(typed.toStdString(), unit_);
        say(axis, {});
        if (final) entry->setText(shownNumber(next));
        if (next == value_[axis]) return;
        value_[axis] = next;
        Q_EMIT edited(value_, QStringLiteral("type %1 %2 %3").arg(key_).arg(axis).arg(bout_));
    } catch (const InputFault& fault) {
        say(axis, tr("%1. %2 stays in use.").arg(text(fault.problem()), shownNumber(value_[axis])));
    }
}

void VectorField::nudge(int axis, double steps) {
    if (typingAxis_ == axis) take(axis, true);
    value_[axis] = std::round((value_[axis] + steps * step_) / step_) * step_;
    entries_[std::size_t(axis)]->setText(shownNumber(value_[axis]));
    say(axis, {});
    Q_EMIT edited(value_, QStringLiteral("nudge %1 %2").arg(key_).arg(axis));
}

bool VectorField::eventFilter(QObject* watched, QEvent* event) {
    for (int axis = 0; axis < 3; ++axis) {
        QLineEdit* entry = entries_[std::size_t(axis)];
        if (watched != entry) continue;
        if (endsTyping(event) && typingAxis_ == axis) take(axis, true);
        if (belongsToWindow(event, typingAxis_ == axis)) return true;
        if (event->type() == QEvent::KeyPress) {
            switch (static_cast<QKeyEvent*>(event)->key()) {
                case Qt::Key_Up:
                    nudge(axis, 1);
                    return true;
                case Qt::Key_Down:
                    nudge(axis, -1);
                    return true;
                case Qt::Key_PageUp:
                    nudge(axis, 10);
                    return true;
                case Qt::Key_PageDown:
                    nudge(axis, -10);
                    return true;
                case Qt::Key_Escape:
                    if (typingAxis_ == axis) {
                        typingAxis_ = -1;
                        pause_.stop();
                        say(axis, {});
                        entry->setText(shownNumber(value_[axis]));
                        return true;
                    }
                    break;
                default:
                    break;
            }
        } else if (event->type() == QEvent::Wheel) {
            if (!entry->hasFocus())
                event->ignore();
            else if (const double steps = wheel_.take(*static_cast<QWheelEvent*>(event)); steps != 0)
                nudge(axis, steps);
            return true;
        } else if (event->type() == QEvent::FocusIn) {
            const QString unit = shownUnit(unit_);
            Q_EMIT describeAsked(label_ + (unit.isEmpty() ? QString() : QStringLiteral(", ") + unit) +
                                 (help_.isEmpty() ? QString() : QStringLiteral(". ") + help_));
            entry->selectAll();
        }
    }
    return QWidget::eventFilter(watched, event);
}

}  // namespace waybench
