#include <QApplication>
#include <QClipboard>
#include <QElapsedTimer>
#include <QLineEdit>
#include <QListWidget>
#include <QMessageBox>
#include <QPushButton>
#include <QSignalSpy>
#include <QTest>
#include <QTextBrowser>
#include <QTimer>
#include <algorithm>
#include <cstdio>

#include "app/inspector/quantity_field.h"
#include "app/ledger/ledger_view.h"
#include "app/page/page_view.h"
#include "app/parts/parts_panel.h"
#include "app/style/palette.h"
#include "app/style/theme.h"
#include "app/verdict/verdict_line.h"
#include "app/whatif/whatif_page.h"
#include "app/window/main_window.h"
#include "tests/gui/window_case.h"

using namespace waybench;
using namespace waybench::testing;

namespace {

/// Longest time the event loop did not come back to a 5 ms timer.
class LoopProbe {
public:
    LoopProbe() {
        timer_.setInterval(5);
        timer_.setTimerType(Qt::PreciseTimer);
        QObject::connect(&timer_, &QTimer::timeout, [this] {
            ++turns_;
            longest_ = std::max(longest_, clock_.restart());
        });
    }
    void start() {
        longest_ = 0;
        turns_ = 0;
        clock_.start();
        timer_.start();
    }
    qint64 stop() {
        timer_.stop();
        return longest_;
    }
    /// How often the loop came back since start().
    int turns() const { return turns_; }

private:
    QTimer timer_;
    QElapsedTimer clock_;
    qint64 longest_ = 0;
    int turns_ = 0;
};

}  // namespace

class WindowTest : public QObject {
    Q_OBJECT
private:
    std::shared_ptr<const Shop> shop_;
    std::unique_ptr<MainWindow> window_;

    bool hasFinal() const {
        const Answer a = window_->answers().current();
        return a && a.comparison->fidelity == Fidelity::standard && window_->answers().isCurrent();
    }
    QuantityField* field(const QString& key) const {
        for (QuantityField* f : window_->findChildren<QuantityField*>())
            if (f->description().key == key && f->isVisibleTo(window_.get())) return f;
        return nullptr;
    }

private Q_SLOTS:
    void initTestCase() {
        beginTests("waybench-test");
        shop_ = shippedShop();
        window_ = std::make_unique<MainWindow>(shop_);
        window_->resize(1440, 920);
        window_->show();
        QVERIFY(QTest::qWaitForWindowExposed(window_.get()));
    }

    void theDemoIsOneClickAway() {
        auto* demo = window_->findChild<QPushButton*>(QStringLiteral("open demo"));
        QVERIFY(demo);
        QTest::mouseClick(demo, Qt::LeftButton);
        QVERIFY(window_->document().isOpen());
        QTRY_VERIFY_WITH_TIMEOUT(hasFinal(), 60000);
        const Answer answer = window_->answers().current();
        QVERIFY(!answer.comparison->verdict.sentence.empty());
        QCOMPARE(window_->findChild<VerdictLine*>()->sentence(),
                 QString::fromStdString(answer.comparison->verdict.sentence));
    }

    void anEditGivesACoarseThenAFinalAnswerWhileTheWindowLives() {
        // Let the other parts' first answers finish, so that only this edit is timed.
        QTRY_VERIFY_WITH_TIMEOUT(
            std::all_of(window_->document().project().parts.begin(), window_->document().project().parts.end(),
                        [&](const Part& p) { return window_->answers().known(p.name) != nullptr; }),
            60000);
        for (int index = 0; index < int(window_->document().project().parts.size()); ++index) {
            const Part& part = window_->document().project().parts[std::size_t(index)];
            if (part.shape.kind == ShapeKind::surface) continue;
            window_->document().setCurrentIndex(index);
            QTRY_VERIFY_WITH_TIMEOUT(hasFinal(), 60000);
            QTest::qWait(100);
            LoopProbe probe;
            QElapsedTimer clock;
            qint64 first = -1, final = -1;
            int turnsBeforeTheFirst = -1;
            std::vector<Fidelity> answers;
            const auto connection =
                QObject::connect(&window_->answers(), &Answers::currentAnswered, window_.get(), [&](const Answer& a) {
                    answers.push_back(a.comparison->fidelity);
                    if (first < 0) {
                        first = clock.elapsed();
                        turnsBeforeTheFirst = probe.turns();
                    }
                    if (a.comparison->fidelity == Fidelity::standard) final = clock.elapsed();
                });
            Part edited = *window_->document().currentPart();
            edited.loadCase.deflectionLimit_mm *= 1.1;
            edited.loadCase.temperature_celsius += 1;
            probe.start();
            clock.start();
            window_->document().editCurrent(edited, QStringLiteral("limit"));
            QTRY_VERIFY_WITH_TIMEOUT(final >= 0, 60000);
            const qint64 stall = probe.stop();
            QObject::disconnect(connection);
            std::printf("%-18s first answer %5lld ms, final %5lld ms, longest stall of the event loop %lld ms\n",
                        part.name.c_str(), static_cast<long long>(first), static_cast<long long>(final),
                        static_cast<long long>(stall));
            QVERIFY(answers.size() >= 2);
            QCOMPARE(answers.front(), Fidelity::draft);
            QCOMPARE(answers.back(), Fidelity::standard);
            // Computed in the window's own thread, the loop would not have turned once.
            QVERIFY(turnsBeforeTheFirst > 0);
            window_->document().undoStack().undo();
        }
        window_->document().setCurrentIndex(0);
        QTRY_VERIFY_WITH_TIMEOUT(hasFinal(), 60000);
    }

