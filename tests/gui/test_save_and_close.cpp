#include <QApplication>
#include <QDir>
#include <QFile>
#include <QLineEdit>
#include <QListWidget>
#include <QMenu>
#include <QMenuBar>
#include <QSettings>
#include <QSignalSpy>
#include <QTest>
#include <QToolButton>

#include "app/inspector/text_field.h"
#include "app/parts/parts_panel.h"
#include "app/style/theme.h"
#include "app/window/main_window.h"
#include "app/window/status_notes.h"
#include "tests/gui/dialog_script.h"
#include "tests/gui/quick_bar.h"
#include "tests/gui/window_case.h"

using namespace waybench;
using namespace waybench::testing;

/// Opening, saving and closing as a user does them; no work is lost and no file overwritten without a question.
class SavingTest : public WindowCase {
    Q_OBJECT
private:
    StatusNotes* notes() const { return window_->findChild<StatusNotes*>(); }
    QString rig() const { return path(QStringLiteral("rig.waybench")); }
    static QByteArray contentOf(const QString& name) {
        QFile file(name);
        return file.open(QIODevice::ReadOnly) ? file.readAll() : QByteArray("(cannot be read)");
    }
    static void write(const QString& name, const QByteArray& content) {
        QFile file(name);
        QVERIFY(file.open(QIODevice::WriteOnly) && file.write(content) == content.size());
    }
    static double savedLimit(const QString& name) {
        return readProject(name.toStdString()).parts.at(0).loadCase.deflectionLimit_mm;
    }
    QLineEdit* author() const {
        for (QLineEdit* entry : window_->findChildren<QLineEdit*>(QStringLiteral("entry author")))
            if (entry->isVisible()) return entry;
        return nullptr;
    }
    void typeAuthor(const QString& words) {
        author()->setFocus();
        author()->selectAll();
        QTest::keyClicks(author(), words);
    }
    void drop(const QString& file) { dropOn(*window_, {file}); }
    void edit(double limit_mm = 0.35) {
        Part edited = *document().currentPart();
        edited.loadCase.deflectionLimit_mm = limit_mm;
        document().editCurrent(edited, QStringLiteral("limit"));
        QVERIFY(window_->isWindowModified());
    }
    void openSavedRig() {
        document().startNew();
        document().addPart(quickBar());
        QVERIFY(document().saveAs(rig()));
        QVERIFY(!window_->isWindowModified());
    }
    QAction* action(const QString& title) const {
        for (QAction* menu : window_->menuBar()->actions())
            for (QAction* each : menu->menu()->actions())
                if (QString(each->text()).remove(QLatin1Char('&')).startsWith(title)) return each;
        return nullptr;
    }

private Q_SLOTS:
    void initTestCase() {
        beginTests("waybench-test-saving");
        shop_ = shippedShop();
    }

    void init() { open(QSize(1440, 1300)); }
    void cleanup() { window_.reset(); }

    void closingTakesWhatIsBeingTypedAndAsks() {
        openSavedRig();
        typeAuthor(QStringLiteral("Ada"));
        QVERIFY(!window_->isWindowModified());  // still being typed
        DialogScript script({pressEscape()});
        QVERIFY(!window_->close());
        QVERIFY(script.isPlayed());
        QVERIFY(window_->isVisible());
        QCOMPARE(document().project().author, std::string("Ada"));
        QVERIFY(window_->isWindowModified());
        QCOMPARE(window_->focusWidget(), author());
    }

    void closingTakesANameBeingTypedInTheList() {
        openSavedRig();
        auto* list = window_->findChild<PartsPanel*>()->list();
        list->setFocus();
        QTest::keyClick(list, Qt::Key_F2);
        QLineEdit* editor = nullptr;
        QTRY_VERIFY((editor = list->findChild<QLineEdit*>()));
        editor->selectAll();
        QTest::keyClicks(editor, QStringLiteral("long bar"));
        DialogScript script({pressButton(QStringLiteral("Save"))});
        QVERIFY(window_->close());
        QVERIFY(script.isPlayed());
        QCOMPARE(readProject(rig().toStdString()).parts.at(0).name, std::string("long bar"));
    }

    void savingAndOpeningTakeWhatIsBeingTyped() {
        openSavedRig();
        typeAuthor(QStringLiteral("Grace"));
        action(QStringLiteral("Save"))->trigger();
        QCOMPARE(readProject(rig().toStdString()).author, std::string("Grace"));
        typeAuthor(QStringLiteral("Emmy"));
        DialogScript script({pressEscape()});
        QVERIFY(!window_->openProject(rig()));
        QVERIFY(script.isPlayed());
        QCOMPARE(document().project().author, std::string("Emmy"));
    }

    void droppingADrawingTakesWhatIsBeingTyped() {
        openSavedRig();
        typeAuthor(QStringLiteral("Lise"));
        drop(QStringLiteral(WAYBENCH_SOURCE_DEMO "/front_panel.dxf"));
        QTRY_COMPARE(document().project().parts.size(), std::size_t(2));
        QCOMPARE(document().project().author, std::string("Lise"));
    }

