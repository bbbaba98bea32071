#include <QFile>
#include <QLabel>
#include <QPushButton>
#include <QRadioButton>
#include <fstream>

#include "app/inspector/choice_field.h"
#include "app/verdict/verdict_line.h"
#include "core/geometry/import/stl.h"
#include "tests/gui/dialog_script.h"
#include "tests/gui/window_case.h"

using namespace waybench;
using namespace waybench::testing;

/// Drawings and bodies brought into the window: their unit is asked for where they do not say it, and only there.
class ShapeImportTest : public WindowCase {
    Q_OBJECT
private:
    static Mesh plateMesh() { return buildSolid(partOfFamily(familyNamed("plate")).shape, "").mesh; }
    static Vec3 plateSize() { return boundsOf(plateMesh()).size(); }
    /// A plate whose file counts in inches.
    QString plateInInches(const QString& name = QStringLiteral("clamp.stl")) const {
        Mesh mesh = plateMesh();
        for (Vec3& p : mesh.vertices)
            p /= 25.4;
        std::ofstream out(path(name).toStdString(), std::ios::binary);
        writeStl(out, mesh);
        return path(name);
    }
    /// The demo's drawing, saying another unit or none.
    QString drawing(int unitCode) const {
        QFile source(QStringLiteral(WAYBENCH_SOURCE_DEMO "/drive_cross_plate.dxf"));
        if (!source.open(QIODevice::ReadOnly)) return {};
        QByteArray text = source.readAll();
        const qsizetype at = text.indexOf("$INSUNITS"), code = text.indexOf("70", at) + 2;
        const qsizetype from = text.indexOf('\n', code) + 1, to = text.indexOf('\n', from);
        text.replace(from, to - from, QByteArray::number(unitCode));
        const QString name = path(QStringLiteral("plate_%1.dxf").arg(unitCode));
        QFile file(name);
        return file.open(QIODevice::WriteOnly) && file.write(text) == text.size() ? name : QString();
    }
    QString overallSize() const {
        auto* label = window_->findChild<QLabel*>(QStringLiteral("overall size"));
        return label && label->isVisible() ? label->text() : QString();
    }
    static QString shownSides(const Vec3& size) {
        QStringList sides;
        for (int axis = 0; axis < 3; ++axis)
            sides << QString::number(std::round(100 * size[axis]) / 100);
        return sides.join(QStringLiteral(" × "));
    }
    static DialogScript::Act chooseUnit(const QString& unit) {
        return [unit](QDialog* dialog) {
            auto* choice = dialog->findChild<QRadioButton*>(QStringLiteral("unit ") + unit);
            if (!choice) {
                QTest::qFail("this does not ask for a unit", __FILE__, __LINE__);
                return dialog->reject();
            }
            QTest::mouseClick(choice, Qt::LeftButton, {}, QPoint(8, choice->height() / 2));
            QTest::keyClick(dialog, Qt::Key_Return);
        };
    }

private Q_SLOTS:
    void initTestCase() {
        beginTests("waybench-test-shape-import");
        shop_ = shippedShop();
    }
    void init() { open(QSize(1440, 920)); }
    void cleanup() { window_.reset(); }

    void aBodyIsAskedForItsUnitOnceAndKeepsIt() {
        QPushButton* start = nullptr;
        for (QPushButton* button : window_->findChildren<QPushButton*>())
            if (button->isVisible() && button->text().contains(QStringLiteral("drawing"))) start = button;
        QVERIFY(start);
        DialogScript script({nameFile(plateInInches()), chooseUnit(QStringLiteral("inch"))});
        QTest::mouseClick(start, Qt::LeftButton);
        QTRY_COMPARE(parts().size(), std::size_t(1));
        QVERIFY(script.isPlayed());
        QCOMPARE(parts()[0].shape.fileUnit_mm, 25.4);
        QTRY_VERIFY2(overallSize().contains(shownSides(plateSize())), qPrintable(overallSize()));
        const QString rig = path(QStringLiteral("rig.waybench"));
        QVERIFY(document().saveAs(rig));
        QVERIFY(document().open(rig));
        QCOMPARE(parts()[0].shape.fileUnit_mm, 25.4);
        QTRY_VERIFY2(overallSize().contains(shownSides(plateSize())), qPrintable(overallSize()));
        QVERIFY(script.isPlayed());  // not asked again
    }

