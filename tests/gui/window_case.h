#pragma once
#include <QApplication>
#include <QDropEvent>
#include <QLocale>
#include <QMimeData>
#include <QTemporaryDir>
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

/// The whole window in a folder of its own.
class WindowCase : public QObject {
protected:
    std::shared_ptr<const Shop> shop_;
    std::unique_ptr<MainWindow> window_;
    std::unique_ptr<QTemporaryDir> folder_;

    void open(const QSize& size) {
        folder_ = std::make_unique<QTemporaryDir>();
        window_ = shownWindow(shop_, size);
    }
    Document& document() const { return window_->document(); }
    const std::vector<Part>& parts() const { return document().project().parts; }
    const Part& part() const { return *document().currentPart(); }
    QString path(const QString& name) const { return folder_->filePath(name); }
    bool hasFinal() const {
        const Answer a = window_->answers().current();
        return a && a.comparison->fidelity == Fidelity::standard && window_->answers().isCurrent();
    }
};

}  // namespace waybench::testing
