#include <QAbstractSlider>
#include <QApplication>
#include <QComboBox>
#include <QLabel>
#include <QLineEdit>
#include <QMenuBar>
#include <QScrollArea>
#include <QScrollBar>
#include <QTemporaryDir>
#include <QTest>
#include <QToolButton>
#include <set>

#include "app/document/document.h"
#include "app/inspector/inspector.h"
#include "app/inspector/load_case_section.h"
#include "app/inspector/quantity_field.h"
#include "app/inspector/text_field.h"
#include "app/inspector/title_block_section.h"
#include "app/inspector/vector_field.h"
#include "app/inspector/weights_section.h"
#include "app/style/theme.h"
#include "tests/gui/inspector_case.h"

using namespace waybench;
using namespace waybench::testing;

/// The fields by themselves, one after another.
class InspectorTest : public InspectorCase {
    Q_OBJECT
private:
    double thickness() const { return part().shape.dimensions.at("thickness"); }

private Q_SLOTS:
    void initTestCase() {
        beginTests("waybench-test-inspector");
        shop_ = shippedShop();
    }

    void init() { open(); }
    void cleanup() { close(); }

    void typingAThicknessEditsTheDocument() {
        QuantityField* f = field(QStringLiteral("thickness"));
        QVERIFY(f);
        type(f->entry(), QStringLiteral("9,5 mm"));
        QTest::keyClick(f->entry(), Qt::Key_Return);
        QCOMPARE(thickness(), 9.5);
        QVERIFY(document_->undoStack().undoText().contains(QStringLiteral("9.5")));
    }

    void aPauseInTypingIsEnough() {
        QuantityField* f = field(QStringLiteral("thickness"));
        type(f->entry(), QStringLiteral("6+5"));
        QTRY_COMPARE(thickness(), 11.0);
        QCOMPARE(f->entry()->text(), QStringLiteral("6+5"));
    }

    void zeroIsRefusedInTheRowAndTheLastValueStays() {
        QuantityField* f = field(QStringLiteral("thickness"));
        type(f->entry(), QStringLiteral("0"));
        QTest::keyClick(f->entry(), Qt::Key_Return);
        QCOMPARE(thickness(), 7.0);
        QVERIFY(!f->problem().isEmpty());
        QCOMPARE(f->entry()->accessibleDescription(), f->problem());
        auto* message = f->findChild<QLabel*>(QString(), Qt::FindDirectChildrenOnly);
        bool isShown = false;
        for (QLabel* label : f->findChildren<QLabel*>())
            if (label->text() == f->problem() && label->isVisible()) {
                message = label;
                isShown = true;
            }
        QVERIFY(isShown);
        QTRY_VERIFY(message->geometry().top() >= f->entry()->geometry().bottom());
        QVERIFY(!QApplication::activeModalWidget());
        QTest::keyClick(f->entry(), Qt::Key_Tab);
        QVERIFY(!f->entry()->hasFocus());
    }

    void theWheelOverAFieldWithoutFocusChangesNothing() {
        QuantityField* f = field(QStringLiteral("thickness"));
        window_->setFocus();
        const Part before = part();
        wheelOver(f->entry());
        wheelOver(named<QComboBox>(QStringLiteral("choice held face 1")));
        wheelOver(inspector_->findChild<VectorField*>()->entry(2));
        wheelOver(inspector_->findChild<WeightsSection*>()->findChild<QAbstractSlider*>());
        QVERIFY(part() == before);
    }

    void aSidewaysWheelChangesNothingAndATouchpadGathersWholeNotches() {
        QuantityField* f = field(QStringLiteral("thickness"));
        f->entry()->setFocus();
        wheelOver(f->entry(), QPoint(120, 0));
        QCOMPARE(thickness(), 7.0);
        wheelOver(f->entry(), QPoint(0, 50));
        QCOMPARE(thickness(), 7.0);
        wheelOver(f->entry(), QPoint(0, 70));
        QCOMPARE(thickness(), 8.0);
    }

    void anAnswerThatArrivesLeavesTheComplaintAboutWhatWasTyped() {
        QuantityField* f = field(QStringLiteral("thickness"));
        type(f->entry(), QStringLiteral("abc"));
        QTRY_VERIFY(!f->problem().isEmpty());
        const QString complaint = f->problem();
        inspector_->clearFault();
        QCOMPARE(f->problem(), complaint);
        QTest::keyClick(f->entry(), Qt::Key_Escape);
        QCOMPARE(f->problem(), QString());
        f->setProblem(QStringLiteral("from outside"));
        inspector_->clearFault();
        QCOMPARE(f->problem(), QString());
    }

