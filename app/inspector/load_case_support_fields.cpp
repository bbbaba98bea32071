#include <QApplication>
#include <QHBoxLayout>
#include <QLineEdit>
#include <QPushButton>
#include <QToolButton>
#include <QVBoxLayout>

#include "app/document/document.h"
#include "app/inspector/face_chooser.h"
#include "app/inspector/field_message.h"
#include "app/inspector/field_rows.h"
#include "app/inspector/load_case_section.h"
#include "app/inspector/vector_field.h"
#include "app/style/shown_figure.h"

// The rows of the load case: held, and what is heavy.

namespace waybench {

namespace {

struct NamedDirection {
    const char* name;
    Vec3 direction;
};
const NamedDirection kDirections[] = {{"+x", {1, 0, 0}},  {"−x", {-1, 0, 0}}, {"+y", {0, 1, 0}},
                                      {"−y", {0, -1, 0}}, {"+z", {0, 0, 1}},  {"−z", {0, 0, -1}}};
constexpr int kPrincipalDirections = 6;

constexpr double kHeaviest_g = 1e6, kWidestHead_mm = 200;

std::vector<std::pair<QString, QString>> kindsOfHold() {
    return {{LoadCaseSection::tr("fixed"),
             LoadCaseSection::tr("Clamped: no point of the face moves, as on a support much stiffer than the part.")},
            {LoadCaseSection::tr("slides"),
             LoadCaseSection::tr("Rests on a smooth plane or guide: it can slip along the face, but not move square to "
                                 "it, neither way.")},
            {LoadCaseSection::tr("bolted"),
             LoadCaseSection::tr("A screw through this bore: the bore's wall is held, and the ring under the head is "
                                 "pressed on with the give of a real joint.")}};
}

}  // namespace

QToolButton* LoadCaseSection::removeEntry(const QString& words, const QString& name, const QString& step,
                                          std::function<void(LoadCase&)> removal) {
    auto* button = removeButton(words, name, host_);
    connect(button, &QToolButton::clicked, this,
            [this, step, removal = std::move(removal)] { edit(step, {}, removal); });
    return button;
}

ChoiceBox* LoadCaseSection::kindChoice(const QString& key, const QString& name,
                                       const std::vector<std::pair<QString, QString>>& kinds, int now) {
    auto* box = new ChoiceBox(host_);
    box->setObjectName(QStringLiteral("choice ") + key);
    for (const auto& [word, help] : kinds) {
        box->addItem(word);
        box->setItemData(box->count() - 1, help, Qt::ToolTipRole);
    }
    box->setSizeAdjustPolicy(QComboBox::AdjustToContents);
    box->setCurrentIndex(now);
    box->setAccessibleName(name);
    QString described = name;
    described[0] = described[0].toUpper();
    box->setDescription(
        tr("%1: %2. %3").arg(described, kinds.at(std::size_t(now)).first, kinds.at(std::size_t(now)).second));
    return adopt(box);
}

LoadCaseSection::DirectionFields LoadCaseSection::directionFields(const DirectionWords& words, Direction which) {
    auto* choice = new ChoiceBox(host_);
    choice->setObjectName(QStringLiteral("choice ") + words.key);
    choice->setAccessibleName(words.name);
    choice->setDescription(words.help);
    const bool mayBeNone = !words.none.isEmpty();
    const int first = mayBeNone ? 1 : 0, other = first + kPrincipalDirections;
    if (mayBeNone) choice->addItem(words.none);
    for (const NamedDirection& d : kDirections)
        choice->addItem(QString::fromUtf8(d.name));
    choice->addItem(tr("other"));
    choice->setSizeAdjustPolicy(QComboBox::AdjustToContents);
    adopt(choice);
    auto* vector = new VectorField(words.key, words.vectorName, Unit::none, 0.1, host_);
    vector->setHelp(words.vectorHelp);
    connect(vector, &VectorField::describeAsked, this, &Section::describeAsked);
    connect(choice, &QComboBox::activated, this, [=, this](int k) {
        if (k == other) {
            vector->show();
            vector->entry(0)->setFocus(Qt::OtherFocusReason);
            return;
        }
        const Vec3 way = k < first ? Vec3(Vec3::Zero()) : kDirections[k - first].direction;
        edit(words.step.arg(choice->itemText(k)), {}, [&](LoadCase& c) { which(c) = way; });
    });
    connect(vector, &VectorField::edited, this, [=, this](const Vec3& v, const QString& word) {
        if (mayBeNone || v.norm() > 1e-9)
            edit(words.vectorName, word, [&](LoadCase& c) { which(c) = mayBeNone ? v : Vec3(v.normalized()); });
        else
            vector->setProblem(tr("A direction needs at least one number that is not zero."));
    });
    show_.push_back([=](const LoadCase& c) {
        LoadCase copy = c;
        const Vec3 now = which(copy);
        int k = other;
        if (mayBeNone && now.norm() == 0) k = 0;
        for (int i = 0; i < kPrincipalDirections; ++i)
            if ((kDirections[i].direction - now).norm() < 1e-9) k = first + i;
        const bool isTyped = vector->isAncestorOf(QApplication::focusWidget());
        if (isTyped) k = other;
        choice->setCurrentIndex(k);
        if (!isTyped) vector->setValue(now);
        vector->setVisible(k == other);
    });
    return {choice, vector};
}

void LoadCaseSection::buildHolds(const LoadCase& loadCase, QVBoxLayout* column) {
    column->addWidget(subheading(tr("held"), host_));
    for (std::size_t k = 0; k < loadCase.holds.size(); ++k) {
        const HoldKind kindNow = loadCase.holds[k].kind;
        auto* kind = kindChoice(QStringLiteral("hold kind %1").arg(k + 1), tr("kind of hold %1").arg(k + 1),
                                kindsOfHold(), int(kindNow));
        connect(kind, &QComboBox::activated, this, [this, k](int chosen) {
            edit(tr("hold %1 %2").arg(k + 1).arg(kindsOfHold().at(std::size_t(chosen)).first), {},
                 [&](LoadCase& c) { c.holds.at(k).kind = static_cast<HoldKind>(chosen); });
        });
        auto* chooser = faceChooser(tr("held face %1").arg(k + 1),
                                    [k](LoadCase& c) -> FaceSelector& { return c.holds.at(k).face; });
        auto* remove =
            removeEntry(tr("Do not hold face %1").arg(k + 1), QStringLiteral("remove hold %1").arg(k + 1),
                        tr("free a face"), [k](LoadCase& c) { c.holds.erase(c.holds.begin() + std::ptrdiff_t(k)); });
        addFieldRow(column, {kind, chooser, remove});
        if (kindNow == HoldKind::bolted) {
            FieldDescription head = described(
                QStringLiteral("head diameter %1").arg(k + 1), tr("head or washer ⌀"),
                tr("Outer diameter of the screw's head, or of the washer under it, on the face next to the bore."),
                Unit::millimetre, 0, kWidestHead_mm, 0);
            head.standardWords = tr("2 × bore");
            head.step = 0.5;
            auto* field = number(head, {}, [k](LoadCase& c) -> double& { return c.holds.at(k).headDiameter_mm; });
            field->entry()->setAccessibleName(tr("head diameter of hold %1").arg(k + 1));
            column->addWidget(field);
        }
        spot(QStringLiteral("hold %1").arg(k + 1), column, chooser);
    }
    auto* add = addButton(tr("+ h&old a face"), QStringLiteral("add hold"), host_);
    connect(add, &QPushButton::clicked, this, [this] {
        edit(tr("hold a face"), {}, [this](LoadCase& c) { c.holds.push_back({FaceSelector::byName(freeFace(c))}); });
    });
    addFieldRow(column, {add})->addStretch();
    spot(QStringLiteral("no_support"), column);
}

void LoadCaseSection::buildHeavy(const LoadCase& loadCase, QVBoxLayout* column) {
    column->addWidget(subheading(tr("weight"), host_));
    const auto [direction, vector] = directionFields(
        {QStringLiteral("own weight"), tr("way the weight pulls"),
         tr("Way the weight of the part, and of what is attached to it, pulls; part coordinates, as drawn in the "
            "views."),
         tr("weight, in multiples of standard gravity"), tr("1 is at rest on the ground; more where the rig shakes."),
         tr("own weight: %1"), tr("left out")},
        [](LoadCase& c) -> Vec3& { return c.gravity; });
    auto* weight = new QLabel(tr("own weight pulls"), host_);
    weight->setBuddy(direction);
    addFieldRow(column, {weight, direction})->insertStretch(1);
    column->addWidget(vector);
    spot(QStringLiteral("gravity"), column, direction);
    for (std::size_t k = 0; k < loadCase.masses.size(); ++k) {
        auto* chooser = faceChooser(tr("face of attached mass %1").arg(k + 1),
                                    [k](LoadCase& c) -> FaceSelector& { return c.masses.at(k).face; });
        auto* remove = removeEntry(tr("Take attached mass %1 away").arg(k + 1),
                                   QStringLiteral("remove mass %1").arg(k + 1), tr("take a mass away"),
                                   [k](LoadCase& c) { c.masses.erase(c.masses.begin() + std::ptrdiff_t(k)); });
        addFieldRow(column, {chooser, remove});
        auto* field = number(described(QStringLiteral("attached mass %1").arg(k + 1), tr("attached mass"),
                                       tr("Fastened to the face; weighs where the own weight pulls, and lowers the "
                                          "natural frequency."),
                                       Unit::gram, 1e-3, kHeaviest_g),
                             {}, [k](LoadCase& c) -> double& { return c.masses.at(k).mass_g; });
        field->entry()->setAccessibleName(tr("attached mass %1").arg(k + 1));
        column->addWidget(field);
        spot(QStringLiteral("attached mass %1").arg(k + 1), column, chooser);
    }
    auto* add = addButton(tr("+ attach a &mass"), QStringLiteral("add mass"), host_);
    connect(add, &QPushButton::clicked, this, [this] {
        if (const Part* part = document().currentPart()) attach(text(freeFace(chosenOf(*part))));
    });
    addFieldRow(column, {add})->addStretch();
}

}  // namespace waybench
