#pragma once
#include <QTimer>
#include <QWidget>
#include <array>

#include "app/inspector/field_keys.h"
#include "core/geometry/vector.h"
#include "core/quantity/unit.h"

class QLabel;
class QLineEdit;

namespace waybench {

class FieldMessage;

/// Three components side by side, x y z, in one unit. Same manners as QuantityField: texts with units and sums, a
/// message underneath, Up/Down nudge, the wheel only with focus, the last valid value stays in use.
class VectorField : public QWidget {
    Q_OBJECT
public:
    VectorField(const QString& key, const QString& label, Unit unit, double step, QWidget* parent = nullptr);
    void setValue(const Vec3& value);
    const Vec3& value() const { return value_; }
    QString problem() const;
    /// Message from outside, about the whole vector; empty takes it away.
    void setProblem(const QString& problem);
    /// Forgets what is being typed: another part is about to be shown.
    void abandon();
    void setHelp(const QString& help) { help_ = help; }
    QLineEdit* entry(int axis) const { return entries_[std::size_t(axis)]; }

Q_SIGNALS:
    void edited(const waybench::Vec3& value, const QString& mergeWord);
    void describeAsked(const QString& text);

protected:
    bool eventFilter(QObject* watched, QEvent* event) override;

private:
    void take(int axis, bool final);
    void nudge(int axis, double steps);
    void say(int axis, const QString& refused);  ///< of what was typed; empty takes it away

    QString key_, label_, help_;
    Unit unit_;
    double step_;
    std::array<QLineEdit*, 3> entries_{};
    FieldMessage* message_;
    QTimer pause_;
    Vec3 value_ = Vec3::Zero();
    int typingAxis_ = -1, bout_ = 0;
    WheelSteps wheel_;
    std::array<QString, 3> refused_;
    QString outside_;
};

}  // namespace waybench
