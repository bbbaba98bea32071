#include <QAbstractButton>
#include <QLabel>
#include <QPushButton>
#include <QSpinBox>
#include <QTableWidget>
#include <QTest>
#include <QWheelEvent>

#include "app/layers/layer_legend.h"
#include "app/layers/layers_page.h"
#include "app/layers/ways_up_panel.h"
#include "app/ledger/ledger_further.h"
#include "app/style/shown_figure.h"
#include "core/printed/print_job.h"
#include "tests/gui/quick_bar.h"
#include "tests/gui/window_case.h"

using namespace waybench;
using namespace waybench::testing;

/// The page of the layers: which is shown, what is said of it, and the way up taken from the ranking.
class LayersPageTest : public WindowCase {
    Q_OBJECT
private:
    LayersPage* page_ = nullptr;

    QString words(const char* name) const { return page_->findChild<QLabel*>(QString::fromLatin1(name))->text(); }
    QString readout() const { return words("layer readout"); }
    QPushButton* use() const { return page_->findChild<QPushButton*>(QStringLiteral("use this way up")); }
    QTableWidget* table() const { return page_->findChild<QTableWidget*>(QStringLiteral("ways up")); }
    LayerCanvas* canvas() const { return page_->canvas(); }
    void strikeCanvas(Qt::Key key) {
        canvas()->setFocus();
        QTest::keyClick(canvas(), key);
    }
    bool isThere() const { return page_->layerCount() > 0 && page_->isTimed() && canvas()->isPainted(); }

private Q_SLOTS:
    void initTestCase() {
        beginTests("waybench-test");
        shop_ = shippedShop();
    }
    void init() {
        open({1300, 860});
        document().startNew();
        document().addPart(quickBar());
        window_->showPage(MainWindow::Page::layers);
        page_ = window_->findChild<LayersPage*>();
        QVERIFY(page_);
    }
    void cleanup() { window_.reset(); }

    void aLayerIsShownWithItsTimeAndTheTimesOfAllFollow() {
        QTRY_VERIFY_WITH_TIMEOUT(isThere(), 60000);
        QVERIFY2(readout().contains(QLatin1String("top at")), qPrintable(readout()));
        QVERIFY2(readout().contains(QLatin1String("done after it")), qPrintable(readout()));
        const printed::PrintJob job =
            printed::printJob(buildSolid(part().shape, ".").mesh, part().recipe, shop_->printer(part().recipe.printer),
                              shop_->printingMaterial(part().recipe.material), false, Task());
        QCOMPARE(page_->layerCount(), int(job.layers));
        const double seconds = job.layerTimes[std::size_t(page_->layer())].total_s();
        QVERIFY2(readout().contains(QStringLiteral("takes ") + shownBriefly(seconds, Unit::second)),
                 qPrintable(readout()));
    }

    void keysStepByOneByTenAndToTheEnds() {
        QTRY_VERIFY_WITH_TIMEOUT(isThere(), 60000);
        strikeCanvas(Qt::Key_Home);
        QCOMPARE(page_->layer(), 0);
        strikeCanvas(Qt::Key_Up);
        QCOMPARE(page_->layer(), 1);
        strikeCanvas(Qt::Key_PageUp);
        QCOMPARE(page_->layer(), 11);
        strikeCanvas(Qt::Key_Down);
        QCOMPARE(page_->layer(), 10);
        strikeCanvas(Qt::Key_PageDown);
        QCOMPARE(page_->layer(), 0);
        strikeCanvas(Qt::Key_Down);
        QCOMPARE(page_->layer(), 0);
        strikeCanvas(Qt::Key_End);
        QCOMPARE(page_->layer(), page_->layerCount() - 1);
    }