    void theCloseQuestionSaves() {
        openSavedRig();
        edit();
        DialogScript script({pressButton(QStringLiteral("Save"))});
        QVERIFY(window_->close());
        QVERIFY(script.isPlayed());
        QCOMPARE(savedLimit(rig()), 0.35);
    }

    void theCloseQuestionDiscards() {
        openSavedRig();
        const QByteArray before = contentOf(rig());
        edit();
        DialogScript script({pressButton(QStringLiteral("Discard"))});
        QVERIFY(window_->close());
        QVERIFY(script.isPlayed());
        QCOMPARE(contentOf(rig()), before);
    }

    void aFailedSaveKeepsTheWindowOpenAndItsMessageUntilItIsMended() {
        openSavedRig();
        QVERIFY(QDir(folder_->path()).removeRecursively());
        edit();
        DialogScript script({pressButton(QStringLiteral("Save"))});
        QVERIFY(!window_->close());
        QVERIFY(script.isPlayed());
        QVERIFY(window_->isVisible() && window_->isWindowModified());
        const QString said = notes()->faultText();
        QVERIFY2(said.contains(QStringLiteral("rig.waybench")), qPrintable(said));
        // Answers come and go, the fault of saving stays.
        QSignalSpy answered(&window_->answers(), &Answers::currentAnswered);
        QTRY_VERIFY_WITH_TIMEOUT(!answered.isEmpty(), 60000);
        QCOMPARE(notes()->faultText(), said);
        QVERIFY(QDir().mkpath(folder_->path()));
        strike(*window_, Qt::Key_S);
        QCOMPARE(notes()->faultText(), QString());
        QVERIFY(!window_->isWindowModified());
        QCOMPARE(savedLimit(rig()), 0.35);
    }

    void aFaultOfSavingCanBeDismissed() {
        openSavedRig();
        QVERIFY(QDir(folder_->path()).removeRecursively());
        strike(*window_, Qt::Key_S);
        QVERIFY(!notes()->faultText().isEmpty());
        auto* dismiss = window_->findChild<QToolButton*>(QStringLiteral("dismiss fault"));
        QVERIFY(dismiss && dismiss->isVisible());
        QTest::mouseClick(dismiss, Qt::LeftButton);
        QCOMPARE(notes()->faultText(), QString());
        QVERIFY(!dismiss->isVisible());
    }

    void theNoteAboutAnUnknownKeyOutlivesTheAnswer() {
        openSavedRig();
        QByteArray odd = contentOf(rig());
        odd.replace("\"title\":", "\"titel_page\": 1, \"title\":");
        write(rig(), odd);
        QVERIFY(window_->openProject(rig()));
        const QString said = notes()->noteText();
        QVERIFY2(said.contains(QStringLiteral("titel_page")), qPrintable(said));
        QSignalSpy answered(&window_->answers(), &Answers::currentAnswered);
        QTRY_VERIFY_WITH_TIMEOUT(!answered.isEmpty(), 60000);
        QCOMPARE(notes()->noteText(), said);
    }

    void aFileWhoseEndingIsAddedIsNotOverwrittenUnasked() {
        for (const QString& name : {QStringLiteral("old"), QStringLiteral("old.v2")}) {
            const QString existing = path(name + QStringLiteral(".waybench"));
            write(existing, "precious");
            document().startNew();
            document().addPart(quickBar());
            // No: the file dialog is there again, and is left.
            DialogScript no({nameFile(path(name)), pressButton(QStringLiteral("No")), pressEscape()});
            // With an ending of its own the dialog comes anew; without, it has stayed below the question.
            strike(*window_, Qt::Key_S, Qt::ControlModifier | Qt::ShiftModifier);
            QVERIFY2(no.isPlayed(), qPrintable(name));
            QCOMPARE(contentOf(existing), QByteArray("precious"));
            DialogScript yes({nameFile(path(name)), pressButton(QStringLiteral("Yes"))});
            strike(*window_, Qt::Key_S, Qt::ControlModifier | Qt::ShiftModifier);
            QVERIFY2(yes.isPlayed(), qPrintable(name));
            QCOMPARE(readProject(existing.toStdString()).parts.size(), std::size_t(1));
        }
    }

