#include <QApplication>
#include <QDir>
#include <QFile>
#include <QLabel>
#include <QLineEdit>
#include <QListWidget>
#include <QMenuBar>
#include <QTest>

#include "app/inspector/quantity_field.h"
#include "app/ledger/ledger_view.h"
#include "app/parts/parts_panel.h"
#include "app/style/theme.h"
#include "app/verdict/verdict_line.h"
#include "app/window/main_window.h"
#include "app/window/status_notes.h"
#include "tests/gui/dialog_script.h"
#include "tests/gui/quick_bar.h"
#include "tests/gui/window_case.h"

using namespace waybench;
using namespace waybench::testing;

/// Steps of undo, the list of parts, and where the project's files are looked for, in the whole window.
class DocumentTest : public WindowCase {
    Q_OBJECT
private:
    QListWidget* list() const { return window_->findChild<PartsPanel*>()->list(); }
    QLineEdit* thickness() const {
        for (QuantityField* f : window_->findChildren<QuantityField*>())
            if (f->description().key == QLatin1String("thickness") && f->isVisible()) return f->entry();
        return nullptr;
    }
    QString state() const {
        for (QLabel* label : window_->findChildren<QLabel*>())
            if (label->accessibleName() == QLatin1String("State of the computation")) return label->text();
        return {};
    }
    /// Where the saved file says that the part's drawing is.
    static QString drawingFoundBy(const QString& projectFile) {
        const Project saved = readProject(projectFile.toStdString());
        return QString::fromStdString((saved.folder() / saved.parts.at(0).shape.file).string());
    }

private Q_SLOTS:
    void initTestCase() {
        beginTests("waybench-test-document");
        shop_ = shippedShop();
    }

    void init() {
        open(QSize(1440, 920));
        QVERIFY(QDir(folder_->path()).mkpath(QStringLiteral("in")) && QDir(folder_->path()).mkpath("out"));
    }
    void cleanup() { window_.reset(); }

    void savingElsewhereKeepsEveryStepAndFindsTheDrawing() {
        const QString drawing = path(QStringLiteral("in/plate.dxf"));
        QVERIFY(QFile::copy(QStringLiteral(WAYBENCH_SOURCE_DEMO "/drive_cross_plate.dxf"), drawing));
        QVERIFY(document().importShape(drawing));
        document().addPart(quickBar());
        const int steps = document().undoStack().count();
        const std::vector<Part> before = document().project().parts;

        DialogScript first({nameFile(path(QStringLiteral("in/rig")))});
        strike(*window_, Qt::Key_S);
        QVERIFY(first.isPlayed());
        QCOMPARE(document().undoStack().count(), steps);
        QVERIFY(document().project().parts == before);
        QVERIFY(!window_->isWindowModified());
        QCOMPARE(readProject(path(QStringLiteral("in/rig.waybench")).toStdString()).parts.at(0).shape.file.string(),
                 std::string("plate.dxf"));

        list()->setFocus();
        QTest::keyClick(list(), Qt::Key_Home);
        QTest::keyClick(list(), Qt::Key_Delete);
        QCOMPARE(document().project().parts.size(), std::size_t(1));
        DialogScript second({nameFile(path(QStringLiteral("out/rig")))});
        strike(*window_, Qt::Key_S, Qt::ControlModifier | Qt::ShiftModifier);
        QVERIFY(second.isPlayed());
        strike(*window_, Qt::Key_Z);
        QTRY_VERIFY(document().project().parts == before);
        QVERIFY(window_->isWindowModified());
        strike(*window_, Qt::Key_S);
        QVERIFY(!window_->isWindowModified());
        const QString found = drawingFoundBy(path(QStringLiteral("out/rig.waybench")));
        QVERIFY2(QFile::exists(found), qPrintable(found));
        QCOMPARE(QFileInfo(found).canonicalFilePath(), QFileInfo(drawing).canonicalFilePath());
    }

    void aFaultNamesTheDrawingAsTheProjectDoes() {
        const QString drawing = path(QStringLiteral("in/plate.dxf"));
        QVERIFY(QFile::copy(QStringLiteral(WAYBENCH_SOURCE_DEMO "/drive_cross_plate.dxf"), drawing));
        QVERIFY(document().importShape(drawing));
        QVERIFY(document().saveAs(path(QStringLiteral("in/rig.waybench"))));
        QVERIFY(document().saveAs(path(QStringLiteral("out/rig.waybench"))));
        Fault fault{QStringLiteral("dxf_open"), drawing, QStringLiteral("line 12"), QStringLiteral("open"), {}};
        QCOMPARE(document().asWritten(fault).file, QStringLiteral("../in/plate.dxf"));
        fault.file = path(QStringLiteral("out/rig.waybench"));
        QCOMPARE(document().asWritten(fault).file, fault.file);
    }

    void undoingAnEditShowsItsPartAndNamesIt() {
        document().addPart(quickBar("first"));
        document().addPart(quickBar("second"));
        list()->setFocus();
        QTest::keyClick(list(), Qt::Key_Home);
        QTRY_COMPARE(part().name, std::string("first"));
        const double before = part().shape.dimensions.at("thickness");
        thickness()->setFocus();
        QTest::keyClick(thickness(), Qt::Key_Up);
        QVERIFY(part().shape.dimensions.at("thickness") != before);
        list()->setFocus();
        QTest::keyClick(list(), Qt::Key_Down);
        QCOMPARE(part().name, std::string("second"));
        QVERIFY2(document().undoStack().undoText().startsWith(QLatin1String("first: ")),
                 qPrintable(document().undoStack().undoText()));
        strike(*window_, Qt::Key_Z);
        QCOMPARE(part().name, std::string("first"));
        QCOMPARE(part().shape.dimensions.at("thickness"), before);
        QCOMPARE(list()->currentRow(), document().currentIndex());
        list()->setFocus();
        QTest::keyClick(list(), Qt::Key_Down);
        QCOMPARE(part().name, std::string("second"));
        strike(*window_, Qt::Key_Y);
        QCOMPARE(part().name, std::string("first"));
        QVERIFY(part().shape.dimensions.at("thickness") != before);
    }

