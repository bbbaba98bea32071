#include <QApplication>
#include <QComboBox>
#include <QFile>
#include <QLabel>
#include <QLineEdit>
#include <QRegularExpression>
#include <QSet>
#include <QSignalSpy>
#include <QTemporaryDir>
#include <QTest>
#include <QTimer>

#include "app/style/theme.h"
#include "app/whatif/curve_plot.h"
#include "app/whatif/whatif_page.h"
#include "app/window/main_window.h"
#include "core/comparison/wording.h"
#include "tests/gui/quick_bar.h"
#include "tests/gui/window_case.h"

using namespace waybench;
using namespace waybench::testing;

/// The page in the window: sweeps, what they say, and the part that follows the cursor.
class WhatIfPageTest : public QObject {
    Q_OBJECT
private:
    std::unique_ptr<MainWindow> window_;
    WhatIfPage* page_ = nullptr;
    QTemporaryDir folder_;

    const Part& part() const { return *window_->document().currentPart(); }
    QString state() const { return page_->findChild<QLabel*>(QStringLiteral("what-if state"))->text(); }
    QString readings() const { return page_->findChild<QLabel*>(QStringLiteral("what-if readings"))->text(); }
    bool isFinal() const { return state().startsWith(QLatin1String("Final")); }
    bool isComputing() const { return state().startsWith(QLatin1String("Computing")); }
    int undoSteps() const { return window_->document().undoStack().index(); }

    void undo() {
        page_->plot()->setFocus();
        QTest::keyClick(window_.get(), Qt::Key_Z, Qt::ControlModifier);
    }
    void setLimit(double limit_mm) {
        Part limited = part();
        limited.loadCase.deflectionLimit_mm = limit_mm;
        window_->document().editCurrent(limited, QStringLiteral("limit"));
    }
    void type(const char* field, const QByteArray& value) {
        auto* entry = page_->findChild<QLineEdit*>(QStringLiteral("entry ") + QLatin1String(field));
        entry->setFocus();
        entry->selectAll();
        QTest::keyClicks(entry, QString::fromLatin1(value));
        QTest::keyClick(entry, Qt::Key_Return);
    }
    void choose(const QString& variable) {
        for (auto* box : page_->findChildren<QComboBox*>())
            if (const int k = box->findText(variable); k >= 0) {
                box->setFocus();
                QTest::keyClick(box, Qt::Key_Home);
                for (int step = 0; step < k; ++step)
                    QTest::keyClick(box, Qt::Key_Down);
                QCOMPARE(box->currentText(), variable);
            }
    }
    QByteArray table() {
        const QString file = folder_.filePath(QStringLiteral("table.csv"));
        if (!page_->exportTo(file)) return {};
        QFile written(file);
        return written.open(QIODevice::ReadOnly) ? written.readAll() : QByteArray();
    }
    Variable varied() const { return variableNamed(variablesOf(part(), window_->document().shop()), "thickness"); }
    SolvedLimit solvedByCore(RouteKind route, double from, double to) const {
        const Document& d = window_->document();
        return solveInOrBeside(part(), d.project().folder(), d.shop(), d.project().tariff, varied(), route, from, to,
                               Fidelity::standard, Task());
    }

private Q_SLOTS:
    void initTestCase() {
        beginTests("waybench-test");
        auto shop = std::make_shared<Shop>(readShop(resourceFolder()));
        Tariff dear = shop->tariffs.front();  // invented: twice the wage
        dear.key = "dear";
        dear.labour_per_h = dear.labour_per_h.times(2);
        shop->tariffs.push_back(dear);
        window_ = std::make_unique<MainWindow>(shop);
        window_->resize(1300, 800);
        window_->show();
        QVERIFY(QTest::qWaitForWindowExposed(window_.get()));
        window_->document().startNew();
        window_->document().addPart(quickBar());
        window_->showPage(MainWindow::Page::whatIf);
        page_ = window_->findChild<WhatIfPage*>();
        QVERIFY(page_);
    }

