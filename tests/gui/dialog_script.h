#pragma once
#include <QAbstractItemView>
#include <QApplication>
#include <QDialog>
#include <QDialogButtonBox>
#include <QFileDialog>
#include <QLineEdit>
#include <QMessageBox>
#include <QPointer>
#include <QPushButton>
#include <QTest>
#include <QTimer>
#include <functional>
#include <vector>

namespace waybench::testing {

/// What a user does with the dialogs that come up, one after the other, while the program waits inside them. One that
/// is not in the script is dismissed and counted, so that no test hangs. A later script takes over from an earlier one.
class DialogScript : public QObject {
public:
    using Act = std::function<void(QDialog*)>;
    explicit DialogScript(std::vector<Act> acts = {}) : acts_(std::move(acts)) {
        newest_ = this;
        watch();
    }
    /// Every act was played, and no other dialog came.
    bool isPlayed() const { return played_ == acts_.size() && unexpected_ == 0; }

private:
    void watch() {
        QTimer::singleShot(20, this, [this] {
            if (newest_ != this) return;
            auto* dialog = qobject_cast<QDialog*>(QApplication::activeModalWidget());
            if (!dialog || dialog == last_ || !dialog->isVisible()) return watch();
            last_ = dialog;
            const bool isExpected = played_ < acts_.size();
            const Act act = isExpected ? acts_[played_++] : [](QDialog* d) { d->reject(); };
            if (!isExpected) {
                ++unexpected_;
                auto* box = qobject_cast<QMessageBox*>(dialog);
                qWarning("not in the script: '%s' %s", qPrintable(dialog->windowTitle()),
                         qPrintable(box ? box->text() : QString()));
            }
            watch();  // first: the act may open the next dialog and come back only after it
            act(dialog);
        });
    }

    static inline QPointer<DialogScript> newest_;
    std::vector<Act> acts_;
    std::size_t played_ = 0, unexpected_ = 0;
    QPointer<QDialog> last_;
};

/// Presses the button of a question by its words, without access-key marks.
inline DialogScript::Act pressButton(const QString& words) {
    return [words](QDialog* dialog) {
        for (QPushButton* button : dialog->findChildren<QPushButton*>())
            if (QString(button->text()).remove(QLatin1Char('&')).startsWith(words))
                return QTest::mouseClick(button, Qt::LeftButton);
        QTest::qFail(qPrintable(QStringLiteral("no button '%1'").arg(words)), __FILE__, __LINE__);
        dialog->reject();
    };
}

inline DialogScript::Act pressEscape() {
    return [](QDialog* dialog) { QTest::keyClick(dialog, Qt::Key_Escape); };
}

/// Names a file in a file dialog and accepts it.
inline DialogScript::Act nameFile(const QString& file) {
    return [file](QDialog* dialog) {
        auto* entry = dialog->findChild<QLineEdit*>(QStringLiteral("fileNameEdit"));
        auto* box = dialog->findChild<QDialogButtonBox*>();
        if (!qobject_cast<QFileDialog*>(dialog) || !entry || !box) {
            QTest::qFail("this is no file dialog", __FILE__, __LINE__);
            return dialog->reject();
        }
        // Pasted, not typed: the list of completions would take the click on the button. Typing would have dropped
        // the selection in the dialog's own list of files.
        for (QAbstractItemView* view : dialog->findChildren<QAbstractItemView*>())
            view->clearSelection();
        entry->selectAll();
        entry->insert(file);
        for (const auto which : {QDialogButtonBox::Save, QDialogButtonBox::Open})
            if (QPushButton* button = box->button(which)) return QTest::mouseClick(button, Qt::LeftButton);
    };
}

}  // namespace waybench::testing