    void nudgesInARowAreOfferedFromTheFirstValueToTheLast() {
        document().addPart(quickBar());
        QStringList values{thickness()->text()};
        thickness()->setFocus();
        for (int k = 0; k < 3; ++k) {
            QTest::keyClick(thickness(), Qt::Key_Up);
            values << thickness()->text();
        }
        values.removeDuplicates();
        QCOMPARE(values.size(), 4);
        const QString offered = document().undoStack().undoText();
        const QStringList sides = offered.split(QStringLiteral(" → "));
        QVERIFY2(sides.size() == 2, qPrintable(offered));
        QVERIFY2(sides[0].contains(QLatin1Char(' ') + values.first()), qPrintable(offered));
        QVERIFY2(sides[1].startsWith(values.last()), qPrintable(offered));
    }

    void aBlankNameIsRefusedAndTheListShowsTheOldOne() {
        document().addPart(quickBar());
        document().addPart(quickBar("post"));
        for (const QString& typed : {QStringLiteral("   "), QStringLiteral("  post ")}) {
            list()->setFocus();
            QTest::keyClick(list(), Qt::Key_F2);
            QLineEdit* editor = nullptr;
            QTRY_VERIFY((editor = list()->findChild<QLineEdit*>()));
            const int steps = document().undoStack().index();
            editor->selectAll();
            QTest::keyClicks(editor, typed);
            QTest::keyClick(editor, Qt::Key_Return);
            QTRY_VERIFY(!list()->findChild<QLineEdit*>());
            QTRY_COMPARE(list()->currentItem()->text(), QStringLiteral("post"));
            QCOMPARE(part().name, std::string("post"));
            QCOMPARE(document().undoStack().index(), steps);
        }
    }

    void theMenuShowsAnAmpersandInAPartsName() {
        document().addPart(quickBar("nut & bolt"));
        QAction* undo = nullptr;
        for (QAction* menu : window_->menuBar()->actions())
            for (QAction* action : menu->menu()->actions())
                if (action->shortcut() == QKeySequence(Qt::CTRL | Qt::Key_Z)) undo = action;
        QVERIFY(undo && undo->isEnabled());
        QVERIFY2(undo->text().contains(QStringLiteral("nut && bolt")), qPrintable(undo->text()));
    }

    void withoutAPartNothingOfTheDeletedOneStays() {
        document().addPart(quickBar());
        QTRY_VERIFY_WITH_TIMEOUT(hasFinal(), 60000);
        auto* ledger = window_->findChild<LedgerView*>();
        QVERIFY(ledger->rowCount() > 0);
        const QString wasState = state();
        QVERIFY(!wasState.isEmpty());
        QLabel* workings = nullptr;
        for (QLabel* label : window_->findChildren<QLabel*>())
            if (label->accessibleName() == QLatin1String("Working, printed")) workings = label;
        QVERIFY(workings && !workings->text().isEmpty());

        list()->setFocus();
        QTest::keyClick(list(), Qt::Key_Delete);
        QVERIFY(!document().currentPart());
        const QString said = window_->findChild<VerdictLine*>()->sentence();
        QVERIFY2(said.contains(QStringLiteral("Add")) && !said.contains(QStringLiteral("Computing")), qPrintable(said));
        QCOMPARE(state(), QString());
        QCOMPARE(ledger->rowCount(), 0);
        QVERIFY(workings->text().isEmpty());
        DialogScript none;  // no file is asked for: there is no page of the deleted part any more
        strike(*window_, Qt::Key_E);
        QVERIFY(none.isPlayed());
        const QString note = window_->findChild<StatusNotes*>()->noteText();
        QVERIFY2(note.contains(QStringLiteral("no page")), qPrintable(note));

        strike(*window_, Qt::Key_Z);
        QTRY_COMPARE(state(), wasState);
        QVERIFY(ledger->rowCount() > 0);
    }

    void aFinalAnswerIsNotCalledStoppedWhenAnotherPartWas() {
        document().addPart(quickBar());
        QTRY_VERIFY_WITH_TIMEOUT(hasFinal(), 60000);
        const QString whenFinal = state();
        document().addPart(quickBar("second"));
        QVERIFY(window_->answers().job().isRunning());
        list()->setFocus();
        QTest::keyClick(list(), Qt::Key_Home);
        QVERIFY(hasFinal());
        QCOMPARE(state(), whenFinal);
    }

    void theStopButtonIsReadAsItIsWritten() {
        VerdictLine line;
        auto* button = line.findChild<QPushButton*>();
        QVERIFY(button);
        line.setStage(ComparisonJob::Stage::drafting);
        QVERIFY(button->accessibleName().contains(button->text()));
        line.setStage(ComparisonJob::Stage::cancelled);
        QCOMPARE(button->text(), QStringLiteral("Compute again"));
        QCOMPARE(button->accessibleName(), button->text());
    }
};

QTEST_MAIN(DocumentTest)
#include "test_document.moc"
