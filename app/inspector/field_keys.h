#pragma once
class QEvent;
class QWheelEvent;

namespace waybench {

/// Whether the event, on its way to an entry, ends the typing in it: the focus goes (to a menu too), or a shortcut of
/// the window such as Ctrl+S is about to act on the document. What was typed is to be taken first.
bool endsTyping(QEvent* event);

/// Whether Ctrl+Z and its like are the window's business and not the entry's: they are while nothing is being typed.
/// The event is then left unaccepted, so that the shortcut fires; the caller's event filter returns true.
bool belongsToWindow(QEvent* event, bool isTyping);

/// Whole notches of an upright wheel turn, up positive; parts of a notch, as touchpads send them, are gathered.
class WheelSteps {
public:
    double take(const QWheelEvent& event);

private:
    int gathered_ = 0;
};

/// Number of a new bout of typing, unlike any before it in any field, so that two bouts never become one undo step.
int nextBout();

}  // namespace waybench