    void typingAThicknessEditsThePartAndZeroIsRefusedBesideTheField() {
        QuantityField* thickness = field(QStringLiteral("thickness"));
        QVERIFY(thickness);
        thickness->entry()->setFocus();
        thickness->entry()->selectAll();
        QTest::keyClicks(thickness->entry(), QStringLiteral("9,5 mm"));
        QTest::keyClick(thickness->entry(), Qt::Key_Return);
        QTRY_COMPARE(window_->document().currentPart()->shape.dimensions.at("thickness"), 9.5);
        thickness->entry()->selectAll();
        QTest::keyClicks(thickness->entry(), QStringLiteral("0"));
        QTest::keyClick(thickness->entry(), Qt::Key_Return);
        QVERIFY(!thickness->problem().isEmpty());
        QCOMPARE(window_->document().currentPart()->shape.dimensions.at("thickness"), 9.5);
        QVERIFY(!QApplication::activeModalWidget());
    }

    void theWheelLeavesAFieldWithoutFocusAlone() {
        QuantityField* thickness = field(QStringLiteral("thickness"));
        QVERIFY(thickness);
        thickness->entry()->clearFocus();
        const double before = thickness->value();
        QWheelEvent wheel(QPointF(5, 5), thickness->entry()->mapToGlobal(QPointF(5, 5)), {}, QPoint(0, 120),
                          Qt::NoButton, Qt::NoModifier, Qt::NoScrollPhase, false);
        QApplication::sendEvent(thickness->entry(), &wheel);
        QCOMPARE(thickness->value(), before);
    }

    void nudgesAreOneStepOfUndo() {
        QuantityField* thickness = field(QStringLiteral("thickness"));
        QVERIFY(thickness);
        const int steps = window_->document().undoStack().index();
        const double before = window_->document().currentPart()->shape.dimensions.at("thickness");
        thickness->entry()->setFocus();
        for (int i = 0; i < 10; ++i)
            QTest::keyClick(thickness->entry(), Qt::Key_Up);
        QVERIFY(window_->document().currentPart()->shape.dimensions.at("thickness") > before);
        QCOMPARE(window_->document().undoStack().index(), steps + 1);
        QTest::keyClick(window_.get(), Qt::Key_Z, Qt::ControlModifier);
        QTRY_COMPARE(window_->document().currentPart()->shape.dimensions.at("thickness"), before);
    }

    void theLedgerIsReadAndCopiedByKeyboard() {
        QTRY_VERIFY_WITH_TIMEOUT(hasFinal(), 60000);
        auto* ledger = window_->findChild<LedgerView*>();
        QVERIFY(ledger && ledger->rowCount() > 10);
        ledger->setFocus();
        QTest::keyClick(ledger, Qt::Key_Home);
        QTest::keyClick(ledger, Qt::Key_Down);
        QCOMPARE(ledger->selectedRow(), 1);
        QTest::keyClick(ledger, Qt::Key_C, Qt::ControlModifier);
        QVERIFY(QApplication::clipboard()->text().contains(QStringLiteral("deflection")));
        QVERIFY(ledger->accessibleRowText(0).contains(QStringLiteral("printed")));
    }

