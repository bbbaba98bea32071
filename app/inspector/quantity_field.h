#pragma once
#include <QLineEdit>
#include <QTimer>
#include <QWidget>
#include <functional>
#include <optional>

#include "app/inspector/field_keys.h"
#include "core/quantity/unit.h"

class QLabel;

namespace waybench {

class FieldMessage;

/// What a field is about; made from a core Dimension, SettingDescription or by hand for load-case entries.
struct FieldDescription {
    QString key, label, help;
    Unit unit = Unit::none;
    double minimum = 0, maximum = 0;
    std::optional<double> standard;  ///< default it can be reset to
    bool isWhole = false;
    double displayScale = 1;  ///< shown number = stored number * displayScale (shares as per cent)
    QString displayUnit;      ///< overrides the unit's symbol
    QString standardWords;    ///< stands greyed in the empty field instead of the default's number: "2 × bore"
    double step = 0;          ///< 0 = from range and value

    QString rangeText() const;  ///< "2 mm to 40 mm"
};

/// Mark of a value's origin: open ring = standard, filled = typed. A click on a filled one resets.
class OriginMark : public QWidget {
    Q_OBJECT
public:
    explicit OriginMark(QWidget* parent = nullptr);
    void setTyped(bool typed, const QString& standardText);
    bool isTyped() const { return typed_; }
    QSize sizeHint() const override;
Q_SIGNALS:
    void resetAsked();

protected:
    void paintEvent(QPaintEvent* event) override;
    void mouseReleaseEvent(QMouseEvent* event) override;
    void keyPressEvent(QKeyEvent* event) override;

private:
    bool typed_ = false;
};

/// One quantity: label, entry on a ruled line, unit, origin mark, and a message underneath when what was typed cannot
/// be taken. Reads numbers, units and sums (core parseQuantity). The last valid value stays in use; focus is never
/// held. Up/Down nudge by a step, Page Up/Down by ten; the wheel does so only with focus.
class QuantityField : public QWidget {
    Q_OBJECT
public:
    explicit QuantityField(FieldDescription description, QWidget* parent = nullptr);

    const FieldDescription& description() const { return description_; }
    /// Shows a value of the document without signalling; what is being typed at the moment is left alone.
    void setValue(double value);
    double value() const { return value_; }
    /// Message from outside (cross-checks); empty takes it away. What is wrong with the typed text goes before it.
    void setProblem(const QString& problem);
    QString problem() const;
    /// Further check before a value is taken: returns what is wrong, or empty.
    void setCheck(std::function<QString(double)> check) { check_ = std::move(check); }
    /// Forgets what is being typed: another part is about to be shown.
    void abandon();
    QLineEdit* entry() const { return entry_; }
    void setLabelVisible(bool visible);

Q_SIGNALS:
    /// @param mergeWord same for all steps of one bout of typing or nudging
    void edited(double value, const QString& mergeWord);
    void describeAsked(const QString& text);  ///< focus or pointer came: show range and help

protected:
    bool eventFilter(QObject* watched, QEvent* event) override;
    void enterEvent(QEnterEvent* event) override;

private:
    void showValue();
    QString standardText() const;
    void refuse(const QString& problem);  ///< of what was typed; empty takes it away
    void say();
    bool take(bool final);
    void nudge(double steps);
    QString descriptionText() const;

    FieldDescription description_;
    QLineEdit* entry_;
    QLabel* label_;
    QLabel* unit_;
    FieldMessage* message_;
    OriginMark* origin_;
    QTimer pause_;
    std::function<QString(double)> check_;
    double value_ = 0;
    bool typing_ = false;
    int bout_ = 0;
    WheelSteps wheel_;
    QString refused_, outside_;
};

}  // namespace waybench
