#include "app/inspector/field_keys.h"

#include <QKeyEvent>
#include <QWheelEvent>
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

double WheelSteps::take(const QWheelEvent& event) {
    constexpr int kNotch = 120;  // eighths of a degree, Qt's own unit
    gathered_ += event.angleDelta().y();
    const int notches = gathered_ / kNotch;
    gathered_ -= notches * kNotch;
    return notches;
}

int nextBout() {
    static int bout = 0;
    return ++bout;
}

}  // namespace waybench