    void fieldAndBarShowTheSameLayer() {
        QTRY_VERIFY_WITH_TIMEOUT(isThere(), 60000);
        auto* number = page_->findChild<QSpinBox*>();
        page_->profile()->setFocus();
        QTest::keyClick(page_->profile(), Qt::Key_Home);
        QCOMPARE(page_->layer(), 0);
        QTest::keyClick(page_->profile(), Qt::Key_Right);
        QCOMPARE(number->value(), 2);
        number->setFocus();
        number->selectAll();
        QTest::keyClicks(number, QStringLiteral("7"));
        QTest::keyClick(number, Qt::Key_Return);
        QCOMPARE(page_->layer(), 6);
        for (const int k : {page_->layerCount() - 2, 3}) {
            QTest::mouseClick(page_->profile(), Qt::LeftButton, {}, page_->profile()->placeOf(std::size_t(k)));
            QVERIFY(std::abs(page_->layer() - k) <= 1);  // a pixel may be more than a layer
            QCOMPARE(number->value(), page_->layer() + 1);
        }
    }

    void wheelAndDragZoomAndMoveAndZeroFits() {
        QTRY_VERIFY_WITH_TIMEOUT(isThere(), 60000);
        const LayerFrame fitted = canvas()->frame();
        const QPointF at(canvas()->width() / 3.0, canvas()->height() / 3.0);
        const Vec2 under = fitted.toBed(at, canvas()->size());
        QWheelEvent wheel(at, canvas()->mapToGlobal(at), {}, QPoint(0, 240), Qt::NoButton, Qt::NoModifier,
                          Qt::NoScrollPhase, false);
        QApplication::sendEvent(canvas(), &wheel);
        QVERIFY(canvas()->frame().scale > 1.3 * fitted.scale);
        QVERIFY((canvas()->frame().toBed(at, canvas()->size()) - under).norm() < 1e-6);
        const QPointF before = canvas()->frame().centre_mm;
        QTest::mousePress(canvas(), Qt::LeftButton, {}, QPoint(200, 150));
        QTest::mouseMove(canvas(), QPoint(240, 150));
        QTest::mouseRelease(canvas(), Qt::LeftButton, {}, QPoint(240, 150));
        QCOMPARE(canvas()->frame().centre_mm.x(), before.x() - 40 / canvas()->frame().scale);
        QTRY_VERIFY_WITH_TIMEOUT(canvas()->isPainted(), 20000);
        strikeCanvas(Qt::Key_0);
        QCOMPARE(canvas()->frame().scale, fitted.scale);
        QCOMPARE(canvas()->frame().centre_mm, fitted.centre_mm);
    }

    void aKindSwitchedOffIsNotDrawn() {
        QTRY_VERIFY_WITH_TIMEOUT(isThere(), 60000);
        const QImage all = canvas()->grab().toImage();
        auto* box = page_->findChild<QAbstractButton*>(QStringLiteral("show outer contour"));
        QTest::mouseClick(box, Qt::LeftButton, {}, QPoint(8, box->height() / 2));
        QVERIFY(!box->isChecked());
        QTRY_VERIFY_WITH_TIMEOUT(canvas()->isPainted(), 20000);
        QVERIFY(canvas()->grab().toImage() != all);
    }

    void theWindowLivesWhileLayersAreWorkedOut() {
        int beats = 0;
        QTimer beat;
        connect(&beat, &QTimer::timeout, page_, [&beats] { ++beats; });
        beat.start(10);
        Part finer = part();
        finer.recipe.layerThickness_mm = 0.05;
        document().editCurrent(finer, QStringLiteral("finer"));
        const int before = page_->layerCount();
        QTRY_VERIFY_WITH_TIMEOUT(page_->layerCount() > before && isThere(), 60000);
        QVERIFY(beats > 5);
    }

