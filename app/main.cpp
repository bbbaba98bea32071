#include <QApplication>
#include <QCoreApplication>
#include <QGuiApplication>
#include <QHashFunctions>
#include <cstdio>

#include "app/cli/command_line.h"
#include "app/window/start_window.h"

namespace {

QStringList argumentsOf(int argc, char** argv) {
    QStringList list;
    for (int i = 1; i < argc; ++i)
        list << QString::fromLocal8Bit(argv[i]);
    return list;
}

}  // namespace

int main(int argc, char** argv) {
    QHashSeed::setDeterministicGlobalSeed();  // fonts in a PDF come in hash order: same page, same bytes
    const QStringList arguments = argumentsOf(argc, argv);
    QCoreApplication::setApplicationName(QStringLiteral("waybench"));
    QCoreApplication::setApplicationVersion(QStringLiteral(WAYBENCH_VERSION));
    if (waybench::isCommand(arguments)) {
        if (waybench::needsPainting(arguments)) {
            qputenv("QT_QPA_PLATFORM", "offscreen");  // the page needs fonts, never a display
            QGuiApplication app(argc, argv);
            return waybench::runCommand(arguments);
        }
        QCoreApplication app(argc, argv);
        return waybench::runCommand(arguments);
    }
    if (qEnvironmentVariableIsEmpty("DISPLAY") && qEnvironmentVariableIsEmpty("WAYLAND_DISPLAY") &&
        qEnvironmentVariableIsEmpty("QT_QPA_PLATFORM")) {
        std::fprintf(stderr,
                     "waybench: there is no display for the window; use 'waybench report', 'waybench compare' "
                     "or 'waybench --help'\n");
        return waybench::kInputAtFault;
    }
    QApplication app(argc, argv);
    return waybench::runWindow(app, arguments);
}
