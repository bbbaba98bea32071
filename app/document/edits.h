#pragma once
#include <QUndoCommand>
#include <functional>

#include "core/project/project.h"

namespace waybench {

class Document;

/// Replaces one part by an edited copy. Edits with one non-empty merge word and the same part become one step, named
/// by the part, the first value and the last.
class PartEdit : public QUndoCommand {
public:
    PartEdit(Document& document, int index, Part after, const QString& words, QString mergeWord);
    void undo() override;
    void redo() override;
    int id() const override { return mergeWord_.isEmpty() ? -1 : 1; }
    bool mergeWith(const QUndoCommand* later) override;

private:
    void nameStep();

    Document& document_;
    int index_;
    QString words_;
    Part before_, after_;
    QString mergeWord_;
};

/// Replaces the list of parts (add, delete, duplicate, move) and shows the part it is about, before and after.
class PartsEdit : public QUndoCommand {
public:
    PartsEdit(Document& document, std::vector<Part> after, int shownBefore, int shownAfter, const QString& text);
    void undo() override;
    void redo() override;

private:
    Document& document_;
    std::vector<Part> before_, after_;
    int shownBefore_, shownAfter_;
};

/// What the page's title block says: title, author, identification, date, tariff, note.
struct TitleBlock {
    std::string title, author, identification, note, date, tariff;
    bool operator==(const TitleBlock&) const = default;
};
class TitleBlockEdit : public QUndoCommand {
public:
    TitleBlockEdit(Document& document, TitleBlock after, const QString& text);
    void undo() override;
    void redo() override;

private:
    Document& document_;
    TitleBlock before_, after_;
};

}  // namespace waybench