    void theQuestionShowsHowLargeThePartIsInEachUnit() {
        QStringList offered;
        DialogScript script({[&](QDialog* dialog) {
            for (QRadioButton* choice : dialog->findChildren<QRadioButton*>())
                offered << choice->accessibleName();
            QTest::keyClick(dialog, Qt::Key_Escape);
        }});
        dropOn(*window_, {plateInInches()});
        QTRY_VERIFY(script.isPlayed());
        QCOMPARE(offered.size(), 4);
        QVERIFY2(offered[0].contains(shownSides(plateSize() / 25.4)), qPrintable(offered[0]));
        QVERIFY2(offered[1].contains(shownSides(plateSize() / 2.54)), qPrintable(offered[1]));
        QVERIFY2(offered[3].contains(shownSides(plateSize())), qPrintable(offered[3]));
    }

    void aDismissedQuestionLeavesTheFileOutAndGoesOnToTheNext() {
        DialogScript script({pressEscape(), chooseUnit(QStringLiteral("millimetre"))});
        dropOn(*window_, {plateInInches(QStringLiteral("first.stl")), plateInInches(QStringLiteral("second.stl"))});
        QTRY_COMPARE(parts().size(), std::size_t(1));
        QVERIFY(script.isPlayed());
        QCOMPARE(parts()[0].name, std::string("second"));
        QCOMPARE(parts()[0].shape.fileUnit_mm, 1.0);
    }

    void theUnitIsChosenByKeysAlone() {
        DialogScript script({[](QDialog* dialog) {
            QTRY_VERIFY(qobject_cast<QRadioButton*>(QApplication::focusWidget()));
            QTest::keyClick(dialog->focusWidget(), Qt::Key_Down);
            QTest::keyClick(dialog, Qt::Key_Return);
        }});
        dropOn(*window_, {plateInInches()});
        QTRY_COMPARE(parts().size(), std::size_t(1));
        QVERIFY(script.isPlayed());
        QCOMPARE(parts()[0].shape.fileUnit_mm, 10.0);
    }

    void aDrawingIsAskedOnlyWhereItDoesNotSay() {
        DialogScript none;
        dropOn(*window_, {drawing(4)});
        QTRY_COMPARE(parts().size(), std::size_t(1));
        QVERIFY(none.isPlayed());
        QCOMPARE(parts()[0].shape.fileUnit_mm, 0.0);
        DialogScript script({chooseUnit(QStringLiteral("centimetre"))});
        dropOn(*window_, {drawing(0)});
        QTRY_COMPARE(parts().size(), std::size_t(2));
        QVERIFY(script.isPlayed());
        QCOMPARE(parts()[1].shape.fileUnit_mm, 10.0);
    }

    void aFileThatCannotBeReadIsNotAskedAboutAndSaysWhatIsWrong() {
        QFile file(path(QStringLiteral("spoilt.stl")));
        QVERIFY(file.open(QIODevice::WriteOnly) && file.write("no surface at all") > 0);
        file.close();
        DialogScript none;
        dropOn(*window_, {file.fileName()});
        QTRY_COMPARE(parts().size(), std::size_t(1));
        QTRY_VERIFY2(window_->findChild<VerdictLine*>()->sentence().contains(QStringLiteral("not an STL surface")),
                     qPrintable(window_->findChild<VerdictLine*>()->sentence()));
        QVERIFY(none.isPlayed());
    }

    void theUnitIsChangedAmongTheFieldsAndTakenBack() {
        QVERIFY(document().importShape(plateInInches(), 1));
        auto* unit = window_->findChild<ChoiceBox*>(QStringLiteral("choice file unit"));
        QVERIFY(unit && unit->isVisible());
        unit->setFocus();
        QTest::keyClick(unit, Qt::Key_End);
        QCOMPARE(parts()[0].shape.fileUnit_mm, 25.4);
        QTRY_VERIFY2(overallSize().contains(shownSides(plateSize())), qPrintable(overallSize()));
        QVERIFY2(document().undoStack().undoText().contains(QStringLiteral("inch")),
                 qPrintable(document().undoStack().undoText()));
        strike(*window_, Qt::Key_Z);
        QCOMPARE(parts()[0].shape.fileUnit_mm, 1.0);
        document().addPart(partOfFamily(familyNamed("bar")));
        QVERIFY(!unit->isVisible());
    }
};

QTEST_MAIN(ShapeImportTest)
#include "test_shape_import.moc"