    void theKeysOpenEveryPage() {
        auto* preview = window_->findChild<PageView*>();
        auto* whatIf = window_->findChild<WhatIfPage*>();
        auto* ledger = window_->findChild<LedgerView*>();
        QTest::keyClick(window_.get(), Qt::Key_2, Qt::ControlModifier);
        QVERIFY(whatIf->isVisible() && !ledger->isVisible());
        QTest::keyClick(window_.get(), Qt::Key_4, Qt::ControlModifier);
        QVERIFY(preview->isVisible() && !whatIf->isVisible());
        QTest::keyClick(window_.get(), Qt::Key_1, Qt::ControlModifier);
        QVERIFY(ledger->isVisible() && !preview->isVisible());
    }

    void f1OpensTheHelpAndLeavesTheWindowUsable() {
        QTest::keyClick(window_.get(), Qt::Key_F1);
        QTextBrowser* help = nullptr;
        QTRY_VERIFY((help = window_->findChild<QTextBrowser*>()) && help->isVisible());
        QVERIFY(!QApplication::activeModalWidget());
        QVERIFY(help->toPlainText().contains(QStringLiteral("Proof-load")));
        QVERIFY(!help->toPlainText().contains(QStringLiteral("F fits")));  // no such key; 0 and Home do
        help->window()->close();
        window_->activateWindow();
        QTRY_VERIFY(window_->isActiveWindow());
    }

    void f2RenamesThePartAndUndoBringsTheNameBack() {
        auto* list = window_->findChild<PartsPanel*>()->list();
        const std::string before = window_->document().currentPart()->name;
        list->setFocus();
        QTest::keyClick(list, Qt::Key_F2);
        QLineEdit* editor = nullptr;
        QTRY_VERIFY((editor = list->findChild<QLineEdit*>()));
        editor->selectAll();
        QTest::keyClicks(editor, QStringLiteral("cross-plate two"));
        QTest::keyClick(editor, Qt::Key_Return);
        QTRY_COMPARE(window_->document().currentPart()->name, std::string("cross-plate two"));
        window_->document().undoStack().undo();
        QCOMPARE(window_->document().currentPart()->name, before);
    }

    void aDeletedPartComesBackByUndo() {
        auto* list = window_->findChild<PartsPanel*>()->list();
        const auto parts = window_->document().project().parts.size();
        list->setFocus();
        QTest::keyClick(list, Qt::Key_Delete);
        QCOMPARE(window_->document().project().parts.size(), parts - 1);
        QVERIFY(!QApplication::activeModalWidget());
        window_->document().undoStack().undo();
        QCOMPARE(window_->document().project().parts.size(), parts);
    }

    void closingWithUnsavedWorkCanBeCancelled() {
        Part edited = *window_->document().currentPart();
        edited.loadCase.deflectionLimit_mm *= 1.5;
        window_->document().editCurrent(edited, QStringLiteral("limit"));
        bool asked = false;
        QTimer::singleShot(200, window_.get(), [&] {
            if (auto* box = qobject_cast<QMessageBox*>(QApplication::activeModalWidget())) {
                asked = true;
                QTest::keyClick(box, Qt::Key_Escape);
            }
        });
        QVERIFY(!window_->close());
        QVERIFY(asked && window_->isVisible());
        window_->document().undoStack().undo();
    }

    void undoingEverythingTakesTheMarkOfUnsavedWorkAway() {
        Part edited = *window_->document().currentPart();
        edited.loadCase.deflectionLimit_mm *= 1.25;
        window_->document().editCurrent(edited, QStringLiteral("limit"));
        QVERIFY(window_->isWindowModified());
        window_->activateWindow();
        QVERIFY(QTest::qWaitForWindowActive(window_.get()));
        for (int k = window_->document().undoStack().index(); k > 0; --k)
            QTest::keyClick(window_.get(), Qt::Key_Z, Qt::ControlModifier);
        QVERIFY(!window_->document().undoStack().canUndo());
        QVERIFY(!window_->isWindowModified());
    }

    void everyPairOfColoursIsLegible() {
        for (const Palette* palette : {&lightPalette(), &darkPalette()})
            for (const ColourPair& pair : legiblePairs(*palette)) {
                const double ratio = contrastRatio(pair.front, pair.back);
                QVERIFY2(ratio >= pair.least, qPrintable(QStringLiteral("%1: %2").arg(pair.name).arg(ratio)));
            }
    }

    void cleanupTestCase() { window_.reset(); }
};

QTEST_MAIN(WindowTest)
#include "test_window.moc"
