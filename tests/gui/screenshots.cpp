// Writes pictures of the window's pages with the demo rig's final answer: waybench_screenshots FOLDER
#include <QApplication>
#include <QDir>
#include <QElapsedTimer>
#include <QTest>
#include <cstdio>

#include "app/layers/layers_page.h"
#include "app/layers/ways_up_panel.h"
#include "app/style/theme.h"
#include "app/window/main_window.h"
#include "app/window/unit_question.h"

using namespace waybench;

namespace {

template <typename Done>
void wait(int atMost_ms, Done done) {
    QElapsedTimer clock;
    clock.start();
    while (clock.elapsed() < atMost_ms && !done())
        QTest::qWait(30);
}

/// Second load case of the current part, with one of everything; one step of undo.
void showEveryKindOfSupport(MainWindow& window) {
    Part part = *window.document().currentPart();
    const Solid solid = buildSolid(part.shape, window.document().project().folder());
    LoadCase stop = part.loadCase;
    stop.name = "emergency stop";
    stop.gravity = -Vec3::UnitZ();
    stop.holds.clear();
    for (const Face& face : solid.faces) {
        const bool isBore = face.kind == SurfaceKind::cylinder && face.isHollow && face.isFullTurn;
        if (isBore && stop.holds.empty())
            stop.holds = {{FaceSelector::byName(face.name), HoldKind::bolted}};
        else if (face.kind == SurfaceKind::plane && stop.holds.size() == 1)
            stop.holds.push_back({FaceSelector::byName(face.name), HoldKind::sliding});
        else if (face.kind == SurfaceKind::plane && stop.holds.size() == 2)
            stop.holds.push_back({FaceSelector::byName(face.name)});
    }
    stop.masses = {{FaceSelector::byName(solid.faces.back().name), 250}};
    part.furtherLoadCases.push_back(stop);
    window.document().editCurrent(part, QStringLiteral("emergency stop"));
}

/// The layers of two parts, one of them looked at closely.
template <typename Grab>
void showLayers(MainWindow& window, Grab grab) {
    const auto* page = window.findChild<LayersPage*>();
    const auto isThere = [&] {
        return page->isTimed() && page->canvas()->isPainted() && page->findChild<WaysUpPanel*>()->ways();
    };
    window.showPage(MainWindow::Page::layers);
    QTest::qWait(400);
    wait(60000, isThere);
    QTest::qWait(300);
    grab(QStringLiteral("layers"));
    for (int notch = 0; notch < 10; ++notch)
        QTest::keyClick(page->canvas(), Qt::Key_Plus);
    QTest::qWait(300);
    wait(20000, isThere);
    grab(QStringLiteral("layers_near"));
    const int before = window.document().currentIndex();
    for (std::size_t i = 0; i < window.document().project().parts.size(); ++i)
        if (window.document().project().parts[i].name == "cable guide") window.document().setCurrentIndex(int(i));
    QTest::qWait(600);
    wait(60000, isThere);
    QTest::qWait(300);
    grab(QStringLiteral("layers_guide"));
    window.document().setCurrentIndex(before);
}

}  // namespace

int main(int argc, char** argv) {
    const bool onlyLayers = argc == 3 && QLatin1String(argv[2]) == QLatin1String("layers");
    if (argc != 2 && !onlyLayers) {
        std::fprintf(stderr, "usage: waybench_screenshots FOLDER [layers]\n");
        return 2;
    }
    QApplication app(argc, argv);
    QCoreApplication::setApplicationName(QStringLiteral("waybench"));
    QCoreApplication::setApplicationVersion(QStringLiteral(WAYBENCH_VERSION));
    const QString folder = QString::fromLocal8Bit(argv[1]);
    QDir().mkpath(folder);
    Theme::instance().install(app);
    auto shop = std::make_shared<const Shop>(readShop(resourceFolder()));
    for (const auto& [name, choice] : {std::pair("light", ThemeChoice::light), std::pair("dark", ThemeChoice::dark)}) {
        Theme::instance().choose(choice);
        MainWindow window(shop);
        window.resize(1440, 920);
        window.show();
        QTest::qWait(100);
        auto grab = [&, theme = QString::fromLatin1(name)](const QString& page) {
            window.grab().save(folder + QLatin1Char('/') + page + QLatin1Char('_') + theme + QStringLiteral(".png"));
        };
        grab(QStringLiteral("start"));
        UnitQuestion question(QStringLiteral("clamp.stl"), Vec3(62, 40, 35.5), &window);
        question.show();
        QTest::qWait(100);
        question.grab().save(folder + QStringLiteral("/unit_%1.png").arg(QString::fromLatin1(name)));
        question.close();
        window.openProject(demoRigFile());
        if (onlyLayers) {
            showLayers(window, grab);
            continue;
        }
        wait(60000, [&] {
            const Answer a = window.answers().current();
            return a && a.comparison->fidelity == Fidelity::standard && window.answers().isCurrent();
        });
        wait(30000, [&] {
            for (const Part& part : window.document().project().parts)
                if (!window.answers().known(part.name)) return false;
            return true;
        });
        QTest::qWait(600);
        grab(QStringLiteral("bench"));
        showEveryKindOfSupport(window);
        QTest::qWait(3000);
        grab(QStringLiteral("load_case"));
        window.document().undoStack().undo();
        showLayers(window, grab);
        window.showPage(MainWindow::Page::whatIf);
        QTest::qWait(25000);
        grab(QStringLiteral("what_if"));
        window.showPage(MainWindow::Page::onePage);
        QTest::qWait(5000);
        grab(QStringLiteral("page"));
    }
    return 0;
}
