#include <QAbstractItemView>
#include <QComboBox>
#include <QLabel>
#include <QPushButton>
#include <QToolButton>

#include "app/document/load_cases.h"
#include "app/inspector/load_case_section.h"
#include "app/inspector/vector_field.h"
#include "tests/gui/inspector_case.h"

using namespace waybench;
using namespace waybench::testing;

/// Kinds of hold, the own weight, attached masses, and several load cases, in the fields.
class LoadCaseFieldsTest : public InspectorCase {
    Q_OBJECT
private:
    const LoadCase& shown() const { return part().loadCaseAt(inspector_->loadCase()->chosenCase()); }
    QComboBox* choice(const QString& name) const { return named<QComboBox>(QStringLiteral("choice ") + name); }
    void press(const QString& buttonName) {
        QWidget* button = named<QWidget>(buttonName);
        QVERIFY2(button, qPrintable(buttonName));
        button->setFocus();
        QTest::keyClick(button, Qt::Key_Space);
    }
    void pick(const QString& name, Qt::Key key) {
        QComboBox* box = choice(name);
        QVERIFY2(box, qPrintable(name));
        box->setFocus();
        QTest::keyClick(box, key);
    }
    /// Opens the list of a choice and clicks an entry with the mouse.
    void clickEntry(QComboBox* box, int entry) {
        QTest::mouseClick(box, Qt::LeftButton);
        QTRY_VERIFY(box->view()->isVisible());
        const QModelIndex index = box->model()->index(entry, 0);
        box->view()->scrollTo(index);
        // Qt takes a release within the time of a double click for that of the click that opened the list.
        QTest::qWait(2 * QApplication::doubleClickInterval());
        QTest::mouseClick(box->view()->viewport(), Qt::LeftButton, {}, box->view()->visualRect(index).center());
        QTRY_VERIFY(!box->view()->isVisible());
    }

private Q_SLOTS:
    void initTestCase() {
        beginTests("waybench-test-load-case-fields");
        QApplication::setDoubleClickInterval(20);
        shop_ = shippedShop();
    }
    void init() { open(); }
    void cleanup() { close(); }

    void aHoldsKindIsChosenByKeyAndTakenBack() {
        const Part before = part();
        pick(QStringLiteral("hold kind 1"), Qt::Key_Down);
        QVERIFY(part().loadCase.holds[0].kind == HoldKind::sliding);
        QVERIFY(part().loadCase.holds[1].kind == HoldKind::fixed);
        QVERIFY2(offeredUndo().contains(QStringLiteral("slides")), qPrintable(offeredUndo()));
        QVERIFY(choice(QStringLiteral("hold kind 1"))->hasFocus());
        undoByKey();
        QVERIFY(part() == before);
        QCOMPARE(choice(QStringLiteral("hold kind 1"))->currentIndex(), int(HoldKind::fixed));
    }

    void aHoldsKindIsChosenByMouse() {
        clickEntry(choice(QStringLiteral("hold kind 1")), int(HoldKind::bolted));
        QVERIFY(part().loadCase.holds[0].kind == HoldKind::bolted);
    }

    void everyKindOfHoldSaysInPlainWordsWhatItIs() {
        const QComboBox* kind = choice(QStringLiteral("hold kind 1"));
        QCOMPARE(kind->count(), 3);
        QStringList tips;
        for (int k = 0; k < kind->count(); ++k)
            tips << kind->itemData(k, Qt::ToolTipRole).toString();
        QCOMPARE(tips.removeDuplicates(), 0);
        for (const QString& tip : tips)
            QVERIFY2(tip.size() > 20, qPrintable(tip));
        QVERIFY(kind->toolTip().contains(tips[0]));
    }

    void onlyABoltedHoldHasAHeadAndItsDefaultIsMarked() {
        const QString key = QStringLiteral("head diameter 1");
        QVERIFY(!field(key));
        pick(QStringLiteral("hold kind 1"), Qt::Key_End);
        QuantityField* head = field(key);
        QVERIFY(head);
        auto* mark = head->findChild<OriginMark*>();
        QVERIFY(!mark->isTyped());
        QCOMPARE(head->entry()->text(), QString());
        QVERIFY(head->entry()->placeholderText().contains(QStringLiteral("bore")));
        type(head->entry(), QStringLiteral("1 cm"));
        QTest::keyClick(head->entry(), Qt::Key_Return);
        QCOMPARE(part().loadCase.holds[0].headDiameter_mm, 10.0);
        QVERIFY(mark->isTyped());
        head->entry()->selectAll();
        QTest::keyClick(head->entry(), Qt::Key_Delete);
        QTest::keyClick(head->entry(), Qt::Key_Return);
        QCOMPARE(part().loadCase.holds[0].headDiameter_mm, 0.0);
        QVERIFY(head->problem().isEmpty());
        type(head->entry(), QStringLiteral("12"));
        QTest::keyClick(head->entry(), Qt::Key_Return);
        mark->setFocus();
        QTest::keyClick(mark, Qt::Key_Space);
        QCOMPARE(part().loadCase.holds[0].headDiameter_mm, 0.0);
        QCOMPARE(head->entry()->text(), QString());
    }

