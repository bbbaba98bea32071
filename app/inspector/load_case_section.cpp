#include "app/inspector/load_case_section.h"

#include <QHBoxLayout>
#include <QLabel>
#include <QPushButton>
#include <QToolButton>
#include <QVBoxLayout>
#include <algorithm>

#include "app/document/document.h"
#include "app/inspector/choice_field.h"
#include "app/inspector/quantity_field.h"
#include "app/inspector/vector_field.h"
#include "app/style/shown_figure.h"
#include "app/style/theme.h"

namespace waybench {

namespace {

QString wordOf(const FaceSelector& selector) {
    return selector.kind == FaceSelector::Kind::name ? text(selector.name) : text(selector.text());
}

QLabel* subheading(const QString& words, QWidget* parent) {
    auto* label = new QLabel(words, parent);
    label->setFont(textFont(TextSize::small, QFont::DemiBold));
    label->setForegroundRole(QPalette::PlaceholderText);
    label->setContentsMargins(space(5), space(2), 0, 0);
    return label;
}

QPushButton* quietButton(const QString& words, QWidget* parent) {
    auto* button = new QPushButton(words, parent);
    button->setFlat(true);
    button->setFont(textFont(TextSize::small));
    return button;
}

QToolButton* crossButton(const QString& name, QWidget* parent) {
    auto* button = new QToolButton(parent);
    button->setText(QStringLiteral("✕"));
    button->setAutoRaise(true);
    button->setAccessibleName(name);
    button->setToolTip(name);
    button->setMinimumSize(24, 24);
    return button;
}

struct NamedDirection {
    const char* name;
    Vec3 direction;
};
const NamedDirection kDirections[] = {{"+x", {1, 0, 0}},  {"−x", {-1, 0, 0}}, {"+y", {0, 1, 0}},
                                      {"−y", {0, -1, 0}}, {"+z", {0, 0, 1}},  {"−z", {0, 0, -1}}};

}  // namespace

LoadCaseSection::LoadCaseSection(Document& document, QWidget* parent) : Section(tr("Load case"), document, parent) {}

void LoadCaseSection::edit(const QString& words, const QString& mergeWord,
                           const std::function<void(LoadCase&)>& change) {
    const Part* part = document().currentPart();
    if (!part) return;
    Part next = *part;
    change(next.loadCase);
    document().editCurrent(next, words, mergeWord);
}

void LoadCaseSection::setFaces(const QStringList& names) {
    if (names == faces_) return;
    faces_ = names;
    built_.clear();
    if (const Part* part = document().currentPart()) showPart(*part);
}

QString LoadCaseSection::signatureOf(const LoadCase& c) const {
    QString s = QStringLiteral("%1|%2|%3|").arg(c.holds.size()).arg(int(c.duration)).arg(faces_.size());
    for (const Load& load : c.loads)
        s += QString::number(int(load.kind)) + QLatin1Char(',');
    return s;
}

void LoadCaseSection::showPart(const Part& part) {
    const QString wanted = signatureOf(part.loadCase);
    if (wanted != built_) {
        build(part.loadCase);
        built_ = wanted;
    }
    for (const auto& show : show_)
        show(part.loadCase);
}

QComboBox* LoadCaseSection::faceChooser(QWidget* parent, const QString& name,
                                        std::function<FaceSelector&(LoadCase&)> which) {
    auto* box = new ChoiceBox(parent);
    box->setAccessibleName(name);
    box->setSizeAdjustPolicy(QComboBox::AdjustToMinimumContentsLengthWithIcon);
    box->setMinimumContentsLength(10);
    box->setSizePolicy(QSizePolicy::Expanding, QSizePolicy::Fixed);
    connect(box, &QComboBox::activated, this, [this, box, name, which](int k) {
        if (box->itemData(k).isValid()) return;  // the selector from the file itself
        const std::string face = box->itemText(k).toStdString();
        edit(tr("%1: %2").arg(name, box->itemText(k)), {}, [&](LoadCase& c) { which(c) = FaceSelector::byName(face); });
    });
    show_.push_back([this, box, which](const LoadCase& c) {
        LoadCase copy = c;
        const FaceSelector& now = which(copy);
        box->clear();
        box->addItems(faces_);
        int index = now.kind == FaceSelector::Kind::name ? box->findText(text(now.name)) : -1;
        if (index < 0) {
            const QString words =
                now.kind == FaceSelector::Kind::name && now.name.empty() ? tr("choose a face") : wordOf(now);
            box->insertItem(0, words, true);
            index = 0;
        }
        box->setCurrentIndex(index);
        box->setToolTip(box->currentText());
    });
    return box;
}

QuantityField* LoadCaseSection::number(QWidget* parent, const QString& key, const QString& label, const QString& help,
                                       Unit unit, double minimum, double maximum,
                                       std::function<double&(LoadCase&)> which) {
    FieldDescription f;
    f.key = key;
    f.label = label;
    f.help = help;
    f.unit = unit;
    f.minimum = minimum;
    f.maximum = maximum;
    if (key == QLatin1String("load spread")) {
        f.displayScale = 100;
        f.displayUnit = QStringLiteral("%");
    }
    auto* field = adopt(new QuantityField(f, parent));
    connect(field, &QuantityField::edited, this, [this, label, unit, which](double v, const QString& word) {
        edit(tr("%1 → %2").arg(label, shownQuantity(v, unit)), word, [&](LoadCase& c) { which(c) = v; });
    });
    show_.push_back([field, which](const LoadCase& c) {
        LoadCase copy = c;
        field->setValue(which(copy));
    });
    return field;
}

void LoadCaseSection::build(const LoadCase& loadCase) {
    if (host_) {
        host_->hide();
        host_->deleteLater();
    }
    show_.clear();
    host_ = new QWidget(this);
    auto* column = new QVBoxLayout(host_);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(space(1));
    const auto row = [&](std::initializer_list<QWidget*> widgets) {
        auto* line = new QHBoxLayout;
        line->setContentsMargins(space(5), 0, 0, 0);
        line->setSpacing(space(1));
        for (QWidget* w : widgets)
            line->addWidget(w);
        column->addLayout(line);
    };

    column->addWidget(subheading(tr("held"), host_));
    for (std::size_t k = 0; k < loadCase.holds.size(); ++k) {
        auto* remove = crossButton(tr("Do not hold this face"), host_);
        connect(remove, &QToolButton::clicked, this, [this, k] {
            edit(tr("free a face"), {}, [k](LoadCase& c) { c.holds.erase(c.holds.begin() + std::ptrdiff_t(k)); });
        });
        row({faceChooser(host_, tr("held face %1").arg(k + 1),
                         [k](LoadCase& c) -> FaceSelector& { return c.holds.at(k).face; }),
             remove});
    }
    auto* addHold = quietButton(tr("+ hold a face"), host_);
    connect(addHold, &QPushButton::clicked, this, [this] {
        edit(tr("hold a face"), {}, [this](LoadCase& c) {
            c.holds.push_back({FaceSelector::byName(faces_.isEmpty() ? std::string() : faces_.front().toStdString())});
        });
    });
    row({addHold});

    column->addWidget(subheading(tr("loaded"), host_));
    for (std::size_t k = 0; k < loadCase.loads.size(); ++k) {
        auto* kind = new ChoiceBox(host_);
        for (const LoadKind each : {LoadKind::force, LoadKind::pressure, LoadKind::moment, LoadKind::bearing})
            kind->addItem(QString::fromUtf8(nameOf(each)));
        kind->setCurrentIndex(int(loadCase.loads[k].kind));
        kind->setAccessibleName(tr("kind of load %1").arg(k + 1));
        connect(kind, &QComboBox::activated, this, [this, k](int chosen) {
            edit(tr("kind of load"), {}, [&](LoadCase& c) { c.loads.at(k).kind = static_cast<LoadKind>(chosen); });
        });
        auto* remove = crossButton(tr("Take this load away"), host_);
        connect(remove, &QToolButton::clicked, this, [this, k] {
            edit(tr("take a load away"), {}, [k](LoadCase& c) { c.loads.erase(c.loads.begin() + std::ptrdiff_t(k)); });
        });
        row({kind,
             faceChooser(host_, tr("loaded face %1").arg(k + 1),
                         [k](LoadCase& c) -> FaceSelector& { return c.loads.at(k).face; }),
             remove});
        if (loadCase.loads[k].kind == LoadKind::pressure) {
            column->addWidget(number(host_, QStringLiteral("pressure %1").arg(k), tr("pressure"),
                                     tr("Positive pushes into the material."), Unit::megapascal, 0, 0,
                                     [k](LoadCase& c) -> double& { return c.loads.at(k).pressure_MPa; }));
        } else {
            const bool moment = loadCase.loads[k].kind == LoadKind::moment;
            auto* field = new VectorField(QStringLiteral("load %1").arg(k), moment ? tr("moment") : tr("force"),
                                          moment ? Unit::newton_millimetre : Unit::newton, moment ? 50 : 5, host_);
            connect(field, &VectorField::edited, this, [this, k](const Vec3& v, const QString& word) {
                edit(tr("load → (%1; %2; %3)").arg(shownNumber(v.x()), shownNumber(v.y()), shownNumber(v.z())), word,
                     [&](LoadCase& c) { c.loads.at(k).vector = v; });
            });
            connect(field, &VectorField::describeAsked, this, &Section::describeAsked);
            show_.push_back([field, k](const LoadCase& c) { field->setValue(c.loads.at(k).vector); });
            column->addWidget(field);
        }
    }
    auto* addLoad = quietButton(tr("+ load a face"), host_);
    connect(addLoad, &QPushButton::clicked, this, [this] { load(faces_.isEmpty() ? QString() : faces_.back()); });
    row({addLoad});
    column->addWidget(number(host_, QStringLiteral("load spread"), tr("load known to ±"),
                             tr("Relative uncertainty of the load; widens every deflection and margin."), Unit::none, 0,
                             1, [](LoadCase& c) -> double& { return c.loadSpread; }));

    column->addWidget(subheading(tr("measured"), host_));
    auto* direction = new ChoiceBox(host_);
    direction->setAccessibleName(tr("direction the deflection is measured in"));
    for (const NamedDirection& d : kDirections)
        direction->addItem(QString::fromUtf8(d.name));
    direction->addItem(tr("other"));
    auto* free = new VectorField(QStringLiteral("direction"), tr("direction of measurement"), Unit::none, 0.1, host_);
    connect(direction, &QComboBox::activated, this, [this, free](int k) {
        if (k > 5) {
            free->show();
            return;
        }
        edit(tr("measure along %1").arg(QString::fromUtf8(kDirections[k].name)), {},
             [k](LoadCase& c) { c.measuredDirection = kDirections[k].direction; });
    });
    connect(free, &VectorField::edited, this, [this](const Vec3& v, const QString& word) {
        if (v.norm() > 1e-9)
            edit(tr("direction of measurement"), word, [&](LoadCase& c) { c.measuredDirection = v.normalized(); });
    });
    show_.push_back([direction, free](const LoadCase& c) {
        int k = 6;
        for (int i = 0; i < 6; ++i)
            if ((kDirections[i].direction - c.measuredDirection).norm() < 1e-9) k = i;
        direction->setCurrentIndex(k);
        free->setValue(c.measuredDirection);
        free->setVisible(k == 6);
    });
    row({faceChooser(host_, tr("measured face"), [](LoadCase& c) -> FaceSelector& { return c.measuredFace; }),
         direction});
    column->addWidget(free);
    column->addWidget(number(host_, QStringLiteral("limit"), tr("deflection at most"),
                             tr("The deflection the part may have there."), Unit::millimetre, 1e-4, 100,
                             [](LoadCase& c) -> double& { return c.deflectionLimit_mm; }));
    column->addWidget(number(host_, QStringLiteral("strength factor"), tr("strength margin at least"),
                             tr("Strength over stress that is asked for."), Unit::none, 1, 20,
                             [](LoadCase& c) -> double& { return c.strengthFactor; }));

    column->addWidget(subheading(tr("in use"), host_));
    column->addWidget(number(host_, QStringLiteral("temperature"), tr("temperature"), tr("Of the part while loaded."),
                             Unit::celsius, -40, 300, [](LoadCase& c) -> double& { return c.temperature_celsius; }));
    auto* duration = new ChoiceBox(host_);
    duration->setAccessibleName(tr("how long the load acts"));
    duration->addItems({tr("briefly"), tr("for hours"), tr("again and again")});
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
    row({acts, duration});
    if (loadCase.duration == Duration::hours)
        column->addWidget(number(host_, QStringLiteral("hours"), tr("duration"),
                                 tr("Plastics creep with time under load."), Unit::hour, 0, 1e6,
                                 [](LoadCase& c) -> double& { return c.duration_h; }));
    if (loadCase.duration == Duration::cyclic)
        column->addWidget(number(host_, QStringLiteral("cycles"), tr("cycles"), tr("Load on and off."), Unit::none, 1,
                                 1e10, [](LoadCase& c) -> double& { return c.cycles; }));
    body()->addWidget(host_);
}

void LoadCaseSection::hold(const QString& face) {
    edit(tr("hold %1").arg(face), {}, [&](LoadCase& c) {
        const FaceSelector selector = FaceSelector::byName(face.toStdString());
        for (const Hold& h : c.holds)
            if (h.face == selector) return;
        c.holds.push_back({selector});
    });
}

void LoadCaseSection::load(const QString& face) {
    edit(tr("load %1").arg(face), {}, [&](LoadCase& c) {
        Load next;
        next.kind = LoadKind::force;
        next.vector = Vec3(0, 0, -10);
        if (!c.loads.empty() && c.loads.back().kind == LoadKind::force) next.vector = c.loads.back().vector;
        next.face = FaceSelector::byName(face.toStdString());
        c.loads.push_back(next);
        if (c.measuredFace.kind == FaceSelector::Kind::name && c.measuredFace.name.empty()) {
            c.measuredFace = next.face;
            c.measuredDirection = -Vec3::UnitZ();
        }
    });
}

void LoadCaseSection::measure(const QString& face) {
    edit(tr("measure at %1").arg(face), {},
         [&](LoadCase& c) { c.measuredFace = FaceSelector::byName(face.toStdString()); });
}

void LoadCaseSection::release(const QString& face) {
    const FaceSelector selector = FaceSelector::byName(face.toStdString());
    edit(tr("free %1").arg(face), {}, [&](LoadCase& c) {
        std::erase_if(c.holds, [&](const Hold& h) { return h.face == selector; });
        std::erase_if(c.loads, [&](const Load& l) { return l.face == selector; });
    });
}

}  // namespace waybench
