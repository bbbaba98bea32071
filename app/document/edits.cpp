#include "app/document/edits.h"

#include "app/document/document.h"

namespace waybench {

PartEdit::PartEdit(Document& document, int index, Part after, const QString& text, QString mergeWord)
    : QUndoCommand(text),
      document_(document),
      index_(index),
      before_(document.project().parts.at(std::size_t(index))),
      after_(std::move(after)),
      mergeWord_(std::move(mergeWord)) {}

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
    setText(next->text());
    if (after_ == before_) setObsolete(true);
    return true;
}

PartsEdit::PartsEdit(Document& document, std::vector<Part> after, int currentAfter, const QString& text)
    : QUndoCommand(text),
      document_(document),
      before_(document.project().parts),
      after_(std::move(after)),
      currentBefore_(document.currentIndex()),
      currentAfter_(currentAfter) {}

void PartsEdit::undo() {
    document_.replaceParts(before_, currentBefore_);
}
void PartsEdit::redo() {
    document_.replaceParts(after_, currentAfter_);
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
