#include <QApplication>
#include <QFile>
#include <QImage>
#include <QLocale>
#include <QSignalSpy>
#include <QTemporaryDir>
#include <QTest>

#include "app/style/theme.h"
#include "app/whatif/curve_plot.h"
#include "tests/gui/window_case.h"

using namespace waybench;
using namespace waybench::testing;

namespace {

/// Both routes falling with the cube of a thickness, invented.
CurveContent cubes() {
    CurveContent c;
    c.title = QStringLiteral("Printed holds from 8 mm");
    c.axisX = QStringLiteral("thickness in mm");
    c.axisY = QStringLiteral("deflection in mm");
    c.unitX = QStringLiteral("mm");
    c.from = 4;
    c.to = 16;
    c.cursor = 8;
    c.limit = 0.2;
    c.limitName = QStringLiteral("at most 0.2 mm");
    for (double t = 4; t <= 16; t += 2)
        c.points.push_back({t, Figure::relative(100 / (t * t * t), 0.3, 0.3, Unit::millimetre),
                            Figure::relative(3 / (t * t * t), 0.1, 0.1, Unit::millimetre), false});
    return c;
}

}  // namespace

/// The plot by itself: keys, words, export.
class WhatIfCurvesTest : public QObject {
    Q_OBJECT
private Q_SLOTS:
    void initTestCase() { beginTests("waybench-test"); }

    void keysMoveTheCursorAndTellTheValue() {
        CurvePlot plot;
        plot.resize(800, 500);
        plot.show(cubes());
        QSignalSpy moved(&plot, &CurvePlot::cursorDragged);
        const auto press = [&](Qt::Key key) {
            moved.clear();
            QTest::keyClick(&plot, key);
            return moved.count() == 1 ? moved.first().first().toDouble() : -1.0;
        };
        QVERIFY(qAbs(press(Qt::Key_Right) - 8.12) < 1e-9);  // a hundredth of the range
        QVERIFY(qAbs(press(Qt::Key_Left) - 7.88) < 1e-9);
        QCOMPARE(press(Qt::Key_Home), 4.0);
        QCOMPARE(press(Qt::Key_End), 16.0);
        plot.setCursorValue(16);
        QCOMPARE(press(Qt::Key_Right), 16.0);  // never leaves the range
    }

    void keysInARowAreOneMoveThatEndsWhenTheyRest() {
        CurvePlot plot;
        plot.show(cubes());
        QSignalSpy settled(&plot, &CurvePlot::settled);
        QTest::keyClick(&plot, Qt::Key_Right);
        QTest::keyClick(&plot, Qt::Key_Right);
        QCOMPARE(settled.count(), 0);
        QTRY_COMPARE(settled.count(), 1);
    }

    void aPressOfThePointerEndsTheMoveOfTheKeys() {
        CurvePlot plot;
        plot.resize(800, 500);
        plot.show(cubes());
        QSignalSpy settled(&plot, &CurvePlot::settled);
        QWidget* canvas = plot.findChild<QWidget*>();
        QTest::keyClick(&plot, Qt::Key_Right);
        QTest::mousePress(canvas, Qt::LeftButton, {}, canvas->rect().center());
        QCOMPARE(settled.count(), 1);
        QTest::mouseRelease(canvas, Qt::LeftButton, {}, canvas->rect().center());
        QCOMPARE(settled.count(), 2);
    }

    void theFiguresStandInTheAccessibleDescription() {
        CurvePlot plot;
        plot.show(cubes());
        for (const char* word :
             {"Printed holds from 8 mm", "at most 0.2 mm", "printed", "machined", "deflection in mm"})
            QVERIFY2(plot.accessibleDescription().contains(QLatin1String(word)), word);
    }

    void anExportedDrawingKeepsItsTextAsText() {
        QTemporaryDir folder;
        CurvePlot plot;
        plot.resize(800, 500);
        plot.show(cubes());
        const QString svg = folder.filePath(QStringLiteral("curves.svg"));
        QVERIFY(plot.exportTo(svg, QStringLiteral("test rig, part plate")));
        QFile file(svg);
        QVERIFY(file.open(QIODevice::ReadOnly));
        const QString written = QString::fromUtf8(file.readAll());
        for (const char* word : {"<text", "thickness in mm", "machined", "test rig, part plate"})
            QVERIFY2(written.contains(QLatin1String(word)), word);
        QVERIFY(!written.contains(QLatin1String("<image")));
        const QString png = folder.filePath(QStringLiteral("curves.png"));
        QVERIFY(plot.exportTo(png, QStringLiteral("test rig")));
        const QImage picture(png);
        QVERIFY(qAbs(picture.dotsPerMeterX() * 0.0254 - 300) < 1);
        QCOMPARE(picture.text(QStringLiteral("Source")), QStringLiteral("test rig"));
        QVERIFY(!plot.exportTo(folder.filePath(QStringLiteral("curves.odd")), {}));
    }
};

QTEST_MAIN(WhatIfCurvesTest)
#include "test_whatif_curves.moc"
