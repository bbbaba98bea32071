#pragma once
#include <QApplication>
#include <QDropEvent>
#include <QLocale>
#include <QMimeData>
#include <QTest>
#include <QUrl>
#include <memory>

#include "app/style/theme.h"
#include "app/window/main_window.h"

namespace waybench::testing {

/// What every window test begins with: plain numbers, settings under the test's own name, our style.
inline void beginTests(const char* name) {
    QLocale::setDefault(QLocale::c());
    QCoreApplication::setApplicationName(QString::fromLatin1(name));
    Theme::instance().install(*qApp);
}

inline std::shared_ptr<const Shop> shippedShop() {
    return std::make_shared<const Shop>(readShop(resourceFolder()));
}

/// Also after a dialog has gone: the desktop gives the window the keys again.
inline void activate(QWidget& window) {
    window.activateWindow();
    QVERIFY(QTest::qWaitForWindowActive(&window));
}

inline void strike(QWidget& window, Qt::Key key, Qt::KeyboardModifiers with = Qt::ControlModifier) {
    activate(window);
    QTest::keyClick(&window, key, with);
}

/// What the file manager does when files are dragged onto the window and let go.
inline void dropOn(QWidget& window, const QStringList& files) {
    QMimeData dropped;
    QList<QUrl> urls;
    for (const QString& file : files)
        urls << QUrl::fromLocalFile(file);
    dropped.setUrls(urls);
    QDragEnterEvent enter(QPoint(50, 50), Qt::CopyAction, &dropped, Qt::LeftButton, Qt::NoModifier);
    QApplication::sendEvent(&window, &enter);
    QVERIFY(enter.isAccepted());
    QDropEvent let(QPointF(50, 50), Qt::CopyAction, &dropped, Qt::LeftButton, Qt::NoModifier);
    QApplication::sendEvent(&window, &let);
}

/// A window of that size, shown and with the keys.
inline std::unique_ptr<MainWindow> shownWindow(const std::shared_ptr<const Shop>& shop, const QSize& size) {
    auto window = std::make_unique<MainWindow>(shop);
    window->resize(size);
    window->show();
    activate(*window);
    return window;
}

}  // namespace waybench::testing
