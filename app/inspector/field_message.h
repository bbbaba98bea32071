#pragma once
#include <QLabel>

namespace waybench {

/// What is wrong with a field, under it and in its row: pushes the rows below down, never covers them. Hidden while
/// there is nothing to say.
class FieldMessage : public QLabel {
    Q_OBJECT
public:
    explicit FieldMessage(QWidget* parent = nullptr);
    void say(const QString& problem);

private:
    void colour();
};

}  // namespace waybench
