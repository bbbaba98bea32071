#include "app/document/edits.h"

#include "app/document/document.h"

namespace waybench {

namespace {

/// "thickness 6 mm → 7 mm" and "thickness 7 mm → 8 mm" are one "thickness 6 mm → 8 mm".
QString mergedWords(const QString& first, const QString& last) {
    const QString arrow = QStringLiteral(" → ");
    const qsizetype from = first.lastIndexOf(arrow), to = last.lastIndexOf(arrow);
    return from < 0 || to < 0 ? last : first.left(from) + last.mid(to);
}

}  // namespace

PartEdit::PartEdit(Document& document, int index, Part after, const QString& words, QString mergeWord)
    : document_(document),
      index_(index),
      words_(words),
      before_(document.project().parts.at(std::size_t(index))),
      after_(std::move(after)),
      mergeWord_(std::move(mergeWord)) {
    nameStep();
}

void PartEdit::nameStep() {
    setText(QString::fromStdString(before_.name) + QStringLiteral(": ") + words_);
}

void PartEdit::undo() {
    document_.replacePart(index_, before_);
}
void PartEdit::redo() {
    document_.replacePart(index_, after_);
}

bool PartEdit::mergeWith(const QUndoCommand* later) {
    const auto* next = static_cast<const PartEdit*>(later);
    if (next->index_ != index_ || next->mergeWord_ != mergeWord_) return false;
    after_ = next->after_;
    words_ = mergedWords(words_, next->words_);
    nameStep();
    if (after_ == before_) setObsolete(true);
    return true;
}

PartsEdit::PartsEdit(Document& document, std::vector<Part> after, int shownBefore, int shownAfter, const QString& text)
    : QUndoCommand(text),
      document_(document),
      before_(document.project().parts),
      after_(std::move(after)),
      shownBefore_(shownBefore),
      shownAfter_(shownAfter) {}

void PartsEdit::undo() {
    document_.replaceParts(before_, shownBefore_);
}
void PartsEdit::redo() {
    document_.replaceParts(after_, shownAfter_);
}

TitleBlockEdit::TitleBlockEdit(Document& document, TitleBlock after, const QString& text)
    : QUndoCommand(text), document_(document), before_(document.titleBlock()), after_(std::move(after)) {}

void TitleBlockEdit::undo() {
    document_.replaceTitleBlock(before_);
}
void TitleBlockEdit::redo() {
    document_.replaceTitleBlock(after_);
}

}  // namespace waybench
