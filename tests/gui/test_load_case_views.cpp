#include <QComboBox>
#include <QImage>
#include <QLabel>
#include <QLineEdit>
#include <QMenu>
#include <QPainter>
#include <QPushButton>
#include <QToolButton>
#include <cmath>

#include "app/document/load_cases.h"
#include "app/inspector/choice_field.h"
#include "app/ledger/ledger_view.h"
#include "app/twinview/load_symbols.h"
#include "app/twinview/part_pane.h"
#include "app/twinview/twin_view.h"
#include "tests/gui/quick_bar.h"
#include "tests/gui/window_case.h"

using namespace waybench;
using namespace waybench::testing;

/// The load case in the views, what a picked face offers, and what the ledger tells of the answer's structure.
class LoadCaseViewsTest : public WindowCase {
    Q_OBJECT
private:
    PartPane* pane() const { return window_->findChild<PartPane*>(); }
    template <typename Widget>
    Widget* named(const QString& name) const {
        for (Widget* w : window_->findChildren<Widget*>(name))
            if (w->isVisible()) return w;
        return nullptr;
    }
    /// Walks to a face by keys and takes an entry of the menu it offers.
    void onFace(const QString& face, const QString& entry) {
        const auto& faces = pane()->scene().solid->solid->faces;
        pane()->setFocus();
        for (std::size_t k = 0; k < faces.size(); ++k) {
            QTest::keyClick(pane(), Qt::Key_N);
            if (QString::fromStdString(faces.at(std::size_t(pane()->pickedFace())).name) == face) break;
        }
        bool isTaken = false;
        QTimer poll;
        connect(&poll, &QTimer::timeout, this, [&] {
            auto* menu = qobject_cast<QMenu*>(QApplication::activePopupWidget());
            if (!menu) return;
            poll.stop();
            for (QAction* action : menu->actions())
                if (QString(action->text()).remove(QLatin1Char('&')).startsWith(entry)) {
                    isTaken = true;
                    return QTest::mouseClick(menu, Qt::LeftButton, {}, menu->actionGeometry(action).center());
                }
            menu->close();
        });
        poll.start(10);
        QTest::keyClick(pane(), Qt::Key_Return);  // comes back when the menu has closed
        QVERIFY2(isTaken, qPrintable(entry));
    }
    QString working(const QString& route) const {
        for (QLabel* label : window_->findChildren<QLabel*>())
            if (label->accessibleName() == QStringLiteral("Working, ") + route) return label->text();
        return {};
    }
    void selectRow(const std::string& key) {
        auto* ledger = window_->findChild<LedgerView*>();
        ledger->setFocus();
        QTest::keyClick(ledger, Qt::Key_Home);
        for (int k = 1; k < ledger->rowCount() && ledger->row(ledger->selectedRow())->key != key; ++k)
            QTest::keyClick(ledger, Qt::Key_Down);
        QCOMPARE(ledger->row(ledger->selectedRow())->key, key);
    }
    /// Only where something is drawn, so that colours tell nothing.
    static QImage drawnBy(const LoadCase& loadCase) {
        const Part bar = quickBar();
        const Solid solid = buildSolid(bar.shape, ".");
        Camera camera;
        camera.fit(boundsOf(solid.mesh), QSize(400, 300), 1.3);
        SymbolStyle style;
        style.load = style.hold = style.measure = style.halo = Qt::black;
        style.withText = false;
        QImage image(400, 300, QImage::Format_Grayscale8);
        image.fill(Qt::white);
        QPainter painter(&image);
        paintLoadSymbols(painter, camera, image.size(), solid, loadCase, style);
        return image;
    }

private Q_SLOTS:
    void initTestCase() {
        beginTests("waybench-test-load-case-views");
        shop_ = shippedShop();
    }
    void init() {
        open(QSize(1440, 1100));
        document().startNew();
        document().addPart(quickBar());
        QTRY_VERIFY_WITH_TIMEOUT(hasFinal(), 60000);
    }
    void cleanup() { window_.reset(); }

