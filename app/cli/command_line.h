#pragma once
#include <QStringList>

namespace waybench {

/// Exit status of every command: stable, documented in the help and the manual page.
enum ExitStatus { kGood = 0, kInputAtFault = 1, kUsage = 2, kInternal = 3 };

/// True when the arguments (without the program name) ask for a command or for --help / --version, not for the window.
bool isCommand(const QStringList& arguments);
/// Whether that command paints and therefore needs a QGuiApplication (on the offscreen platform).
bool needsPainting(const QStringList& arguments);
/// Runs it: results to standard output, messages to standard error. Never throws.
int runCommand(const QStringList& arguments);

}  // namespace waybench
