#pragma once
#include <QComboBox>
#include <QWheelEvent>

namespace waybench {

/// A combo box that a passing wheel cannot change, and that may be narrower than its longest entry.
class ChoiceBox : public QComboBox {
    Q_OBJECT
public:
    explicit ChoiceBox(QWidget* parent = nullptr) : QComboBox(parent) { setFocusPolicy(Qt::StrongFocus); }

protected:
    void wheelEvent(QWheelEvent* event) override {
        if (hasFocus())
            QComboBox::wheelEvent(event);
        else
            event->ignore();
    }
};

}  // namespace waybench