    void nudgesAreOneStepOfUndoAndCtrlZTakesThemBackFromTheFieldItself() {
        QuantityField* f = field(QStringLiteral("thickness"));
        const int steps = document_->undoStack().index();
        f->entry()->setFocus();
        for (int i = 0; i < 7; ++i)
            QTest::keyClick(f->entry(), Qt::Key_Up);
        QVERIFY(thickness() > 7);
        QCOMPARE(document_->undoStack().index(), steps + 1);
        QTest::keyClick(f->entry(), Qt::Key_Z, Qt::ControlModifier);
        QCOMPARE(thickness(), 7.0);
        QCOMPARE(f->entry()->text(), QStringLiteral("7"));
    }

    void aRemovedHoldComesBackByUndo() {
        const LoadCase before = part().loadCase;
        auto* remove = named<QToolButton>(QStringLiteral("remove hold 1"));
        QVERIFY(remove);
        remove->setFocus();
        QTest::keyClick(remove, Qt::Key_Space);
        QCOMPARE(part().loadCase.holds.size(), std::size_t(1));
        QVERIFY(part().loadCase.holds.front().face.kind == FaceSelector::Kind::box);
        QVERIFY(QApplication::focusWidget() && inspector_->isAncestorOf(QApplication::focusWidget()));
        QTest::keyClick(QApplication::focusWidget(), Qt::Key_Z, Qt::ControlModifier);
        QVERIFY(part().loadCase == before);
        QVERIFY(named<QToolButton>(QStringLiteral("remove hold 2")));
    }

    void aBoxStaysToBeChosenAgain() {
        auto* chooser = named<QComboBox>(QStringLiteral("choice held face 2"));
        QVERIFY(chooser);
        QVERIFY(chooser->currentText().startsWith(QStringLiteral("box")));
        const QString box = chooser->currentText();
        chooser->setFocus();
        QTest::keyClick(chooser, Qt::Key_Home);
        QCOMPARE(QString::fromStdString(part().loadCase.holds[1].face.name), kFaces.front());
        QVERIFY(chooser->findText(box) >= 0);
        QTest::keyClick(chooser, Qt::Key_End);
        QVERIFY(part().loadCase.holds[1].face == FaceSelector::byBox({0, 0, 0}, {5, 60, 8}));
    }

    void aLoadIsTypedInAnyUnitOfForce() {
        VectorField* force = inspector_->findChild<VectorField*>();
        type(force->entry(2), QStringLiteral("-0.05 kN"));
        QTest::keyClick(force->entry(2), Qt::Key_Return);
        QCOMPARE(part().loadCase.loads[0].vector.z(), -50.0);
        type(force->entry(2), QStringLiteral("5 kg"));
        QTest::keyClick(force->entry(2), Qt::Key_Return);
        QVERIFY(!force->problem().isEmpty());
        QCOMPARE(part().loadCase.loads[0].vector.z(), -50.0);
    }

    void typingInALoadThatIsTakenAwayHarmsNothing() {
        VectorField* force = inspector_->findChild<VectorField*>();
        type(force->entry(0), QStringLiteral("7"));
        Part next = part();
        next.loadCase.loads.clear();
        document_->editCurrent(next, QStringLiteral("take all loads away"));
        QTest::qWait(500);
        QVERIFY(part().loadCase.loads.empty());
    }

    void kindsOfLoadShowTheirOwnFields() {
        auto* kind = named<QComboBox>(QStringLiteral("choice load kind 1"));
        QVERIFY(kind);
        kind->setFocus();
        QTest::keyClick(kind, Qt::Key_Down);
        QVERIFY(part().loadCase.loads[0].kind == LoadKind::pressure);
        QuantityField* pressure = field(QStringLiteral("load pressure 1"));
        QVERIFY(pressure);
        type(pressure->entry(), QStringLiteral("0.3"));
        QTest::keyClick(pressure->entry(), Qt::Key_Return);
        QCOMPARE(part().loadCase.loads[0].pressure_MPa, 0.3);
    }

