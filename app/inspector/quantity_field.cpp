#include "app/inspector/quantity_field.h"

#include <QCoreApplication>
#include <QEnterEvent>
#include <QGridLayout>
#include <QKeyEvent>
#include <QLabel>
#include <QPainter>
#include <QStyle>
#include <algorithm>
#include <cmath>

#include "app/document/fault.h"
#include "app/inspector/field_keys.h"
#include "app/inspector/field_message.h"
#include "app/inspector/field_section.h"
#include "app/style/shown_figure.h"
#include "app/style/theme.h"
#include "core/quantity/quantity_text.h"

namespace waybench {

namespace {
constexpr int kTypingPause_ms = 350;

double tidy(double x) {
    return std::abs(x) < 1e-12 ? 0 : std::round(x * 1e9) / 1e9;
}
}  // namespace

QString FieldDescription::rangeText() const {
    if (!(maximum > minimum)) return {};
    const QString u = displayUnit.isEmpty() ? shownUnit(unit) : displayUnit;
    const auto one = [&](double v) {
        return u.isEmpty() ? shownNumber(tidy(v * displayScale))
                           : shownNumber(tidy(v * displayScale)) + QChar(0x202f) + u;
    };
    return QCoreApplication::translate("QuantityField", "%1 to %2").arg(one(minimum), one(maximum));
}

OriginMark::OriginMark(QWidget* parent) : QWidget(parent) {
    setFixedWidth(fieldIndent() - space(1));
    setMinimumHeight(24);
}

QSize OriginMark::sizeHint() const {
    return {fieldIndent() - space(1), std::max(24, space(6))};
}

void OriginMark::setTyped(bool typed, const QString& standardText) {
    typed_ = typed;
    setToolTip(typed ? tr("Typed. Click to return to the standard: %1").arg(standardText) : tr("Standard value"));
    setAccessibleName(typed ? tr("typed, return to %1").arg(standardText) : tr("standard value"));
    setFocusPolicy(typed ? Qt::TabFocus : Qt::NoFocus);
    setCursor(typed ? Qt::PointingHandCursor : Qt::ArrowCursor);
    update();
}

void OriginMark::paintEvent(QPaintEvent*) {
    QPainter painter(this);
    painter.setRenderHint(QPainter::Antialiasing);
    const double r = space(1) * 0.72;
    const QPointF centre(width() / 2.0, height() / 2.0);
    if (hasFocus()) {
        painter.setPen(QPen(colours().accent, 2));
        painter.drawEllipse(centre, r + 3, r + 3);
    }
    painter.setPen(QPen(typed_ ? colours().accent : colours().mark, 1.2));
    painter.setBrush(typed_ ? QBrush(colours().accent) : QBrush(Qt::NoBrush));
    painter.drawEllipse(centre, r, r);
}

void OriginMark::mouseReleaseEvent(QMouseEvent*) {
    if (typed_) Q_EMIT resetAsked();
}
void OriginMark::keyPressEvent(QKeyEvent* event) {
    if (typed_ && (event->key() == Qt::Key_Return || event->key() == Qt::Key_Space))
        Q_EMIT resetAsked();
    else
        QWidget::keyPressEvent(event);
}

QuantityField::QuantityField(FieldDescription description, QWidget* parent)
    : QWidget(parent), description_(std::move(description)) {
    label_ = new QLabel(description_.label, this);
    label_->setMinimumWidth(1);
    entry_ = new QLineEdit(this);
    entry_->setAlignment(Qt::AlignRight);
    entry_->setObjectName(QStringLiteral("entry ") + description_.key);
    entry_->setAccessibleName(description_.label);
    entry_->installEventFilter(this);
    entry_->setFixedWidth(QFontMetrics(font()).horizontalAdvance(QStringLiteral("00000.00")) + space(2));
    entry_->setPlaceholderText(description_.standardWords);
    label_->setBuddy(entry_);
    unit_ =
        new QLabel(description_.displayUnit.isEmpty() ? shownUnit(description_.unit) : description_.displayUnit, this);
    unit_->setForegroundRole(QPalette::PlaceholderText);
    unit_->setMinimumWidth(QFontMetrics(font()).horizontalAdvance(QStringLiteral("MPa")));
    message_ = new FieldMessage(this);
    origin_ = new OriginMark(this);
    origin_->setVisible(description_.standard.has_value());

    auto* grid = new QGridLayout(this);
    grid->setContentsMargins(description_.standard ? 0 : fieldIndent(), 0, 0, 0);
    grid->setHorizontalSpacing(space(1));
    grid->setVerticalSpacing(1);
    grid->addWidget(origin_, 0, 0);
    grid->addWidget(label_, 0, 1);
    grid->addWidget(entry_, 0, 2);
    grid->addWidget(unit_, 0, 3);
    grid->addWidget(message_, 1, 1, 1, 3);
    grid->setColumnStretch(1, 1);
    setToolTip(descriptionText());
    setMinimumHeight(space(7));

    pause_.setSingleShot(true);
    pause_.setInterval(kTypingPause_ms);
    connect(&pause_, &QTimer::timeout, this, [this] { take(false); });
    connect(entry_, &QLineEdit::textEdited, this, [this] {
        if (!typing_) bout_ = nextBout();
        typing_ = true;
        pause_.start();
    });
    connect(entry_, &QLineEdit::editingFinished, this, [this] {
        if (typing_) take(true);
    });
    connect(origin_, &OriginMark::resetAsked, this, [this] {
        typing_ = false;
        refuse({});
        Q_EMIT edited(*description_.standard, {});
    });
}

void QuantityField::setLabelVisible(bool visible) {
    label_->setVisible(visible);
}

QString QuantityField::descriptionText() const {
    QString s = description_.label;
    if (!description_.rangeText().isEmpty()) s += QStringLiteral(": ") + description_.rangeText();
    if (description_.standard) s += tr(", standard %1").arg(standardText());
    if (!description_.help.isEmpty()) s += QStringLiteral(". ") + description_.help;
    return s;
}

QString QuantityField::standardText() const {
    return description_.standardWords.isEmpty() ? shownNumber(tidy(*description_.standard * description_.displayScale))
                                                : description_.standardWords;
}

void QuantityField::setValue(double value) {
    value_ = value;
    if (description_.standard)
        origin_->setTyped(
            std::abs(value - *description_.standard) > 1e-9 * std::max(1.0, std::abs(value)),
            description_.standardWords.isEmpty() ? standardText() + QLatin1Char(' ') + unit_->text() : standardText());
    if (!typing_) {
        showValue();
        refuse({});
    }
}

void QuantityField::abandon() {
    pause_.stop();
    typing_ = false;
}

void QuantityField::showValue() {
    const bool isInWords = !description_.standardWords.isEmpty() && value_ == *description_.standard;
    const QString shownText = isInWords ? QString() : shownNumber(tidy(value_ * description_.displayScale));
    if (entry_->text() != shownText) entry_->setText(shownText);
}

void QuantityField::setProblem(const QString& problem) {
    outside_ = problem;
    say();
}

void QuantityField::refuse(const QString& problem) {
    refused_ = problem;
    say();
}

void QuantityField::say() {
    const QString& problem = refused_.isEmpty() ? outside_ : refused_;
    if (message_->text() == problem) return;
    message_->say(problem);
    entry_->setAccessibleDescription(problem);
    entry_->setProperty("faulty", !problem.isEmpty());
    entry_->update();
}

QString QuantityField::problem() const {
    return message_->text();
}

bool QuantityField::take(bool final) {
    pause_.stop();
    const QString typed = entry_->text().trimmed();
    double next = 0;
    try {
        QString plain =
            typed.isEmpty() && !description_.standardWords.isEmpty() ? QString::number(*description_.standard) : typed;
        plain.replace(QChar(0x2212), QLatin1Char('-'));
        if (description_.displayUnit == QStringLiteral("%")) {
            plain.remove(QLatin1Char('%'));
            next = parseQuantity(plain.toStdString(), Unit::none) / description_.displayScale;
        } else {
            next = parseQuantity(plain.toStdString(), description_.unit) / description_.displayScale;
        }
    } catch (const InputFault& fault) {
        QString said = QString::fromStdString(fault.problem());
        if (!fault.remedy().empty()) said += QStringLiteral(": ") + QString::fromStdString(fault.remedy());
        if (final) typing_ = false;
        refuse(tr("%1. %2 stays in use.").arg(said, shownNumber(tidy(value_ * description_.displayScale))));
        return false;
    }
    QString said;
    if (description_.isWhole && next != std::round(next))
        said = tr("a whole number is needed");
    else if (description_.maximum > description_.minimum &&
             (next < description_.minimum - 1e-12 || next > description_.maximum + 1e-12))
        said = tr("outside %1").arg(description_.rangeText());
    else if (check_)
        said = check_(next);
    if (!said.isEmpty()) {
        if (final) typing_ = false;
        refuse(tr("%1: %2. %3 stays in use.").arg(typed, said, shownNumber(tidy(value_ * description_.displayScale))));
        return false;
    }
    refuse({});
    if (final) typing_ = false;
    const bool differs = next != value_;
    value_ = next;
    if (final) showValue();
    if (differs) Q_EMIT edited(next, QStringLiteral("type %1 %2").arg(description_.key).arg(bout_));
    return true;
}

void QuantityField::nudge(double steps) {
    if (typing_ && !take(true)) return;
    double step = description_.step;
    if (description_.isWhole) {
        step = std::max(1.0, std::round(step));
    } else if (step <= 0) {
        const double size = std::abs(value_) > 0                          ? std::abs(value_)
                            : description_.maximum > description_.minimum ? description_.maximum - description_.minimum
                                                                          : 1;
        step =
            std::pow(10.0, std::floor(std::log10(size * description_.displayScale) - 0.6)) / description_.displayScale;
        if (size * description_.displayScale / (step * description_.displayScale) > 20) step *= 5;
    }
    double next = tidy(std::round((value_ + steps * step) / step) * step);
    if (description_.maximum > description_.minimum)
        next = std::clamp(next, description_.minimum, description_.maximum);
    if (next == value_) return;
    if (check_) {
        if (const QString said = check_(next); !said.isEmpty()) {
            refuse(said);
            return;
        }
    }
    value_ = next;
    showValue();
    refuse({});
    Q_EMIT edited(next, QStringLiteral("nudge ") + description_.key);
}

bool QuantityField::eventFilter(QObject* watched, QEvent* event) {
    if (watched != entry_) return QWidget::eventFilter(watched, event);
    if (endsTyping(event) && typing_) take(true);
    if (belongsToWindow(event, typing_)) return true;
    if (event->type() == QEvent::KeyPress) {
        switch (static_cast<QKeyEvent*>(event)->key()) {
            case Qt::Key_Up:
                nudge(1);
                return true;
            case Qt::Key_Down:
                nudge(-1);
                return true;
            case Qt::Key_PageUp:
                nudge(10);
                return true;
            case Qt::Key_PageDown:
                nudge(-10);
                return true;
            case Qt::Key_Escape:
                if (typing_) {
                    typing_ = false;
                    pause_.stop();
                    refuse({});
                    showValue();
                    return true;
                }
                break;
            default:
                break;
        }
    } else if (event->type() == QEvent::Wheel) {
        if (!entry_->hasFocus()) {
            event->ignore();
            return true;
        }
        if (const double steps = wheel_.take(*static_cast<QWheelEvent*>(event)); steps != 0) nudge(steps);
        return true;
    } else if (event->type() == QEvent::FocusIn) {
        Q_EMIT describeAsked(descriptionText());
        entry_->selectAll();
    }
    return QWidget::eventFilter(watched, event);
}

void QuantityField::enterEvent(QEnterEvent* event) {
    QWidget::enterEvent(event);
    Q_EMIT describeAsked(descriptionText());
}

}  // namespace waybench