    void theOwnWeightIsLeftOutUntilItsWayIsChosen() {
        const Part before = part();
        QComboBox* way = choice(QStringLiteral("own weight"));
        QVERIFY(way);
        QCOMPARE(way->currentIndex(), 0);
        QVERIFY(part().loadCase.gravity.isZero());
        const int down = way->findText(QStringLiteral("−z"));
        clickEntry(way, down);
        QVERIFY(part().loadCase.gravity == Vec3(0, 0, -1));
        QVERIFY2(offeredUndo().contains(QStringLiteral("weight")), qPrintable(offeredUndo()));
        QTest::keyClick(way, Qt::Key_Home);
        QVERIFY(part().loadCase.gravity.isZero());
        document_->undoStack().undo();
        document_->undoStack().undo();
        QVERIFY(part() == before);
    }

    void theOwnWeightPullsAnyWayAndAnyMultiple() {
        pick(QStringLiteral("own weight"), Qt::Key_End);
        auto* x = named<QLineEdit>(QStringLiteral("entry own weight x"));
        QVERIFY(x);
        QTRY_VERIFY(x->hasFocus());
        type(x, QStringLiteral("1.5"));
        QTest::keyClick(x, Qt::Key_Return);
        auto* z = named<QLineEdit>(QStringLiteral("entry own weight z"));
        type(z, QStringLiteral("-2"));
        QTest::keyClick(z, Qt::Key_Return);
        QVERIFY(part().loadCase.gravity == Vec3(1.5, 0, -2));
        const QComboBox* way = choice(QStringLiteral("own weight"));
        QCOMPARE(way->currentIndex(), way->count() - 1);
    }

    void aMassIsAttachedWeighedMovedAndTakenAway() {
        const Part before = part();
        press(QStringLiteral("add mass"));
        QCOMPARE(part().loadCase.masses.size(), std::size_t(1));
        QCOMPARE(part().loadCase.masses[0].mass_g, 0.0);  // none is assumed
        QuantityField* mass = field(QStringLiteral("attached mass 1"));
        QVERIFY(mass);
        type(mass->entry(), QStringLiteral("0.25 kg"));
        QTest::keyClick(mass->entry(), Qt::Key_Return);
        QCOMPARE(part().loadCase.masses[0].mass_g, 250.0);
        type(mass->entry(), QStringLiteral("3 N"));
        QTest::keyClick(mass->entry(), Qt::Key_Return);
        QVERIFY(!mass->problem().isEmpty());
        QCOMPARE(part().loadCase.masses[0].mass_g, 250.0);
        pick(QStringLiteral("face of attached mass 1"), Qt::Key_Home);
        QCOMPARE(part().loadCase.masses[0].face.name, kFaces.front().toStdString());
        press(QStringLiteral("remove mass 1"));
        QVERIFY(part().loadCase.masses.empty());
        QVERIFY(QApplication::focusWidget() && inspector_->isAncestorOf(QApplication::focusWidget()));
        undoByKey();
        QCOMPARE(part().loadCase.masses.size(), std::size_t(1));
        while (part() != before)
            document_->undoStack().undo();
        QVERIFY(!field(QStringLiteral("attached mass 1")));
    }

    void aFaultAboutAMassOrTheWeightStandsBesideIt() {
        press(QStringLiteral("add mass"));
        inspector_->showFault({QStringLiteral("mass_absurd"),
                               {},
                               QStringLiteral("part 'plate', printed, attached mass 1"),
                               QStringLiteral("the attached mass is not between zero and a tonne"),
                               {}});
        QVERIFY(inspector_->stripText().isEmpty());
        QVERIFY(choice(QStringLiteral("face of attached mass 1"))
                    ->accessibleDescription()
                    .contains(QStringLiteral("tonne")));
    }