    void aFaultStandsBesideTheFieldItNames() {
        inspector_->showFault({{},
                               {},
                               QStringLiteral("part 'plate', printed, deflection limit"),
                               QStringLiteral("there is no deflection limit above zero"),
                               QStringLiteral("enter it")});
        QVERIFY(field(QStringLiteral("limit"))->problem().contains(QStringLiteral("no deflection limit")));
        QVERIFY(inspector_->stripText().isEmpty());
        inspector_->showFault({{},
                               {},
                               QStringLiteral("part 'plate', machined, hold 1"),
                               QStringLiteral("there is no such face"),
                               QStringLiteral("choose another")});
        QVERIFY(field(QStringLiteral("limit"))->problem().isEmpty());
        QVERIFY(named<QComboBox>(QStringLiteral("choice held face 1"))
                    ->accessibleDescription()
                    .contains(QStringLiteral("no such face")));
        inspector_->showFault({{}, {}, QStringLiteral("contour 3"), QStringLiteral("it is open"), {}});
        QVERIFY(inspector_->stripText().contains(QStringLiteral("it is open")));
        inspector_->clearFault();
        QVERIFY(inspector_->stripText().isEmpty());
    }

    void aTypedValueReturnsToTheStandardByItsMark() {
        QuantityField* f = field(QStringLiteral("thickness"));
        auto* mark = f->findChild<OriginMark*>();
        QVERIFY(mark->isTyped());
        mark->setFocus();
        QTest::keyClick(mark, Qt::Key_Space);
        QCOMPARE(thickness(), *f->description().standard);
        QVERIFY(!mark->isTyped());
    }

    void theTitleBlockIsEditedAndABadDateIsRefused() {
        auto* author = named<QLineEdit>(QStringLiteral("entry author"));
        QVERIFY(author);
        type(author, QStringLiteral("A. Tester"));
        QTest::keyClick(author, Qt::Key_Tab);
        QCOMPARE(document_->project().author, std::string("A. Tester"));
        const std::string before = document_->project().date;
        auto* date = named<QLineEdit>(QStringLiteral("entry date"));
        type(date, QStringLiteral("31.2."));
        QTest::keyClick(date, Qt::Key_Return);
        QCOMPARE(document_->project().date, before);
        QVERIFY(!date->accessibleDescription().isEmpty());
        document_->undoStack().undo();
        QVERIFY(document_->project().author.empty());
    }

    void theFootTellsTheRangeOfTheFocusedField() {
        QuantityField* f = field(QStringLiteral("thickness"));
        f->entry()->clearFocus();
        f->entry()->setFocus();
        QVERIFY(inspector_->findChild<QLabel*>(QStringLiteral("about field"))
                    ->text()
                    .contains(f->description().rangeText()));
    }

    void everythingThatCanBeEditedHasAName() {
        for (QWidget* w : inspector_->findChildren<QWidget*>()) {
            const bool isEditable = qobject_cast<QComboBox*>(w) || qobject_cast<QAbstractSlider*>(w) ||
                                    (qobject_cast<QLineEdit*>(w) && !qobject_cast<QComboBox*>(w->parentWidget()));
            if (!isEditable || qobject_cast<QScrollBar*>(w) || !w->isVisibleTo(inspector_)) continue;
            QVERIFY2(!w->accessibleName().isEmpty(), qPrintable(w->objectName()));
        }
    }

    void tabGoesDownThePageAndBackToTheTop() {
        // After a rebuild of the load case too.
        QTest::mouseClick(named<QToolButton>(QStringLiteral("remove hold 2")), Qt::LeftButton);
        QTest::qWait(20);
        auto* content = inspector_->findChild<QScrollArea*>()->widget();
        QWidget* first = content->findChild<QToolButton*>();
        first->setFocus();
        std::set<QWidget*> seen;
        int lastBottom = 0;
        for (QWidget* at = first; at && content->isAncestorOf(at) && seen.insert(at).second;) {
            const QRect box(at->mapTo(content, QPoint(0, 0)), at->size());
            QVERIFY2(box.bottom() >= lastBottom - box.height(), qPrintable(at->objectName()));
            lastBottom = box.bottom();
            QTest::keyClick(at, Qt::Key_Tab);
            at = QApplication::focusWidget();
        }
        QVERIFY(seen.size() > 40);
        QVERIFY(seen.count(named<QComboBox>(QStringLiteral("choice tariff"))));
    }
};

QTEST_MAIN(InspectorTest)
#include "test_inspector.moc"