    void theBestWayUpIsTakenByOnePressAndUndone() {
        QTRY_VERIFY_WITH_TIMEOUT(table()->rowCount() == 6 && isThere(), 60000);
        const Part before = part();
        const auto* ways = page_->findChild<WaysUpPanel*>()->ways();
        int row = 0;
        while ((*ways)[std::size_t(row)].up == before.recipe.up)
            ++row;
        const Direction wanted = (*ways)[std::size_t(row)].up;
        QVERIFY(!use()->isEnabled());
        QTest::mouseClick(table()->viewport(), Qt::LeftButton, {},
                          table()->visualItemRect(table()->item(row, 0)).center());
        QVERIFY(use()->isEnabled());
        QVERIFY(!table()->item(row, 7)->text().isEmpty());
        QTest::mouseClick(use(), Qt::LeftButton);
        QCOMPARE(part().recipe.up, wanted);
        QTRY_VERIFY(table()->item(row, 0)->text().contains(QLatin1String("now")));
        QVERIFY(!use()->isEnabled());
        QCOMPARE(table()->rowCount(), 6);  // the ranking stays: it is of all six
        strike(*window_, Qt::Key_Z);
        QCOMPARE(part().recipe.up, before.recipe.up);
    }

    void thePresentWayUpTakesTheFinalAnswersFigures() {
        QTRY_VERIFY_WITH_TIMEOUT(table()->rowCount() == 6 && isThere() && hasFinal(), 120000);
        const RouteOutcome& printed = window_->answers().current().comparison->printed;
        int row = 0;
        while (!table()->item(row, 0)->text().contains(QLatin1String("final")))
            QVERIFY(++row < table()->rowCount());
        QCOMPARE(table()->item(row, 6)->text(), shown(printed.at(Question::machine_time)).fullText());
        const double limit = printed.cases.front().loadCase.deflectionLimit_mm;
        const Figure& deflection = printed.at(Question::deflection);
        QVERIFY2(table()->item(row, 1)->text().contains(shownAlike(deflection, deflection, limit).first.bandText()),
                 qPrintable(table()->item(row, 1)->text()));
        QTRY_VERIFY(words("layers state").contains(shown(printed.at(Question::machine_time)).fullText()));
    }

    void emptyPagesSayWhatToDo() {
        QTRY_VERIFY_WITH_TIMEOUT(isThere(), 60000);
        Part settled = part();
        settled.chosenRoute = "machined";
        document().editCurrent(settled, QStringLiteral("settled"));
        QTRY_VERIFY(words("layers empty").contains(QLatin1String("settled as machined")));
        auto* allTheSame = page_->findChild<QPushButton*>(QStringLiteral("layers all the same"));
        QVERIFY(allTheSame->isVisible());
        QTest::mouseClick(allTheSame, Qt::LeftButton);
        QTRY_VERIFY_WITH_TIMEOUT(isThere(), 60000);
        Part narrow = part();
        narrow.recipe.beadWidth_mm = 0.25;
        narrow.recipe.layerThickness_mm = 0.3;
        document().editCurrent(narrow, QStringLiteral("narrow"));
        QTRY_VERIFY_WITH_TIMEOUT(words("layers empty").contains(QLatin1String("wider bead")), 20000);
        QVERIFY(!allTheSame->isVisible());
        QTest::keyClick(window_.get(), Qt::Key_Z, Qt::ControlModifier);
        QTRY_VERIFY_WITH_TIMEOUT(isThere(), 60000);
        document().removePart(0);
        QTRY_VERIFY(words("layers empty").contains(QLatin1String("No part")));
    }

    void theLedgersDetailSplitsThePrintTime() {
        QTRY_VERIFY_WITH_TIMEOUT(hasFinal(), 120000);
        const RouteOutcome& printed = window_->answers().current().comparison->printed;
        const QString split = furtherText(printed, Question::machine_time, 0);
        for (const char* kind : {"outer contour", "travel", "retract and prime", "layer change", "heat up"})
            QVERIFY2(split.contains(QLatin1String(kind)), qPrintable(split));
    }
};

QTEST_MAIN(LayersPageTest)
#include "test_layers_page.moc"
