#pragma once
#include <QWidget>

class QLabel;
class QToolButton;

namespace waybench {

/// What the window says at its lower edge: a fault of opening, saving or importing, which stands until it is dismissed
/// or mended, and beside it the last note. An answer that arrives takes only notes about answers away.
class StatusNotes : public QWidget {
    Q_OBJECT
public:
    enum class About { work, answers };

    explicit StatusNotes(QWidget* parent = nullptr);
    void note(const QString& words, About about = About::work);
    void dropNoteAboutAnswers();
    void showFault(const QString& words);
    void clearFault();
    QString noteText() const;
    QString faultText() const;

private:
    void colour();

    QLabel* fault_;
    QToolButton* dismiss_;
    QLabel* note_;
    About about_ = About::work;
};

}  // namespace waybench
