#pragma once
#include <QStringList>

class QApplication;

namespace waybench {

/// Opens the window, with the project named by the first argument if there is one. @return the exit status
int runWindow(QApplication& application, const QStringList& arguments);

}  // namespace waybench
