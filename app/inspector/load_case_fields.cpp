#include <QApplication>
#include <QHBoxLayout>
#include <QLabel>
#include <QPushButton>
#include <QToolButton>
#include <QVBoxLayout>

#include "app/document/document.h"
#include "app/inspector/face_chooser.h"
#include "app/inspector/field_message.h"
#include "app/inspector/load_case_section.h"
#include "app/inspector/quantity_field.h"
#include "app/inspector/vector_field.h"
#include "app/style/shown_figure.h"
#include "app/style/theme.h"

// The rows of the load case: held, loaded, measured, in use.

namespace waybench {

namespace {

struct NamedDirection {
    const char* name;
    Vec3 direction;
};
const NamedDirection kDirections[] = {{"+x", {1, 0, 0}},  {"−x", {-1, 0, 0}}, {"+y", {0, 1, 0}},
                                      {"−y", {0, -1, 0}}, {"+z", {0, 0, 1}},  {"−z", {0, 0, -1}}};
constexpr int kOtherDirection = 6;

QLabel* subheading(const QString& words, QWidget* parent) {
    auto* label = new QLabel(words, parent);
    label->setFont(textFont(TextSize::small, QFont::DemiBold));
    label->setForegroundRole(QPalette::PlaceholderText);
    label->setContentsMargins(fieldIndent(), space(2), 0, 0);
    return label;
}

QPushButton* addButton(const QString& words, const QString& name, QWidget* parent) {
    auto* button = new QPushButton(words, parent);
    button->setObjectName(name);
    button->setFlat(true);
    button->setFont(textFont(TextSize::small));
    return button;
}

QToolButton* removeButton(const QString& words, const QString& name, QWidget* parent) {
    auto* button = new QToolButton(parent);
    button->setObjectName(name);
    button->setText(QStringLiteral("✕"));
    button->setAutoRaise(true);
    button->setAccessibleName(words);
    button->setToolTip(words);
    button->setFocusPolicy(Qt::StrongFocus);
    button->setMinimumSize(24, 24);
    return button;
}

QHBoxLayout* addRow(QVBoxLayout* column, std::initializer_list<QWidget*> widgets) {
    auto* line = new QHBoxLayout;
    line->setContentsMargins(fieldIndent(), 0, 0, 0);
    line->setSpacing(space(1));
    for (QWidget* w : widgets)
        line->addWidget(w);
    column->addLayout(line);
    return line;
}

FieldDescription described(const QString& key, const QString& label, const QString& help, Unit unit, double minimum,
                           double maximum, std::optional<double> standard = std::nullopt) {
    FieldDescription f;
    f.key = key;
    f.label = label;
    f.help = help;
    f.unit = unit;
    f.minimum = minimum;
    f.maximum = maximum;
    f.standard = standard;
    return f;
}

QString wordOf(LoadKind kind) {
    switch (kind) {
        case LoadKind::force:
            return LoadCaseSection::tr("force");
        case LoadKind::pressure:
            return LoadCaseSection::tr("pressure");
        case LoadKind::moment:
            return LoadCaseSection::tr("moment");
        case LoadKind::bearing:
            return LoadCaseSection::tr("bearing");
    }
    return {};
}

QString helpOf(LoadKind kind) {
    switch (kind) {
        case LoadKind::force:
            return LoadCaseSection::tr("The whole force, spread evenly over the face.");
        case LoadKind::pressure:
            return LoadCaseSection::tr("Positive pushes into the material.");
        case LoadKind::moment:
            return LoadCaseSection::tr("About the centre of the face's area.");
        case LoadKind::bearing:
            return LoadCaseSection::tr("The whole force of a close-fitting pin on the half of the bore it pushes on.");
    }
    return {};
}

}  // namespace

void LoadCaseSection::buildHolds(const LoadCase& loadCase, QVBoxLayout* column) {
    column->addWidget(subheading(tr("held"), host_));
    for (std::size_t k = 0; k < loadCase.holds.size(); ++k) {
        auto* chooser = faceChooser(tr("held face %1").arg(k + 1),
                                    [k](LoadCase& c) -> FaceSelector& { return c.holds.at(k).face; });
        auto* remove =
            removeButton(tr("Do not hold face %1").arg(k + 1), QStringLiteral("remove hold %1").arg(k + 1), host_);
        connect(remove, &QToolButton::clicked, this, [this, k] {
            edit(tr("free a face"), {}, [k](LoadCase& c) { c.holds.erase(c.holds.begin() + std::ptrdiff_t(k)); });
        });
        addRow(column, {chooser, remove});
        spot(QStringLiteral("hold %1").arg(k + 1), column, chooser);
    }
    auto* add = addButton(tr("+ h&old a face"), QStringLiteral("add hold"), host_);
    connect(add, &QPushButton::clicked, this, [this] {
        edit(tr("hold a face"), {}, [this](LoadCase& c) { c.holds.push_back({FaceSelector::byName(freeFace(c))}); });
    });
    addRow(column, {add})->addStretch();
    spot(QStringLiteral("no_support"), column);
}

void LoadCaseSection::buildLoads(const LoadCase& loadCase, QVBoxLayout* column) {
    column->addWidget(subheading(tr("loaded"), host_));
    for (std::size_t k = 0; k < loadCase.loads.size(); ++k) {
        const LoadKind kindNow = loadCase.loads[k].kind;
        auto* kind = new ChoiceBox(host_);
        kind->setObjectName(QStringLiteral("choice load kind %1").arg(k + 1));
        for (const LoadKind each : {LoadKind::force, LoadKind::pressure, LoadKind::moment, LoadKind::bearing})
            kind->addItem(wordOf(each));
        kind->setSizeAdjustPolicy(QComboBox::AdjustToContents);
        kind->setCurrentIndex(int(kindNow));
        kind->setAccessibleName(tr("kind of load %1").arg(k + 1));
        kind->setDescription(tr("Kind of load %1: %2. %3").arg(k + 1).arg(wordOf(kindNow), helpOf(kindNow)));
        adopt(kind);
        connect(kind, &QComboBox::activated, this, [this, k](int chosen) {
            edit(tr("kind of load"), {}, [&](LoadCase& c) { c.loads.at(k).kind = static_cast<LoadKind>(chosen); });
        });
        auto* chooser = faceChooser(tr("loaded face %1").arg(k + 1),
                                    [k](LoadCase& c) -> FaceSelector& { return c.loads.at(k).face; });
        auto* remove =
            removeButton(tr("Take load %1 away").arg(k + 1), QStringLiteral("remove load %1").arg(k + 1), host_);
        connect(remove, &QToolButton::clicked, this, [this, k] {
            edit(tr("take a load away"), {}, [k](LoadCase& c) { c.loads.erase(c.loads.begin() + std::ptrdiff_t(k)); });
        });
        addRow(column, {kind, chooser, remove});
        if (kindNow == LoadKind::pressure) {
            auto* field = number(described(QStringLiteral("load pressure %1").arg(k + 1), tr("pressure"),
                                           helpOf(kindNow), Unit::megapascal, 0, 0),
                                 {}, [k](LoadCase& c) -> double& { return c.loads.at(k).pressure_MPa; });
            field->entry()->setAccessibleName(tr("pressure of load %1").arg(k + 1));
            column->addWidget(field);
        } else {
            const bool isMoment = kindNow == LoadKind::moment;
            auto* field =
                new VectorField(QStringLiteral("load %1").arg(k + 1),
                                isMoment ? tr("moment of load %1").arg(k + 1) : tr("force of load %1").arg(k + 1),
                                isMoment ? Unit::newton_millimetre : Unit::newton, isMoment ? 50 : 1, host_);
            field->setHelp(helpOf(kindNow));
            connect(field, &VectorField::edited, this, [this, k](const Vec3& v, const QString& word) {
                edit(tr("load → (%1; %2; %3)").arg(shownNumber(v.x()), shownNumber(v.y()), shownNumber(v.z())), word,
                     [&](LoadCase& c) { c.loads.at(k).vector = v; });
            });
            connect(field, &VectorField::describeAsked, this, &Section::describeAsked);
            show_.push_back([field, k](const LoadCase& c) { field->setValue(c.loads.at(k).vector); });
            column->addWidget(field);
        }
        spot(QStringLiteral("load %1").arg(k + 1), column, chooser);
    }
    auto* add = addButton(tr("+ &load a face"), QStringLiteral("add load"), host_);
    connect(add, &QPushButton::clicked, this, [this] {
        if (const Part* part = document().currentPart()) load(text(freeFace(part->loadCase)));
    });
    addRow(column, {add})->addStretch();
    spot(QStringLiteral("no_load"), column);
    FieldDescription spread = described(QStringLiteral("load spread"), tr("load known to ±"),
                                        tr("Relative uncertainty of the load; widens every deflection and margin."),
                                        Unit::none, 0, 0.99, LoadCase().loadSpread);
    spread.displayScale = 100;
    spread.displayUnit = QStringLiteral("%");
    column->addWidget(
        number(spread, QStringLiteral("load spread"), [](LoadCase& c) -> double& { return c.loadSpread; }));
}

void LoadCaseSection::buildMeasurement(QVBoxLayout* column) {
    column->addWidget(subheading(tr("measured"), host_));
    auto* chooser = faceChooser(tr("measured face"), [](LoadCase& c) -> FaceSelector& { return c.measuredFace; });
    auto* direction = new ChoiceBox(host_);
    direction->setObjectName(QStringLiteral("choice direction"));
    direction->setAccessibleName(tr("direction the deflection is measured in"));
    direction->setDescription(tr("Direction the deflection is measured in; part coordinates, as drawn in the views."));
    for (const NamedDirection& d : kDirections)
        direction->addItem(QString::fromUtf8(d.name));
    direction->addItem(tr("other"));
    direction->setSizeAdjustPolicy(QComboBox::AdjustToContents);
    adopt(direction);
    auto* free = new VectorField(QStringLiteral("direction"), tr("direction of measurement"), Unit::none, 0.1, host_);
    free->setHelp(tr("Only its direction counts, not its length."));
    connect(free, &VectorField::describeAsked, this, &Section::describeAsked);
    connect(direction, &QComboBox::activated, this, [this, free](int k) {
        if (k == kOtherDirection) {
            free->show();
            free->entry(0)->setFocus(Qt::OtherFocusReason);
            return;
        }
        edit(tr("measure along %1").arg(QString::fromUtf8(kDirections[k].name)), {},
             [k](LoadCase& c) { c.measuredDirection = kDirections[k].direction; });
    });
    connect(free, &VectorField::edited, this, [this, free](const Vec3& v, const QString& word) {
        if (v.norm() > 1e-9)
            edit(tr("direction of measurement"), word, [&](LoadCase& c) { c.measuredDirection = v.normalized(); });
        else
            free->setProblem(tr("A direction needs at least one number that is not zero."));
    });
    show_.push_back([direction, free](const LoadCase& c) {
        int k = kOtherDirection;
        for (int i = 0; i < kOtherDirection; ++i)
            if ((kDirections[i].direction - c.measuredDirection).norm() < 1e-9) k = i;
        const bool isTyped = free->isAncestorOf(QApplication::focusWidget());
        if (isTyped) k = kOtherDirection;
        direction->setCurrentIndex(k);
        if (!isTyped) free->setValue(c.measuredDirection);
        free->setVisible(k == kOtherDirection);
    });
    addRow(column, {chooser, direction});
    spot(QStringLiteral("measured face"), column, chooser);
    column->addWidget(free);
    spot(QStringLiteral("measured direction"), column, direction);
    column->addWidget(number(described(QStringLiteral("limit"), tr("deflection at most"),
                                       tr("The deflection the part may have there."), Unit::millimetre, 1e-4, 100),
                             QStringLiteral("deflection limit"),
                             [](LoadCase& c) -> double& { return c.deflectionLimit_mm; }));
    column->addWidget(
        number(described(QStringLiteral("strength factor"), tr("strength margin at least"),
                         tr("Strength over stress that is asked for."), Unit::none, 1, 20, LoadCase().strengthFactor),
               QStringLiteral("strength factor"), [](LoadCase& c) -> double& { return c.strengthFactor; }));
}

void LoadCaseSection::buildUse(const LoadCase& loadCase, QVBoxLayout* column) {
    column->addWidget(subheading(tr("in use"), host_));
    column->addWidget(
        number(described(QStringLiteral("temperature"), tr("temperature"), tr("Of the part while loaded."),
                         Unit::celsius, -40, 300, LoadCase().temperature_celsius),
               QStringLiteral("temperature"), [](LoadCase& c) -> double& { return c.temperature_celsius; }));
    auto* duration = new ChoiceBox(host_);
    duration->setObjectName(QStringLiteral("choice duration"));
    duration->setAccessibleName(tr("how long the load acts"));
    duration->setDescription(
        tr("How long the load acts. Plastics creep under a load that stays and tire under one that "
           "comes and goes."));
    duration->addItems({tr("briefly"), tr("for hours"), tr("again and again")});
    duration->setSizeAdjustPolicy(QComboBox::AdjustToContents);
    adopt(duration);
    connect(duration, &QComboBox::activated, this, [this](int k) {
        edit(tr("duration of the load"), {}, [k](LoadCase& c) {
            c.duration = static_cast<Duration>(k);
            if (c.duration == Duration::hours && c.duration_h <= 0) c.duration_h = 8;
            if (c.duration == Duration::cyclic && c.cycles <= 0) c.cycles = 200000;
        });
    });
    show_.push_back([duration](const LoadCase& c) { duration->setCurrentIndex(int(c.duration)); });
    auto* acts = new QLabel(tr("load acts"), host_);
    acts->setBuddy(duration);
    auto* line = addRow(column, {acts, duration});
    line->insertStretch(1);
    if (loadCase.duration == Duration::hours)
        column->addWidget(number(
            described(QStringLiteral("hours"), tr("duration"), tr("How long the load stays."), Unit::hour, 0.01, 1e6),
            QStringLiteral("duration"), [](LoadCase& c) -> double& { return c.duration_h; }));
    if (loadCase.duration == Duration::cyclic) {
        FieldDescription cycles =
            described(QStringLiteral("cycles"), tr("cycles"), tr("Load on and off."), Unit::none, 1, 1e10);
        cycles.isWhole = true;
        cycles.step = 1000;
        column->addWidget(number(cycles, QStringLiteral("cycles"), [](LoadCase& c) -> double& { return c.cycles; }));
    }
}

}  // namespace waybench