    void aFaultOfAnotherLoadCaseStandsUnderTheChoice() {
        press(QStringLiteral("copy load case"));
        const QString first = QString::fromStdString(part().loadCase.name),
                      second = QString::fromStdString(shown().name);
        const auto raise = [this](const QString& code, const QString& place) {
            inspector_->showFault(
                {code, {}, QStringLiteral("part 'plate', printed, ") + place, QStringLiteral("it is wrong"), {}});
        };
        const QComboBox* chooser = choice(QStringLiteral("load case"));
        const QComboBox* held = choice(QStringLiteral("held face 1"));
        raise({}, QStringLiteral("load case '%1', hold 1").arg(second));
        QVERIFY(held->accessibleDescription().contains(QStringLiteral("wrong")));
        QVERIFY(chooser->accessibleDescription().isEmpty());
        raise({}, QStringLiteral("load case '%1', hold 1").arg(first));
        QVERIFY(held->accessibleDescription().isEmpty());
        QVERIFY(chooser->accessibleDescription().contains(first + QStringLiteral(", hold 1")));
        raise(QStringLiteral("no_load"), QStringLiteral("load case '%1'").arg(first));
        QVERIFY2(chooser->accessibleDescription().startsWith(first + QLatin1Char(':')),
                 qPrintable(chooser->accessibleDescription()));
        QVERIFY(inspector_->stripText().isEmpty());
        inspector_->clearFault();
        QVERIFY(chooser->accessibleDescription().isEmpty());
    }

    void aPartThatNothingHoldsIsToldUnderItsHolds() {
        press(QStringLiteral("remove hold 2"));
        press(QStringLiteral("remove hold 1"));
        inspector_->showFault({QStringLiteral("no_support"),
                               {},
                               QStringLiteral("part 'plate', printed, load case 'working load'"),
                               QStringLiteral("the part is held nowhere"),
                               {}});
        QVERIFY(inspector_->stripText().isEmpty());
        QLabel* said = nullptr;
        for (QLabel* label : inspector_->findChildren<QLabel*>())
            if (label->isVisible() && label->text().contains(QStringLiteral("held nowhere"))) said = label;
        QVERIFY(said);
        const auto top = [this](QWidget* w) { return w->mapTo(inspector_, QPoint(0, 0)).y(); };
        QTRY_VERIFY(top(said) > top(named<QWidget>(QStringLiteral("add hold"))));
        QVERIFY(top(said) < top(named<QWidget>(QStringLiteral("add load"))));
    }

    void theWheelOverWhatHasNoFocusChangesNothing() {
        press(QStringLiteral("add mass"));
        pick(QStringLiteral("hold kind 2"), Qt::Key_End);
        press(QStringLiteral("add load case"));
        window_->setFocus();
        const Part before = part();
        const std::size_t chosen = inspector_->loadCase()->chosenCase();
        for (const QString& name : {QStringLiteral("hold kind 1"), QStringLiteral("own weight"),
                                    QStringLiteral("load case"), QStringLiteral("face of attached mass 1")})
            wheelOver(choice(name));
        wheelOver(field(QStringLiteral("head diameter 2"))->entry());
        wheelOver(field(QStringLiteral("attached mass 1"))->entry());
        QVERIFY(part() == before);
        QCOMPARE(inspector_->loadCase()->chosenCase(), chosen);
    }

    void aLonelyLoadCaseCannotBeTakenAway() {
        auto* remove = named<QToolButton>(QStringLiteral("remove load case"));
        QVERIFY(remove && !remove->isEnabled());
        const Part before = part();
        QTest::mouseClick(remove, Qt::LeftButton);
        QVERIFY(part() == before);
        press(QStringLiteral("add load case"));
        QVERIFY(remove->isEnabled());
    }

    void aNewLoadCaseHoldsLikeTheOldOneAndLoadsNothing() {
        const LoadCase first = part().loadCase;
        press(QStringLiteral("add load case"));
        QCOMPARE(part().loadCaseCount(), std::size_t(2));
        QCOMPARE(inspector_->loadCase()->chosenCase(), std::size_t(1));
        QVERIFY(part().loadCase == first);
        QVERIFY(shown().holds == first.holds && shown().loads.empty());
        QVERIFY(shown().name != first.name);
        QCOMPARE(choice(QStringLiteral("load case"))->currentText().toStdString(), shown().name);
        QVERIFY(!choice(QStringLiteral("load kind 1")));
        press(QStringLiteral("add load"));
        QCOMPARE(part().furtherLoadCases[0].loads.size(), std::size_t(1));
        QVERIFY(part().loadCase == first);
        QVERIFY2(offeredUndo().contains(QString::fromStdString(shown().name)), qPrintable(offeredUndo()));
    }

    void choosingALoadCaseShowsItsFieldsAndIsNoStepOfUndo() {
        press(QStringLiteral("copy load case"));
        QCOMPARE(inspector_->loadCase()->chosenCase(), std::size_t(1));
        QuantityField* limit = field(QStringLiteral("limit"));
        type(limit->entry(), QStringLiteral("0.5"));
        QTest::keyClick(limit->entry(), Qt::Key_Return);
        QCOMPARE(part().loadCase.deflectionLimit_mm, 0.2);
        QCOMPARE(part().furtherLoadCases[0].deflectionLimit_mm, 0.5);
        const int steps = document_->undoStack().index();
        clickEntry(choice(QStringLiteral("load case")), 0);
        QCOMPARE(inspector_->loadCase()->chosenCase(), std::size_t(0));
        QCOMPARE(field(QStringLiteral("limit"))->value(), 0.2);
        QCOMPARE(document_->undoStack().index(), steps);
        pick(QStringLiteral("load case"), Qt::Key_Down);
        QCOMPARE(field(QStringLiteral("limit"))->value(), 0.5);
    }