    void aFileChangedElsewhereIsNotOverwrittenUnasked() {
        openSavedRig();
        edit();
        const QByteArray theirs = contentOf(rig()).replace("New rig", "Their rig");
        QVERIFY(theirs != contentOf(rig()));
        write(rig(), theirs);
        DialogScript cancel({pressButton(QStringLiteral("Cancel"))});
        strike(*window_, Qt::Key_S);
        QVERIFY(cancel.isPlayed());
        QCOMPARE(contentOf(rig()), theirs);
        QVERIFY(window_->isWindowModified());
        DialogScript elsewhere(
            {pressButton(QStringLiteral("Save as")), nameFile(path(QStringLiteral("mine.waybench")))});
        strike(*window_, Qt::Key_S);
        QVERIFY(elsewhere.isPlayed());
        QCOMPARE(contentOf(rig()), theirs);
        QCOMPARE(savedLimit(path(QStringLiteral("mine.waybench"))), 0.35);

        QVERIFY(window_->openProject(rig()));
        edit();
        write(rig(), theirs + "\n");
        DialogScript overwrite({pressButton(QStringLiteral("Overwrite"))});
        strike(*window_, Qt::Key_S);
        QVERIFY(overwrite.isPlayed());
        QCOMPARE(savedLimit(rig()), 0.35);
        // Our own saving is no change by somebody else, nor is a file written anew with the same content.
        edit(0.45);
        write(rig(), contentOf(rig()));
        DialogScript none;
        strike(*window_, Qt::Key_S);
        QVERIFY(none.isPlayed());
        QVERIFY(!window_->isWindowModified());
    }

    void theShippedSampleIsNeverSavedOver_data() {
        QTest::addColumn<QString>("way");
        for (const char* way : {"dropped", "opened", "recent"})
            QTest::newRow(way) << QString::fromLatin1(way);
    }
    void theShippedSampleIsNeverSavedOver() {
        QFETCH(QString, way);
        const QByteArray shipped = contentOf(demoRigFile());
        if (way == QLatin1String("dropped")) {
            drop(demoRigFile());
        } else if (way == QLatin1String("opened")) {
            DialogScript open({nameFile(demoRigFile())});
            strike(*window_, Qt::Key_O);
            QVERIFY(open.isPlayed());
        } else {
            QSettings().setValue(QStringLiteral("recent/files"), QStringList{demoRigFile()});
            QMenu* recent = action(QStringLiteral("Open recent"))->menu();
            Q_EMIT recent->aboutToShow();
            QCOMPARE(recent->actions().size(), 1);
            recent->actions().front()->trigger();
        }
        QVERIFY(document().isOpen() && document().isSample());
        edit();
        // Named again on purpose it is refused, and another place is asked for.
        DialogScript script({nameFile(demoRigFile()), pressButton(QStringLiteral("Yes")),
                             pressButton(QStringLiteral("OK")), pressEscape()});
        strike(*window_, Qt::Key_S);
        const bool isUntouched = contentOf(demoRigFile()) == shipped;
        if (!isUntouched) write(demoRigFile(), shipped);
        QVERIFY(isUntouched && script.isPlayed());
        QVERIFY(window_->isWindowModified());
    }

    void noTwoEntriesOfAMenuShareAKeyAndNoTwoActionsAShortcut() {
        openSavedRig();
        QMap<QString, QString> shortcuts;
        const auto take = [&](const QString& keys, const QString& title) {
            if (keys.isEmpty()) return;
            QVERIFY2(!shortcuts.contains(keys), qPrintable(keys + ": " + shortcuts[keys] + " / " + title));
            shortcuts[keys] = title;
        };
        QList<QMenu*> menus;
        int accessKeys = 0;
        const auto checkKeys = [&](const QList<QAction*>& entries, const QString& where) {
            QMap<QString, QString> taken;
            for (const QAction* entry : entries) {
                const QString key = QKeySequence::mnemonic(entry->text()).toString();
                if (key.isEmpty()) continue;
                ++accessKeys;
                QVERIFY2(!taken.contains(key),
                         qPrintable(where + QStringLiteral(", ") + key + ": " + taken[key] + " / " + entry->text()));
                taken[key] = entry->text();
            }
        };
        checkKeys(window_->menuBar()->actions(), QStringLiteral("menu bar"));
        for (const QAction* top : window_->menuBar()->actions())
            menus << top->menu();
        for (int k = 0; k < menus.size(); ++k) {  // grows by the menus inside
            Q_EMIT menus[k]->aboutToShow();
            checkKeys(menus[k]->actions(), menus[k]->title());
            for (const QAction* entry : menus[k]->actions()) {
                if (entry->menu()) menus << entry->menu();
                for (const QKeySequence& keys : entry->shortcuts())
                    take(keys.toString(), entry->text());
                take(entry->text().section(QLatin1Char('\t'), 1), entry->text());
            }
        }
        QVERIFY(accessKeys > 20);
        for (const char* needed : {"Ctrl+S", "Ctrl+Shift+S", "Ctrl+O", "Ctrl+N", "Ctrl+Z", "Ctrl+Shift+Z", "Ctrl+E",
                                   "Ctrl+P", "Ctrl+Q", "F1", "F2", "Ctrl+D", "Del"})
            QVERIFY2(shortcuts.contains(QString::fromLatin1(needed)), needed);
    }
};

QTEST_MAIN(SavingTest)
#include "test_save_and_close.moc"
