#pragma once
#include <QComboBox>
#include <QEnterEvent>
#include <QWheelEvent>

namespace waybench {

/// A combo box that a passing wheel cannot change, and that may be narrower than its longest entry.
class ChoiceBox : public QComboBox {
    Q_OBJECT
public:
    explicit ChoiceBox(QWidget* parent = nullptr) : QComboBox(parent) {
        setFocusPolicy(Qt::StrongFocus);
        setMinimumHeight(24);
        setSizeAdjustPolicy(QComboBox::AdjustToMinimumContentsLengthWithIcon);
    }
    /// What the choice is about; told when the focus or the pointer comes.
    void setDescription(const QString& words) {
        description_ = words;
        setToolTip(words);
    }
    /// Marks the box as the one a fault is about.
    void setProblem(const QString& problem) {
        setAccessibleDescription(problem);
        setProperty("faulty", !problem.isEmpty());
        update();
    }

Q_SIGNALS:
    void describeAsked(const QString& words);

protected:
    void wheelEvent(QWheelEvent* event) override {
        if (hasFocus())
            QComboBox::wheelEvent(event);
        else
            event->ignore();
    }
    void focusInEvent(QFocusEvent* event) override {
        QComboBox::focusInEvent(event);
        if (!description_.isEmpty()) Q_EMIT describeAsked(description_);
    }
    void enterEvent(QEnterEvent* event) override {
        QComboBox::enterEvent(event);
        if (!description_.isEmpty()) Q_EMIT describeAsked(description_);
    }

private:
    QString description_;
};

}  // namespace waybench
