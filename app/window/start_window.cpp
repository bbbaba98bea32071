#include "app/window/start_window.h"

#include <QApplication>
#include <cstdio>

#include "app/style/theme.h"
#include "app/window/main_window.h"
#include "core/fault/input_fault.h"

namespace waybench {

int runWindow(QApplication& application, const QStringList& arguments) {
    QCoreApplication::setOrganizationName(QStringLiteral("waybench"));
    Theme::instance().install(application);
    std::shared_ptr<const Shop> shop;
    try {
        shop = std::make_shared<const Shop>(readShop(resourceFolder()));
    } catch (const InputFault& fault) {
        std::fprintf(stderr, "waybench: %s\n", fault.what());
        return 1;
    }
    MainWindow window(shop);
    if (!arguments.isEmpty()) window.openProject(arguments.front());
    window.show();
    return QApplication::exec();
}

}  // namespace waybench
