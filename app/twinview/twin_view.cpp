#include "app/twinview/twin_view.h"

#include <QComboBox>
#include <QGridLayout>
#include <QHBoxLayout>
#include <QLabel>
#include <QMenu>
#include <QPainter>
#include <algorithm>

#include "app/inspector/choice_field.h"
#include "app/style/shown_figure.h"
#include "app/style/theme.h"
#include "app/twinview/field_bar.h"
#include "app/twinview/part_pane.h"
#include "core/report/drawn_bending.h"

namespace waybench {

namespace {

std::shared_ptr<const RouteOutcome> outcomeOf(const std::shared_ptr<const Comparison>& comparison, RouteKind route) {
    if (!comparison) return nullptr;
    return {comparison, &comparison->outcome(route)};
}

std::shared_ptr<const std::vector<double>> fieldOf(const RouteOutcome* outcome, TwinView::Field field) {
    if (!outcome || !outcome->structure || field == TwinView::Field::none) return nullptr;
    const StructureAnswer& s = *outcome->structure;
    auto values = std::make_shared<std::vector<double>>();
    if (field == TwinView::Field::stress)
        *values = s.stress_MPa;
    else if (field == TwinView::Field::utilisation)
        *values = s.utilisation;
    else
        for (const Vec3& u : s.displacement_mm)
            values->push_back(u.norm());
    return values;
}

QString obstacleOf(const RouteOutcome* outcome) {
    if (!outcome || outcome->feasible) return {};
    for (const RouteWarning& w : outcome->warnings)
        if (w.severity == Severity::blocking) return text(w.text);
    return {};
}

}  // namespace

TwinView::TwinView(QWidget* parent) : QWidget(parent), camera_(std::make_shared<Camera>()) {
    setAccessibleName(tr("Both routes"));
    printed_ = new PartPane(RouteKind::printed, camera_, this);
    machined_ = new PartPane(RouteKind::machined, camera_, this);
    bar_ = new FieldBar(this);
    fieldChoice_ = new ChoiceBox(this);
    fieldChoice_->addItems({tr("displacement"), tr("stress"), tr("use of strength"), tr("shape only")});
    fieldChoice_->setAccessibleName(tr("Quantity shown on the part"));
    deformationChoice_ = new ChoiceBox(this);
    deformationChoice_->addItems({tr("bending enlarged"), tr("bending as it is"), tr("not bent")});
    deformationChoice_->setAccessibleName(tr("How bending is drawn"));
    for (QComboBox* box : {fieldChoice_, deformationChoice_})
        box->setSizeAdjustPolicy(QComboBox::AdjustToContents);
    factorLabel_ = new QLabel(this);
    hovered_ = new QLabel(this);
    for (QWidget* w : std::initializer_list<QWidget*>{factorLabel_, hovered_, fieldChoice_, deformationChoice_})
        w->setFont(textFont(TextSize::small));

    auto* foot = new QHBoxLayout;
    foot->setContentsMargins(space(3), 0, space(3), 0);
    foot->setSpacing(space(3));
    foot->addWidget(deformationChoice_);
    foot->addWidget(factorLabel_);
    foot->addWidget(hovered_, 1);
    foot->addWidget(fieldChoice_);
    foot->addWidget(bar_);
    auto* grid = new QGridLayout(this);
    grid->setContentsMargins(0, 0, 0, space(1));
    grid->setHorizontalSpacing(1);
    grid->setVerticalSpacing(space(1));
    grid->addWidget(printed_, 0, 0);
    grid->addWidget(machined_, 0, 1);
    grid->addLayout(foot, 1, 0, 1, 2);
    grid->setRowStretch(0, 1);
    grid->setColumnStretch(0, 1);
    grid->setColumnStretch(1, 1);

    for (PartPane* pane : {printed_, machined_}) {
        connect(pane, &PartPane::cameraChanged, this, [this](bool moving) {
            keepsFitted_ = false;
            printed_->cameraMoved(moving);
            machined_->cameraMoved(moving);
        });
        connect(pane, &PartPane::fitAsked, this, &TwinView::fit);
        connect(pane, &PartPane::faceHovered, this, [this](const QString& name) {
            hovered_->setText(name.isEmpty() ? QString() : tr("face: %1").arg(name));
        });
        connect(pane, &PartPane::faceChosen, this,
                [this, pane](int face, const QPoint& global) { offerFace(pane, face, global); });
    }
    connect(printed_, &PartPane::resized, this, [this] {
        if (keepsFitted_) fit();
    });
    connect(fieldChoice_, &QComboBox::currentIndexChanged, this, &TwinView::rebuild);
    connect(deformationChoice_, &QComboBox::currentIndexChanged, this, &TwinView::rebuild);
    connect(&Theme::instance(), &Theme::changed, this, qOverload<>(&QWidget::update));
    clear();
}

void TwinView::clear() {
    answer_ = {};
    bare_ = {};
    rebuild();
}

void TwinView::showAnswer(const Answer& answer) {
    answer_ = answer;
    bare_ = answer.solids;
    rebuild();
}

void TwinView::showSolids(const PartSolids& solids) {
    answer_ = {};
    bare_ = solids;
    rebuild();
}

void TwinView::showLoadCase(const LoadCase& loadCase, std::size_t index) {
    loadCase_ = loadCase;
    const bool isOther = index != chosenCase_;
    chosenCase_ = index;
    if (isOther) return rebuild();
    for (PartPane* pane : {printed_, machined_})
        pane->showLoadCase(loadCase);
}

std::shared_ptr<const Comparison> TwinView::chosenAnswer() const {
    const auto& whole = answer_.comparison;
    if (!whole || chosenCase_ >= whole->part.loadCaseCount() || chosenCase_ == whole->printed.shownCase) return whole;
    auto chosen = std::make_shared<Comparison>(*whole);
    for (const RouteKind route : {RouteKind::printed, RouteKind::machined})
        showCase(chosen->outcome(route), chosenCase_);
    return chosen;
}

void TwinView::setStale(bool stale) {
    printed_->setStale(stale);
    machined_->setStale(stale);
}

const Solid* TwinView::anySolid() const {
    return bare_.printed ? bare_.printed->solid.get() : bare_.machined ? bare_.machined->solid.get() : nullptr;
}

void TwinView::fit() {
    Box3 box;
    for (const auto& drawn : {bare_.printed, bare_.machined}) {
        if (!drawn) continue;
        const Box3 b = boundsOf(drawn->solid->mesh);
        box.include(b.low);
        box.include(b.high);
    }
    const QSize whole = printed_->size();
    const int caption = PartPane::captionHeight();
    const QSize clear(whole.width(), whole.height() - caption);
    if (!anySolid() || clear.height() < 20 || clear.width() < 20) return;
    camera_->fit(box, clear, 1.22);
    // The clear part lies below the caption: the picture's middle is half a caption above that of the part.
    camera_->halfHeight_mm *= double(whole.height()) / clear.height();
    camera_->pan(0, caption / 2.0, whole);
    keepsFitted_ = true;
    printed_->cameraMoved(false);
    machined_->cameraMoved(false);
}

void TwinView::setCamera(const Camera& camera) {
    *camera_ = camera;
    fitWanted_ = keepsFitted_ = false;
    printed_->cameraMoved(false);
    machined_->cameraMoved(false);
}

void TwinView::rebuild() {
    const auto field = static_cast<Field>(fieldChoice_->currentIndex());
    const auto comparison = chosenAnswer();
    const auto printed = outcomeOf(comparison, RouteKind::printed),
               machined = outcomeOf(comparison, RouteKind::machined);
    const auto printedField = fieldOf(printed.get(), field), machinedField = fieldOf(machined.get(), field);
    double most = 0, largest = 0;
    for (const auto& f : {printedField, machinedField})
        if (f && !f->empty()) most = std::max(most, *std::max_element(f->begin(), f->end()));
    for (const auto& outcome : {printed, machined})
        if (outcome && outcome->structure)
            for (const Vec3& u : outcome->structure->displacement_mm)
                largest = std::max(largest, u.norm());
    factor_ = 0;
    if (largest > 0 && deformationChoice_->currentIndex() == 0) factor_ = commonBendingFactor(*comparison);
    if (deformationChoice_->currentIndex() == 1) factor_ = 1;

    PaneScene scene;
    scene.loadCase = loadCase_;
    scene.fieldMaximum = most > 0 ? most : 1;
    scene.displacementScale = factor_;
    scene.solid = bare_.printed;
    scene.outcome = printed;
    scene.field = printedField;
    if (fitWanted_ && anySolid()) {
        fitWanted_ = false;
        fit();
    }
    printed_->showScene(scene);
    scene.solid = bare_.machined;
    scene.outcome = machined;
    scene.field = machinedField;
    machined_->showScene(std::move(scene));
    printed_->setCaption(printed ? text(printed->recipe) : QString(), obstacleOf(printed.get()));
    machined_->setCaption(machined ? text(machined->recipe) : QString(), obstacleOf(machined.get()));

    QString said = factor_ > 0 && largest > 0 ? tr("× %1, both alike").arg(shownNumber(factor_)) : QString();
    if (comparison && comparison->part.loadCaseCount() > 1) {
        const QString name = text(comparison->part.loadCaseAt(printed->shownCase).name);
        said += said.isEmpty() ? name : tr(", %1").arg(name);
    }
    factorLabel_->setText(said);
    if (most > 0 && field != Field::none) {
        const Unit unit = field == Field::displacement ? Unit::millimetre
                          : field == Field::stress     ? Unit::megapascal
                                                       : Unit::none;
        bar_->setEnds(QStringLiteral("0"), text(fieldEndText(most, unit)));
    } else {
        bar_->setEnds({}, {});
    }
    update();
}

void TwinView::offerFace(PartPane* pane, int face, const QPoint& global) {
    if (!pane->scene().solid) return;
    const Face& picked = pane->scene().solid->solid->faces[std::size_t(face)];
    const QString name = text(picked.name);
    const bool isBore = picked.kind == SurfaceKind::cylinder && picked.isHollow && picked.isFullTurn;
    QMenu menu(this);
    menu.addSection(name);
    menu.addAction(tr("&Hold this face"), this, [this, name] { Q_EMIT holdAsked(name, HoldKind::fixed); });
    menu.addAction(tr("Let this face &slide"), this, [this, name] { Q_EMIT holdAsked(name, HoldKind::sliding); });
    if (isBore)
        menu.addAction(tr("&Bolt through this bore"), this, [this, name] { Q_EMIT holdAsked(name, HoldKind::bolted); });
    menu.addAction(tr("&Load this face"), this, [this, name] { Q_EMIT loadAsked(name); });
    menu.addAction(tr("&Attach a mass here"), this, [this, name] { Q_EMIT massAsked(name); });
    menu.addAction(tr("&Measure the deflection here"), this, [this, name] { Q_EMIT measureAsked(name); });
    menu.addSeparator();
    menu.addAction(tr("&Free this face"), this, [this, name] { Q_EMIT releaseAsked(name); });
    menu.exec(global);
    pane->pickFace(-1);  // colours of the answer show again
}

void TwinView::paintEvent(QPaintEvent*) {
    QPainter painter(this);
    painter.fillRect(rect(), colours().sheet);
    // The spine runs on between the two views.
    painter.fillRect(QRect(printed_->geometry().right() + 1, 0, 1, printed_->height()), colours().mark);
}

}  // namespace waybench
