#include "app/inspector/load_case_section.h"

#include <QApplication>
#include <QVBoxLayout>
#include <algorithm>
#include <cmath>

#include "app/document/document.h"
#include "app/document/load_cases.h"
#include "app/inspector/face_chooser.h"
#include "app/inspector/field_message.h"
#include "app/inspector/load_case_row.h"
#include "app/inspector/quantity_field.h"
#include "app/inspector/vector_field.h"
#include "app/style/shown_figure.h"
#include "app/style/theme.h"

namespace waybench {

LoadCaseSection::LoadCaseSection(Document& document, QWidget* parent) : Section(tr("Load case"), document, parent) {
    row_ = new LoadCaseRow(this);
    body()->addWidget(row_);
    connectRow();
}

void LoadCaseSection::connectRow() {
    connect(row_, &LoadCaseRow::describeAsked, this, &Section::describeAsked);
    connect(row_, &LoadCaseRow::chosen, this, &LoadCaseSection::chooseCase);
    const auto editPart = [this](const QString& words, const std::function<void(Part&)>& change) {
        const Part* part = document().currentPart();
        if (!part) return;
        Part next = *part;
        change(next);
        document().editCurrent(next, words);
    };
    const auto insert = [this, editPart](const QString& words, const std::string& wish, LoadCase loadCase) {
        editPart(words, [&](Part& part) {
            loadCase.name = freeLoadCaseName(part, wish, part.loadCaseCount());
            insertLoadCase(part, chosen_ + 1, loadCase);
        });
    };
    connect(row_, &LoadCaseRow::addAsked, this, [this, insert] {
        if (const Part* part = document().currentPart())
            insert(tr("new load case"), tr("load case").toStdString(), unloadedLike(chosenOf(*part)));
    });
    connect(row_, &LoadCaseRow::copyAsked, this, [this, insert] {
        if (const Part* part = document().currentPart()) {
            const LoadCase& original = chosenOf(*part);
            insert(tr("copy of load case %1").arg(text(original.name)), original.name, original);
        }
    });
    connect(row_, &LoadCaseRow::removeAsked, this, [this, editPart] {
        const Part* part = document().currentPart();
        if (part && part->loadCaseCount() > 1)
            editPart(tr("take load case %1 away").arg(text(chosenOf(*part).name)),
                     [this](Part& next) { removeLoadCase(next, chosen_); });
    });
    connect(row_, &LoadCaseRow::renameAsked, this, [this, editPart](const QString& name) {
        editPart(tr("load case named %1").arg(name), [&](Part& part) {
            part.loadCaseAt(chosen_).name = freeLoadCaseName(part, name.toStdString(), chosen_);
        });
    });
}

const LoadCase& LoadCaseSection::chosenOf(const Part& part) const {
    return part.loadCaseAt(std::min(chosen_, part.loadCaseCount() - 1));
}

void LoadCaseSection::chooseCase(std::size_t index) {
    const Part* part = document().currentPart();
    if (!part || index >= part->loadCaseCount()) return;
    chosen_ = index;
    showPart(*part);
}

void LoadCaseSection::followChange(const Part& part) {
    const std::size_t count = part.loadCaseCount(), changed = firstDifferingCase(shown_, part);
    if (part.name != shown_.name)
        chosen_ = 0;
    else if (count != shown_.loadCaseCount())
        chosen_ = std::min(changed, count - 1);
    else if (changed < count && chosenOf(shown_) == chosenOf(part))
        chosen_ = changed;
}

void LoadCaseSection::edit(const QString& words, const QString& mergeWord,
                           const std::function<void(LoadCase&)>& change) {
    const Part* part = document().currentPart();
    if (!part) return;
    Part next = *part;
    change(next.loadCaseAt(chosen_));
    const bool isOneOfSeveral = part->loadCaseCount() > 1;
    document().editCurrent(next, isOneOfSeveral ? tr("%1, %2").arg(text(chosenOf(*part).name), words) : words,
                           mergeWord.isEmpty() ? mergeWord : QStringLiteral("%1 case %2").arg(mergeWord).arg(chosen_));
}

void LoadCaseSection::setFaces(const QStringList& names) {
    if (names == faces_) return;
    faces_ = names;
    if (const Part* part = document().currentPart()) showPart(*part);
}

QString LoadCaseSection::signatureOf(const LoadCase& c) const {
    QString s = QStringLiteral("%1|%2|%3|").arg(chosen_).arg(int(c.duration)).arg(c.masses.size());
    for (const Hold& hold : c.holds)
        s += QString::number(int(hold.kind)) + QLatin1Char(',');
    s += QLatin1Char('|');
    for (const Load& load : c.loads)
        s += QString::number(int(load.kind)) + QLatin1Char(',');
    return s;
}

void LoadCaseSection::keepSelectors(const Part& part) {
    if (part.name != shown_.name) kept_.clear();
    const auto keep = [this](const FaceSelector& selector) {
        if (selector.kind != FaceSelector::Kind::name && std::find(kept_.begin(), kept_.end(), selector) == kept_.end())
            kept_.push_back(selector);
    };
    const auto keepAll = [&](const auto& entries) {
        for (const auto& entry : entries)
            keep(entry.face);
    };
    for (std::size_t k = 0; k < part.loadCaseCount(); ++k) {
        const LoadCase& c = part.loadCaseAt(k);
        keepAll(c.holds);
        keepAll(c.loads);
        keepAll(c.masses);
        keep(c.measuredFace);
    }
}

void LoadCaseSection::showPart(const Part& part) {
    keepSelectors(part);
    followChange(part);
    shown_ = part;
    row_->show(part, chosen_);
    const LoadCase& loadCase = chosenOf(part);
    const QString wanted = signatureOf(loadCase);
    if (wanted != built_) {
        built_ = wanted;
        build(loadCase);
    }
    for (const auto& show : show_)
        show(loadCase);
    Q_EMIT caseShown(loadCase, chosen_);
}

bool LoadCaseSection::showFault(const QString& whole, const QString& words) {
    std::size_t about = chosen_;
    QString place = whole;
    for (std::size_t k = 0; k < shown_.loadCaseCount(); ++k)
        for (const QString named = QStringLiteral("load case '%1'").arg(text(shown_.loadCaseAt(k).name));
             place == named || place.startsWith(named + QStringLiteral(", "));) {
            about = k;
            place = place.mid(named.size() + 2);
        }
    const bool isAboutACase = place != whole;
    if (isAboutACase && (about != chosen_ || place.isEmpty())) {
        const QString name = text(shown_.loadCaseAt(about).name);
        const bool isWhole = place.isEmpty() || place.startsWith(QLatin1String("no_"));
        row_->say(isWhole ? tr("%1: %2").arg(name, words) : tr("%1, %2: %3").arg(name, place, words));
        return true;
    }
    for (const Spot& spot : spots_) {
        if (place != spot.place && !place.startsWith(spot.place + QStringLiteral(" ("))) continue;
        spot.say(words);
        return true;
    }
    return false;
}

void LoadCaseSection::clearFault() {
    row_->say({});
    for (const Spot& spot : spots_)
        spot.say({});
}

FieldMessage* LoadCaseSection::spot(const QString& place, QVBoxLayout* column, ChoiceBox* box) {
    auto* message = new FieldMessage(host_);
    message->setContentsMargins(fieldIndent(), 0, 0, 0);
    column->addWidget(message);
    spots_.push_back({place, [message, box](const QString& words) {
                          message->say(words);
                          if (box) box->setProblem(words);
                      }});
    return message;
}

FaceChooser* LoadCaseSection::faceChooser(const QString& name, Selector which) {
    auto* box = new FaceChooser(name, host_);
    adopt(box);
    connect(box, &FaceChooser::chosen, this, [this, name, which](const FaceSelector& selector) {
        edit(tr("%1: %2").arg(name, wordOf(selector)), {}, [&](LoadCase& c) { which(c) = selector; });
    });
    show_.push_back([this, box, which](const LoadCase& c) {
        LoadCase copy = c;
        box->show(which(copy), faces_, kept_);
    });
    return box;
}

QuantityField* LoadCaseSection::number(const FieldDescription& description, const QString& faultPlace, Number which) {
    auto* field = adopt(new QuantityField(description, host_));
    connect(field, &QuantityField::edited, this, [this, d = description, which](double v, const QString& word) {
        const QString shown = d.displayUnit.isEmpty() ? shownQuantity(v, d.unit)
                                                      : shownNumber(std::round(v * d.displayScale * 1e6) / 1e6) +
                                                            QChar(0x202f) + d.displayUnit;
        edit(tr("%1 → %2").arg(d.label, shown), word, [&](LoadCase& c) { which(c) = v; });
    });
    show_.push_back([field, which](const LoadCase& c) {
        LoadCase copy = c;
        field->setValue(which(copy));
    });
    if (!faultPlace.isEmpty())
        spots_.push_back({faultPlace, [field](const QString& words) { field->setProblem(words); }});
    return field;
}

std::string LoadCaseSection::freeFace(const LoadCase& c) const {
    for (const QString& face : faces_) {
        const FaceSelector selector = FaceSelector::byName(face.toStdString());
        const auto uses = [&](const auto& entry) { return entry.face == selector; };
        if (std::none_of(c.holds.begin(), c.holds.end(), uses) && std::none_of(c.loads.begin(), c.loads.end(), uses))
            return selector.name;
    }
    return {};
}

void LoadCaseSection::build(const LoadCase& loadCase) {
    QString focused;
    if (host_) {
        const QWidget* focus = QApplication::focusWidget();
        if (focus && host_->isAncestorOf(focus)) focused = focus->objectName();
        // An entry that loses the focus by being hidden must not write to an entry of the list that is gone.
        for (QObject* field : host_->children())
            field->blockSignals(true);
        host_->hide();
        host_->deleteLater();
    }
    show_.clear();
    spots_.clear();
    host_ = new QWidget(this);
    auto* column = new QVBoxLayout(host_);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(space(1));
    buildHolds(loadCase, column);
    buildLoads(loadCase, column);
    buildHeavy(loadCase, column);
    buildMeasurement(column);
    buildUse(loadCase, column);
    body()->addWidget(host_);
    host_->show();  // now and not with the next event: the focus is to come back into it
    Q_EMIT rebuilt();
    if (focused.isEmpty()) return;
    auto* again = host_->findChild<QWidget*>(focused);
    for (const QLatin1String list : {QLatin1String("load"), QLatin1String("mass"), QLatin1String("hold")})
        if (!again && focused.contains(list)) again = host_->findChild<QWidget*>(QStringLiteral("add ") + list);
    if (!again) again = host_->findChild<QWidget*>(QStringLiteral("add hold"));
    if (again) again->setFocus(Qt::OtherFocusReason);
}

void LoadCaseSection::hold(const QString& face, HoldKind kind) {
    edit(tr("hold %1").arg(face), {}, [&](LoadCase& c) {
        const FaceSelector selector = FaceSelector::byName(face.toStdString());
        for (Hold& h : c.holds)
            if (h.face == selector) {
                h.kind = kind;
                return;
            }
        c.holds.push_back({selector, kind});
    });
}

void LoadCaseSection::load(const QString& face) {
    edit(tr("load %1").arg(face), {}, [&](LoadCase& c) {
        Load next;
        next.kind = LoadKind::force;
        // No force is assumed: the verdict asks for it until it is typed.
        if (!c.loads.empty() && c.loads.back().kind == LoadKind::force) next.vector = c.loads.back().vector;
        next.face = FaceSelector::byName(face.toStdString());
        c.loads.push_back(next);
        if (c.measuredFace.kind == FaceSelector::Kind::name && c.measuredFace.name.empty()) {
            c.measuredFace = next.face;
            c.measuredDirection = -Vec3::UnitZ();
        }
    });
}

void LoadCaseSection::attach(const QString& face) {
    // No mass is assumed either.
    edit(tr("attach a mass to %1").arg(face), {},
         [&](LoadCase& c) { c.masses.push_back({FaceSelector::byName(face.toStdString())}); });
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
        std::erase_if(c.masses, [&](const AttachedMass& m) { return m.face == selector; });
    });
}

}  // namespace waybench
