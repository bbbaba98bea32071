#pragma once
#include <QWidget>
#include <functional>

class QLabel;
class QLineEdit;

namespace waybench {

class FieldMessage;

/// One line of words: label, entry on a ruled line, a message underneath when the words cannot be taken. Taken when
/// the entry is left or Return is pressed; Escape gives the old words back.
class TextField : public QWidget {
    Q_OBJECT
public:
    /// @param key for the entry's object name, "entry author"
    TextField(const QString& key, const QString& label, const QString& help, QWidget* parent = nullptr);
    void setValue(const QString& value);
    /// Returns what is wrong with the words, or empty.
    void setCheck(std::function<QString(const QString&)> check) { check_ = std::move(check); }
    QString problem() const;
    QLineEdit* entry() const { return entry_; }

Q_SIGNALS:
    void edited(const QString& value);
    void describeAsked(const QString& words);

protected:
    bool eventFilter(QObject* watched, QEvent* event) override;

private:
    void take();
    void say(const QString& problem);

    QString help_, value_;
    QLineEdit* entry_;
    FieldMessage* message_;
    std::function<QString(const QString&)> check_;
    bool typing_ = false;
};

}  // namespace waybench