    void pointsArriveOneByOneWhileTheEventLoopLives() {
        int beats = 0, beatsAtFirst = -1;
        bool sawSome = false;
        QTimer beat;
        connect(&beat, &QTimer::timeout, page_, [&] {
            ++beats;
            const int n = page_->pointCount();
            if (n > 0 && beatsAtFirst < 0) beatsAtFirst = beats;
            sawSome = sawSome || (n > 0 && n < 9);
        });
        beat.start(10);
        QTRY_COMPARE_WITH_TIMEOUT(page_->pointCount(), 9, 120000);
        QVERIFY(sawSome);
        QVERIFY(beatsAtFirst > 0 && beats > beatsAtFirst);
        QVERIFY(page_->plot()->accessibleDescription().startsWith(page_->finding()));
    }

    void aRangeChangedWhileComputingIsComputed() {
        type("to", "12");
        QTRY_VERIFY_WITH_TIMEOUT(isComputing() && page_->pointCount() > 0 && page_->pointCount() < 9, 60000);
        type("to", "16");
        QTRY_VERIFY_WITH_TIMEOUT(isFinal(), 120000);
        const QList<QByteArray> lines = table().trimmed().split('\n');
        QCOMPARE(lines.size(), 10);
        QVERIFY2(lines.last().startsWith("16,"), lines.last().constData());
    }

    void oneNumberForAPlaceInTitleAndReadingsAndTheOneOfTheCommandLine() {
        QTRY_VERIFY_WITH_TIMEOUT(isFinal(), 120000);
        QSet<QString> expected;
        for (const RouteKind route : {RouteKind::printed, RouteKind::machined}) {
            const SolvedLimit solved = solvedByCore(route, 4, 16);
            QVERIFY(solved.sized);
            QCOMPARE(solved.isBeside(), route == RouteKind::printed);
            expected << QString::fromStdString(holdingPlaceOn(varied(), solved.sized->at, solved.sized->holdsAbove));
            QVERIFY(readings().contains(QString::fromStdString(wordsOf(solved, varied()))));
        }
        const QRegularExpression place(QStringLiteral("by its value from ([0-9.]+ mm)"));
        for (const QString& shownText : {page_->finding(), readings()}) {
            QSet<QString> said;
            for (const auto& match : place.globalMatch(shownText))
                said << match.captured(1);
            QCOMPARE(said, expected);
        }
    }

    void keysMoveTheCursorAndThePartFollows() {
        const Part before = part();
        const int steps = undoSteps();
        page_->plot()->setFocus();
        QTest::keyClick(page_->plot(), Qt::Key_Right);
        QTest::keyClick(page_->plot(), Qt::Key_Right);
        QVERIFY(part().shape != before.shape);
        QCOMPARE(undoSteps(), steps + 1);
        undo();
        QVERIFY(part() == before);
    }

    void keysAfterARestOrAfterTheFocusLeftAreAnotherStepOfUndo() {
        const Part before = part();
        const int steps = undoSteps();
        QSignalSpy settled(page_->plot(), &CurvePlot::settled);
        page_->plot()->setFocus();
        QTest::keyClick(page_->plot(), Qt::Key_Right);
        QTRY_COMPARE(settled.count(), 1);
        QTest::keyClick(page_->plot(), Qt::Key_Right);
        QCOMPARE(undoSteps(), steps + 2);
        QTest::keyClick(page_->plot(), Qt::Key_Backtab, Qt::ShiftModifier);
        QVERIFY(!page_->plot()->hasFocus());
        page_->plot()->setFocus();
        QTest::keyClick(page_->plot(), Qt::Key_Right);
        QCOMPARE(undoSteps(), steps + 3);
        for (int k = 0; k < 3; ++k)
            undo();
        QVERIFY(part() == before);
    }

    void aDragIsOneStepOfUndo() {
        const Part before = part();
        const int steps = undoSteps();
        QWidget* canvas = page_->plot()->findChild<QWidget*>();
        QVERIFY(canvas);
        const int y = canvas->height() / 2;
        QTest::mousePress(canvas, Qt::LeftButton, {}, QPoint(canvas->width() / 3, y));
        for (int k = 1; k <= 8; ++k)
            QTest::mouseMove(canvas, QPoint(canvas->width() / 3 + 10 * k, y));
        QTest::mouseRelease(canvas, Qt::LeftButton, {}, QPoint(canvas->width() / 3 + 80, y));
        QVERIFY(part().shape != before.shape);
        QCOMPARE(undoSteps(), steps + 1);
        undo();
        QVERIFY(part() == before);
    }

