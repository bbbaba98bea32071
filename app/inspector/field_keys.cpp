#include "app/inspector/field_keys.h"

#include <QKeyEvent>
#include <algorithm>
#include <initializer_list>

namespace waybench {

namespace {

bool isOneOf(QKeyEvent* key, std::initializer_list<QKeySequence::StandardKey> sequences) {
    return std::any_of(sequences.begin(), sequences.end(), [key](auto each) { return key->matches(each); });
}

}  // namespace

bool endsTyping(QEvent* event) {
    if (event->type() == QEvent::FocusOut) return true;
    if (event->type() != QEvent::ShortcutOverride) return false;
    auto* key = static_cast<QKeyEvent*>(event);
    return isOneOf(key, {QKeySequence::Save, QKeySequence::SaveAs, QKeySequence::New, QKeySequence::Open,
                         QKeySequence::Close, QKeySequence::Quit, QKeySequence::Print});
}

bool belongsToWindow(QEvent* event, bool isTyping) {
    if (isTyping || event->type() != QEvent::ShortcutOverride) return false;
    if (!isOneOf(static_cast<QKeyEvent*>(event), {QKeySequence::Undo, QKeySequence::Redo})) return false;
    event->ignore();
    return true;
}

}  // namespace waybench