    void everySymbolIsToldApartByItsShape() {
        const FaceSelector face = quickBar().loadCase.measuredFace;
        std::vector<QImage> pictures;
        LoadCase nothing;
        pictures.push_back(drawnBy(nothing));
        for (const HoldKind kind : {HoldKind::fixed, HoldKind::sliding, HoldKind::bolted}) {
            LoadCase c;
            c.holds = {{face, kind}};
            pictures.push_back(drawnBy(c));
        }
        LoadCase heavy;
        heavy.masses = {{face, 200}};
        pictures.push_back(drawnBy(heavy));
        LoadCase pulled;
        pulled.gravity = -Vec3::UnitZ();
        pictures.push_back(drawnBy(pulled));
        LoadCase loaded;
        loaded.loads = quickBar().loadCase.loads;
        pictures.push_back(drawnBy(loaded));
        for (std::size_t a = 0; a < pictures.size(); ++a)
            for (std::size_t b = 0; b < a; ++b)
                QVERIFY2(pictures[a] != pictures[b], qPrintable(QStringLiteral("%1 and %2").arg(a).arg(b)));
    }

    void theWeightsArrowGivesWayToASymbolInItsPlace() {
        const Solid solid = buildSolid(quickBar().shape, ".");
        const Vec3 middle = centroidOf(solid.mesh);
        LoadCase crowded;
        crowded.gravity = -Vec3::UnitZ();
        crowded.holds = {
            {FaceSelector::byBox(boundsOf(solid.mesh).low - Vec3::Ones(), boundsOf(solid.mesh).high + Vec3::Ones())}};
        LoadCase held = crowded, pulled = crowded;
        held.gravity = Vec3::Zero();
        pulled.holds.clear();
        QVERIFY(middle.allFinite());
        const QImage both = drawnBy(crowded), hold = drawnBy(held), weight = drawnBy(pulled);
        int united = 0, drawn = 0;
        for (int y = 0; y < both.height(); ++y)
            for (int x = 0; x < both.width(); ++x) {
                const bool isDark = qGray(both.pixel(x, y)) < 128;
                const bool isEither = qGray(hold.pixel(x, y)) < 128 || qGray(weight.pixel(x, y)) < 128;
                drawn += isDark;
                united += isEither;
            }
        QVERIFY2(drawn > united, qPrintable(QStringLiteral("%1, %2").arg(drawn).arg(united)));
    }

    void theViewsShowTheChosenLoadCaseAtOnce() {
        const LoadCase first = part().loadCase;
        QVERIFY(pane()->scene().loadCase == first);
        QTest::mouseClick(named<QToolButton>(QStringLiteral("add load case")), Qt::LeftButton);
        QCOMPARE(part().loadCaseCount(), std::size_t(2));
        QVERIFY(pane()->scene().loadCase == part().furtherLoadCases[0]);
        QVERIFY(pane()->scene().loadCase.loads.empty());
        auto* chooser = named<ChoiceBox>(QStringLiteral("choice load case"));
        chooser->setFocus();
        QTest::keyClick(chooser, Qt::Key_Up);
        QVERIFY(pane()->scene().loadCase == first);
    }

