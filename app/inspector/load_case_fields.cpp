#include <QApplication>
#include <QHBoxLayout>
#include <QLabel>
#include <QPushButton>
#include <QToolButton>
#include <QVBoxLayout>

#include "app/document/document.h"
#include "app/inspector/face_chooser.h"
#include "app/inspector/field_message.h"
#include "app/inspector/field_rows.h"
#include "app/inspector/load_case_section.h"
#include "app/inspector/quantity_field.h"
#include "app/inspector/vector_field.h"
#include "app/style/shown_figure.h"
#include "app/style/theme.h"

// The rows of the load case: loaded, measured, in use.

namespace waybench {

namespace {

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

std::vector<std::pair<QString, QString>> kindsOfLoad() {
    std::vector<std::pair<QString, QString>> kinds;
    for (const LoadKind each : {LoadKind::force, LoadKind::pressure, LoadKind::moment, LoadKind::bearing})
        kinds.emplace_back(wordOf(each), helpOf(each));
    return kinds;
}

}  // namespace

void LoadCaseSection::buildLoads(const LoadCase& loadCase, QVBoxLayout* column) {
    column->addWidget(subheading(tr("loaded"), host_));
    for (std::size_t k = 0; k < loadCase.loads.size(); ++k) {
        const LoadKind kindNow = loadCase.loads[k].kind;
        auto* kind = kindChoice(QStringLiteral("load kind %1").arg(k + 1), tr("kind of load %1").arg(k + 1),
                                kindsOfLoad(), int(kindNow));
        connect(kind, &QComboBox::activated, this, [this, k](int chosen) {
            edit(tr("kind of load"), {}, [&](LoadCase& c) { c.loads.at(k).kind = static_cast<LoadKind>(chosen); });
        });
        auto* chooser = faceChooser(tr("loaded face %1").arg(k + 1),
                                    [k](LoadCase& c) -> FaceSelector& { return c.loads.at(k).face; });
        auto* remove = removeEntry(tr("Take load %1 away").arg(k + 1), QStringLiteral("remove load %1").arg(k + 1),
                                   tr("take a load away"),
                                   [k](LoadCase& c) { c.loads.erase(c.loads.begin() + std::ptrdiff_t(k)); });
        addFieldRow(column, {kind, chooser, remove});
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
        if (const Part* part = document().currentPart()) load(text(freeFace(chosenOf(*part))));
    });
    addFieldRow(column, {add})->addStretch();
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
    const auto [direction, free] =
        directionFields({QStringLiteral("direction"),
                         tr("direction the deflection is measured in"),
                         tr("Direction the deflection is measured in; part coordinates, as drawn in the views."),
                         tr("direction of measurement"),
                         tr("Only its direction counts, not its length."),
                         tr("measure along %1"),
                         {}},
                        [](LoadCase& c) -> Vec3& { return c.measuredDirection; });
    addFieldRow(column, {chooser, direction});
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
    auto* line = addFieldRow(column, {acts, duration});
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
