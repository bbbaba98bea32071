#include <QApplication>
#include <QFile>
#include <QSignalSpy>
#include <QTemporaryDir>
#include <QTest>
#include <map>

#include "app/style/theme.h"
#include "app/whatif/curve_plot.h"
#include "app/whatif/whatif_page.h"
#include "app/window/main_window.h"

using namespace waybench;

namespace {

/// A plate that is held at one side and pushed at the other: small, so that its sweep takes no time.
Part smallPlate() {
    Part part = partOfFamily(familyNamed("bar"));
    part.name = "bar";
    const Solid solid = buildSolid(part.shape, ".");
    // Ends of the bar: the plane faces furthest apart along the longest side.
    const Vec3 size = boundsOf(solid.mesh).size();
    Eigen::Index axis = 0;
    size.maxCoeff(&axis);
    std::map<double, std::string> along;
    for (const Face& face : solid.faces)
        if (face.kind == SurfaceKind::plane && std::abs(face.direction[axis]) > 0.9)
            along[face.centroid[axis]] = face.name;
    part.loadCase.holds = {{FaceSelector::byName(along.begin()->second)}};
    Load load;
    load.face = FaceSelector::byName(along.rbegin()->second);
    load.vector = Vec3(0, 0, -5);
    part.loadCase.loads = {load};
    part.loadCase.measuredFace = load.face;
    part.loadCase.measuredDirection = -Vec3::UnitZ();
    part.loadCase.deflectionLimit_mm = 0.2;
    return part;
}

}  // namespace

class WhatIfTest : public QObject {
    Q_OBJECT
private:
    std::unique_ptr<MainWindow> window_;
    WhatIfPage* page_ = nullptr;

    const Part& part() const { return *window_->document().currentPart(); }

private Q_SLOTS:
    void initTestCase() {
        QLocale::setDefault(QLocale::c());
        QCoreApplication::setApplicationName(QStringLiteral("waybench-test"));
        Theme::instance().install(*qApp);
        window_ = std::make_unique<MainWindow>(std::make_shared<const Shop>(readShop(resourceFolder())));
        window_->resize(1300, 800);
        window_->show();
        QVERIFY(QTest::qWaitForWindowExposed(window_.get()));
        window_->document().startNew();
        window_->document().addPart(smallPlate());
        window_->showPage(MainWindow::Page::whatIf);
        page_ = window_->findChild<WhatIfPage*>();
        QVERIFY(page_);
    }

    void pointsArriveOneByOneUntilTheRangeIsCovered() {
        QTRY_VERIFY_WITH_TIMEOUT(page_->pointCount() >= 2, 60000);
        QTRY_VERIFY_WITH_TIMEOUT(page_->pointCount() == 9, 120000);
        QVERIFY(!page_->finding().isEmpty());
        QVERIFY(!page_->plot()->accessibleName().isEmpty());
        QVERIFY(page_->plot()->accessibleDescription().startsWith(page_->finding()));
    }

    void keysMoveTheCursorAndThePartFollows() {
        const Part before = part();
        page_->plot()->setFocus();
        QTest::keyClick(page_->plot(), Qt::Key_Right);
        QTest::keyClick(page_->plot(), Qt::Key_Right);
        QVERIFY(part().shape != before.shape);
        QTest::keyClick(window_.get(), Qt::Key_Z, Qt::ControlModifier);
        QVERIFY(part() == before);
    }

    void aDragIsOneStepOfUndo() {
        const Part before = part();
        const int steps = window_->document().undoStack().index();
        QWidget* canvas = page_->plot()->findChild<QWidget*>();
        QVERIFY(canvas);
        const int y = canvas->height() / 2;
        QTest::mousePress(canvas, Qt::LeftButton, {}, QPoint(canvas->width() / 3, y));
        for (int k = 1; k <= 8; ++k)
            QTest::mouseMove(canvas, QPoint(canvas->width() / 3 + 10 * k, y));
        QTest::mouseRelease(canvas, Qt::LeftButton, {}, QPoint(canvas->width() / 3 + 80, y));
        QVERIFY(part().shape != before.shape);
        QCOMPARE(window_->document().undoStack().index(), steps + 1);
        window_->document().undoStack().undo();
        QVERIFY(part() == before);
    }

    void curvesAreExportedAsTheyAreShown() {
        QTemporaryDir folder;
        const QString svg = folder.filePath(QStringLiteral("curves.svg"));
        QVERIFY(page_->exportTo(svg));
        QFile file(svg);
        QVERIFY(file.open(QIODevice::ReadOnly));
        const QByteArray drawn = file.readAll();
        QVERIFY(drawn.contains("<text"));
        QVERIFY(drawn.contains("printed"));
        QVERIFY(!drawn.contains("<image"));
        for (const char* ending : {"pdf", "png", "csv"})
            QVERIFY(page_->exportTo(folder.filePath(QStringLiteral("curves.") + QLatin1String(ending))));
        QVERIFY(!page_->exportTo(folder.filePath(QStringLiteral("missing/curves.svg"))));
    }

    void cleanupTestCase() { window_.reset(); }
};

QTEST_MAIN(WhatIfTest)
#include "test_what_if.moc"