    void coloursAndBendingAreOfTheChosenLoadCase() {
        QTest::mouseClick(named<QToolButton>(QStringLiteral("copy load case")), Qt::LeftButton);
        auto* force = named<QLineEdit>(QStringLiteral("entry load 1 z"));
        QVERIFY(force);
        force->setFocus();
        force->selectAll();
        QTest::keyClicks(force, QStringLiteral("-15 N"));
        QTest::keyClick(force, Qt::Key_Return);
        QCOMPARE(part().furtherLoadCases[0].loads[0].vector.z(), -15.0);
        QTRY_VERIFY_WITH_TIMEOUT(hasFinal(), 60000);
        QCOMPARE(window_->answers().current().comparison->worstCase, std::size_t(1));
        const auto shownDeflection = [this] { return pane()->scene().outcome->structure->deflection.value; };
        const double second = shownDeflection();
        const double factor = window_->findChild<TwinView*>()->deformationFactor();
        auto* chooser = named<ChoiceBox>(QStringLiteral("choice load case"));
        chooser->setFocus();
        QTest::keyClick(chooser, Qt::Key_Up);
        QVERIFY2(std::abs(second / shownDeflection() - 3) < 0.01,
                 qPrintable(QStringLiteral("%1, %2").arg(second).arg(shownDeflection())));
        QVERIFY(window_->findChild<TwinView*>()->deformationFactor() > factor);
        const QString first = QString::fromStdString(part().loadCase.name);
        bool isNamed = false;
        for (QLabel* label : window_->findChild<TwinView*>()->findChildren<QLabel*>())
            isNamed = isNamed || label->text().contains(first);
        QVERIFY(isNamed);
        // The worst case's row comes first, the other's under it, each with its own reaction.
        selectRow("deflection");
        QVERIFY2(working(QStringLiteral("printed")).contains(QStringLiteral("(0; 0; 15)")),
                 qPrintable(working(QStringLiteral("printed"))));
        QTest::keyClick(window_->findChild<LedgerView*>(), Qt::Key_Down);
        QVERIFY2(working(QStringLiteral("printed")).contains(QStringLiteral("(0; 0; 5)")),
                 qPrintable(working(QStringLiteral("printed"))));
    }

    void aPickedFaceIsHeldInAnyWayAndWeighedDown() {
        const Part before = part();
        const QString face = QString::fromStdString(before.loadCase.holds[0].face.name);
        onFace(face, QStringLiteral("Let this face slide"));
        QCOMPARE(part().loadCase.holds.size(), std::size_t(1));
        QVERIFY(part().loadCase.holds[0].kind == HoldKind::sliding);
        QVERIFY(pane()->scene().loadCase.holds[0].kind == HoldKind::sliding);
        onFace(face, QStringLiteral("Attach a mass"));
        QCOMPARE(part().loadCase.masses.size(), std::size_t(1));
        onFace(face, QStringLiteral("Free this face"));
        QVERIFY(part().loadCase.holds.empty() && part().loadCase.masses.empty());
    }

    void aClickInTheViewActsOnTheChosenCaseOnly() {
        const LoadCase first = part().loadCase;
        QTest::mouseClick(named<QToolButton>(QStringLiteral("add load case")), Qt::LeftButton);
        onFace(QString::fromStdString(first.measuredFace.name), QStringLiteral("Load this face"));
        QVERIFY(part().loadCase == first);
        QCOMPARE(part().furtherLoadCases[0].loads.size(), std::size_t(1));
        QVERIFY(part().furtherLoadCases[0].loads[0].face == first.measuredFace);
    }

    void theLedgerTellsFrequencyReactionAndCentre() {
        selectRow("deflection");
        const Answer answer = window_->answers().current();
        for (const auto& [route, name] :
             {std::pair(RouteKind::printed, "printed"), {RouteKind::machined, "machined"}}) {
            const StructureAnswer& structure = *answer.comparison->outcome(route).structure;
            QVERIFY(structure.firstFrequency);
            QVERIFY((structure.reaction - Vec3(0, 0, 5)).norm() < 0.01);  // the bar is pushed by 5 N
            const QString told = working(QString::fromLatin1(name));
            QVERIFY2(told.contains(QStringLiteral("natural frequency")) && told.contains(QStringLiteral("Hz")),
                     qPrintable(told));
            QVERIFY2(told.contains(QStringLiteral("(0; 0; 5)")), qPrintable(told));
        }
        selectRow("mass");
        QVERIFY2(working(QStringLiteral("printed")).contains(QStringLiteral("centre of volume")),
                 qPrintable(working(QStringLiteral("printed"))));
        selectRow("cost");
        QVERIFY(!working(QStringLiteral("printed")).contains(QStringLiteral("natural frequency")));
    }
};

QTEST_MAIN(LoadCaseViewsTest)
#include "test_load_case_views.moc"
