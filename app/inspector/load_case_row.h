#pragma once
#include <QWidget>

#include "core/comparison/part.h"

class QToolButton;

namespace waybench {

class ChoiceBox;
class FieldMessage;
class TextField;

/// Which load case of the part the fields below are about: chosen by name, added, copied, named, taken away.
class LoadCaseRow : public QWidget {
    Q_OBJECT
public:
    explicit LoadCaseRow(QWidget* parent = nullptr);
    void show(const Part& part, std::size_t chosen);
    /// What is wrong with a load case, under the choice; empty takes it away.
    void say(const QString& problem);

Q_SIGNALS:
    void chosen(std::size_t index);
    void addAsked();
    void copyAsked();
    void removeAsked();
    void renameAsked(const QString& name);
    void describeAsked(const QString& words);

private:
    QString refusal(const QString& name) const;

    ChoiceBox* choice_;
    FieldMessage* message_;
    QToolButton* remove_;
    TextField* name_;
    QStringList others_;  ///< names the chosen case cannot have
};

}  // namespace waybench
