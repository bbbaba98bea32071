#pragma once
class QWidget;

namespace waybench {

/// How to use the bench, the limits of the models, the keys, the cautions, and what the program is made of. Offline.
void showHelp(QWidget* parent);
/// The line of caution that stays in sight.
const char* cautionLine();

}  // namespace waybench
