#pragma once
class QEvent;

namespace waybench {

/// Whether the event, on its way to an entry, ends the typing in it: the focus goes (to a menu too), or a shortcut of
/// the window such as Ctrl+S is about to act on the document. What was typed is to be taken first.
bool endsTyping(QEvent* event);

/// Whether Ctrl+Z and its like are the window's business and not the entry's: they are while nothing is being typed.
/// The event is then left unaccepted, so that the shortcut fires; the caller's event filter returns true.
bool belongsToWindow(QEvent* event, bool isTyping);

}  // namespace waybench