    void undoingShowsTheLoadCaseItIsAbout() {
        press(QStringLiteral("copy load case"));
        QuantityField* limit = field(QStringLiteral("limit"));
        type(limit->entry(), QStringLiteral("0.5"));
        QTest::keyClick(limit->entry(), Qt::Key_Return);
        pick(QStringLiteral("load case"), Qt::Key_Home);
        QCOMPARE(inspector_->loadCase()->chosenCase(), std::size_t(0));
        undoByKey();
        QCOMPARE(inspector_->loadCase()->chosenCase(), std::size_t(1));
        QCOMPARE(field(QStringLiteral("limit"))->value(), 0.2);
        undoByKey();
        QCOMPARE(part().loadCaseCount(), std::size_t(1));
        QCOMPARE(inspector_->loadCase()->chosenCase(), std::size_t(0));
    }

    void nudgesInTwoLoadCasesAreTwoSteps() {
        press(QStringLiteral("copy load case"));
        const int steps = document_->undoStack().index();
        field(QStringLiteral("limit"))->entry()->setFocus();
        QTest::keyClick(field(QStringLiteral("limit"))->entry(), Qt::Key_Up);
        QTest::keyClick(field(QStringLiteral("limit"))->entry(), Qt::Key_Up);
        pick(QStringLiteral("load case"), Qt::Key_Home);
        field(QStringLiteral("limit"))->entry()->setFocus();
        QTest::keyClick(field(QStringLiteral("limit"))->entry(), Qt::Key_Up);
        QCOMPARE(document_->undoStack().index(), steps + 2);
    }

    void namesOfLoadCasesStayDistinct() {
        press(QStringLiteral("copy load case"));
        const std::string first = part().loadCase.name, second = shown().name;
        QVERIFY(first != second);
        auto* name = named<QLineEdit>(QStringLiteral("entry load case name"));
        type(name, QString::fromStdString(first));
        QTest::keyClick(name, Qt::Key_Return);
        QCOMPARE(shown().name, second);
        QVERIFY(!name->accessibleDescription().isEmpty());
        type(name, QStringLiteral("  "));
        QTest::keyClick(name, Qt::Key_Return);
        QCOMPARE(shown().name, second);
        type(name, QStringLiteral("emergency stop"));
        QTest::keyClick(name, Qt::Key_Return);
        QCOMPARE(shown().name, std::string("emergency stop"));
        QCOMPARE(choice(QStringLiteral("load case"))->currentText(), QStringLiteral("emergency stop"));
        QVERIFY(name->accessibleDescription().isEmpty());
    }

    void theFirstOfTwoLoadCasesGoesAndComesBack() {
        press(QStringLiteral("copy load case"));
        pick(QStringLiteral("load case"), Qt::Key_Home);
        const Part before = part();
        press(QStringLiteral("remove load case"));
        QCOMPARE(part().loadCaseCount(), std::size_t(1));
        QVERIFY(part().loadCase == before.furtherLoadCases[0]);
        document_->undoStack().undo();
        QVERIFY(part() == before);
        QCOMPARE(inspector_->loadCase()->chosenCase(), std::size_t(0));
    }

    void anotherPartBeginsWithItsFirstLoadCase() {
        press(QStringLiteral("copy load case"));
        Part other = plate();
        other.name = "other";
        document_->addPart(other);
        QCOMPARE(inspector_->loadCase()->chosenCase(), std::size_t(0));
        QVERIFY(part().loadCase == other.loadCase);
    }

    void aPickedFaceActsOnTheChosenLoadCaseOnly() {
        const LoadCase first = part().loadCase;
        press(QStringLiteral("add load case"));
        LoadCaseSection* section = inspector_->loadCase();
        section->hold(QStringLiteral("front"), HoldKind::sliding);
        section->attach(QStringLiteral("top"));
        section->load(QStringLiteral("top"));
        QVERIFY(part().loadCase == first);
        QVERIFY(shown().holds.back() == (Hold{FaceSelector::byName("front"), HoldKind::sliding}));
        QCOMPARE(shown().masses.size(), std::size_t(1));
        section->hold(QStringLiteral("front"), HoldKind::bolted);
        QVERIFY(shown().holds.back() == (Hold{FaceSelector::byName("front"), HoldKind::bolted}));
        section->release(QStringLiteral("top"));
        QVERIFY(shown().masses.empty() && shown().loads.empty());
    }
};

QTEST_MAIN(LoadCaseFieldsTest)
#include "test_load_case_fields.moc"