    void aTariffUndoneIsUndoneInTheCurves() {
        QTRY_VERIFY_WITH_TIMEOUT(isFinal(), 120000);
        const QByteArray before = table();
        TitleBlock block = window_->document().titleBlock();
        block.tariff = "dear";
        window_->document().editTitleBlock(block, QStringLiteral("tariff"));
        QTRY_VERIFY_WITH_TIMEOUT(isFinal() && table() != before, 120000);
        undo();
        QTRY_VERIFY_WITH_TIMEOUT(isFinal() && table() == before, 120000);
    }

    void aFaultOfSolvingIsToldAsOne() {
        const double limit = part().loadCase.deflectionLimit_mm;
        setLimit(0);
        QTRY_VERIFY_WITH_TIMEOUT(readings().contains(QLatin1String("where printed holds could not be solved")), 60000);
        QVERIFY(readings().contains(QLatin1String("there is no deflection limit")));
        QVERIFY(!readings().contains(QLatin1String("nowhere")));
        undo();
        QCOMPARE(part().loadCase.deflectionLimit_mm, limit);
    }

    void curvesOfOtherInputsDoNotStayUnderAFault() {
        choose(QStringLiteral("deflection limit"));
        QTRY_VERIFY_WITH_TIMEOUT(page_->pointCount() > 0, 60000);
        setLimit(50);  // now the range begins below what the limit may be
        QTRY_VERIFY(state().contains(QLatin1String("outside the range")));
        QCOMPARE(page_->pointCount(), 0);
        undo();
        QTRY_VERIFY_WITH_TIMEOUT(page_->pointCount() > 0, 60000);
        QVERIFY(!state().contains(QLatin1String("outside the range")));
        choose(QStringLiteral("thickness"));
    }

    void ordersAreToldApartByEachEntryButNotByTheCursor() {
        // As wide as it is thick, so that the part at the range's start is the same whichever of the two is varied.
        const Variable width = variableNamed(variablesOf(part(), window_->document().shop()), "width");
        SweepOrder order;
        order.part = with(part(), width, varied().current);
        order.variable = varied();
        order.from = order.variable.current;
        order.to = 16;
        QVERIFY(haveSameCurves(order, order));
        SweepOrder moved = order;
        moved.part = with(order.part, order.variable, 9);
        moved.variable.current = 9;
        QVERIFY(haveSameCurves(order, moved));
        SweepOrder other = order;
        other.variable = width;
        QVERIFY(!haveSameCurves(order, other));
        other = order;
        other.to = 24;
        QVERIFY(!haveSameCurves(order, other));
        other = order;
        other.from = 7;
        QVERIFY(!haveSameCurves(order, other));
        other = order;
        other.tariff = "dear";
        QVERIFY(!haveSameCurves(order, other));
        other = order;
        other.folder = "elsewhere";
        QVERIFY(!haveSameCurves(order, other));
        other = order;
        other.part.loadCase.temperature_celsius += 1;
        QVERIFY(!haveSameCurves(order, other));
    }

    void curvesAreExportedAsTheyAreShown() {
        QTRY_VERIFY_WITH_TIMEOUT(isFinal(), 120000);
        const QString svg = folder_.filePath(QStringLiteral("curves.svg"));
        QVERIFY(page_->exportTo(svg));
        QFile file(svg);
        QVERIFY(file.open(QIODevice::ReadOnly));
        QVERIFY(file.readAll().contains("machined"));
        for (const char* ending : {"pdf", "png", "csv"})
            QVERIFY(page_->exportTo(folder_.filePath(QStringLiteral("curves.") + QLatin1String(ending))));
        QVERIFY(!page_->exportTo(folder_.filePath(QStringLiteral("missing/curves.svg"))));
    }

    void cleanupTestCase() { window_.reset(); }
};

QTEST_MAIN(WhatIfPageTest)
#include "test_whatif_page.moc"
