#include "app/layers/layers_page.h"

#include <QComboBox>
#include <QHBoxLayout>
#include <QLabel>
#include <QPainter>
#include <QPushButton>
#include <QSignalBlocker>
#include <QSpinBox>
#include <QStackedLayout>
#include <QVBoxLayout>
#include <algorithm>

#include "app/document/document.h"
#include "app/jobs/answers.h"
#include "app/layers/layer_legend.h"
#include "app/layers/ways_up_panel.h"
#include "app/style/shown_figure.h"
#include "app/style/theme.h"

namespace waybench {

namespace {

bool hasSameLayers(const Part& a, const Part& b) {
    return a.name == b.name && a.shape == b.shape && a.printedDimensions == b.printedDimensions && a.recipe == b.recipe;
}

/// The ranking is of all six directions, whichever is chosen.
bool hasSameWays(const Part& a, const Part& b) {
    printed::Recipe turned = a.recipe;
    printed::take(turned, printed::stanceOf(b.recipe));
    return a.name == b.name && a.shape == b.shape && a.printedDimensions == b.printedDimensions && turned == b.recipe &&
           a.loadCases() == b.loadCases();
}

}  // namespace

LayersPage::LayersPage(Document& document, Answers& answers, QWidget* parent)
    : QWidget(parent),
      document_(document),
      answers_(answers),
      job_(document.sharedShop()),
      waysJob_(document.sharedShop()) {
    auto* whole = new QVBoxLayout(this);
    whole->setContentsMargins(0, 0, 0, 0);
    whole->setSpacing(0);
    whole->addWidget(head_ = makeHead());
    whole->addLayout(stack_ = new QStackedLayout, 1);
    layers_ = makeLayers();
    stack_->addWidget(makeEmpty());
    stack_->addWidget(layers_);
    soon_.setSingleShot(true);
    soon_.setInterval(150);
    connect(&soon_, &QTimer::timeout, this, &LayersPage::restart);
    pulse_.setInterval(200);
    connect(&pulse_, &QTimer::timeout, this, &LayersPage::tellProgress);
    connectJobs();
    const auto changed = [this] {
        if (isVisible()) restartSoon();
    };
    for (const auto signal : {&Document::partsChanged, &Document::projectReset})
        connect(&document_, signal, this, &LayersPage::tellPart);
    for (const auto signal : {&Document::currentChanged, &Document::partEdited})
        connect(&document_, signal, this, &LayersPage::tellPart);
    tellPart();
    connect(&answers_, &Answers::currentAnswered, this, &LayersPage::tellAnswer);
    connect(&answers_, &Answers::currentFaulted, this, &LayersPage::tellAnswer);
    connect(&answers_, &Answers::becameStale, this, &LayersPage::tellAnswer);
    connect(&document_, &Document::currentChanged, this, changed);
    connect(&document_, &Document::partEdited, this, changed);
    connect(&document_, &Document::titleBlockChanged, this, changed);  // the tariff stands there
    connect(&document_, &Document::projectReset, this, [this, changed] {
        opened_.reset();  // files may be others under the same names
        ranked_.reset();
        shownAllTheSame_.clear();
        changed();
    });
}

QWidget* LayersPage::makeHead() {
    auto* head = new QWidget(this);
    part_ = new QComboBox(head);
    part_->setObjectName(QStringLiteral("layers part"));
    part_->setAccessibleName(tr("Part"));
    part_->setSizeAdjustPolicy(QComboBox::AdjustToContents);
    part_->setFont(textFont(TextSize::lead, QFont::DemiBold));
    recipe_ = new QLabel(head);
    recipe_->setObjectName(QStringLiteral("layers recipe"));
    recipe_->setFont(textFont(TextSize::lead));
    recipe_->setTextInteractionFlags(Qt::TextSelectableByMouse | Qt::TextSelectableByKeyboard);
    auto* line = new QHBoxLayout(head);
    line->setContentsMargins(space(6), space(3), space(4), 0);
    line->setSpacing(space(3));
    line->addWidget(part_);
    line->addWidget(recipe_, 1);
    connect(part_, &QComboBox::activated, this, [this](int index) { document_.setCurrentIndex(index); });
    return head;
}

void LayersPage::tellPart() {
    const QSignalBlocker quiet(part_);
    part_->clear();
    for (const Part& part : document_.project().parts)
        part_->addItem(text(part.name));
    part_->setCurrentIndex(document_.currentIndex());
    const Part* part = document_.currentPart();
    head_->setVisible(part != nullptr);
    if (!part) return;
    const printed::Recipe& recipe = part->recipe;
    std::string material = recipe.material;
    for (const PrintingMaterial& m : document_.shop().printingMaterials)
        if (m.key == recipe.material) material = m.title;
    recipe_->setText(tr("%1  ·  layers %2 thick  ·  %3 up")
                         .arg(text(material), shownQuantity(recipe.layerThickness_mm, Unit::millimetre),
                              text(printed::upText(recipe)).replace(QLatin1Char('-'), QChar(0x2212))));
}

QWidget* LayersPage::makeEmpty() {
    auto* empty = new QWidget(this);
    emptyWords_ = new QLabel(empty);
    emptyWords_->setObjectName(QStringLiteral("layers empty"));
    emptyWords_->setWordWrap(true);
    emptyWords_->setAlignment(Qt::AlignCenter);
    emptyWords_->setFont(textFont(TextSize::lead));
    emptyWords_->setMaximumWidth(space(150));
    emptyWords_->setMinimumWidth(space(90));
    emptyWords_->setTextInteractionFlags(Qt::TextSelectableByMouse | Qt::TextSelectableByKeyboard);
    allTheSame_ = new QPushButton(tr("&Show its layers all the same"), empty);
    allTheSame_->setObjectName(QStringLiteral("layers all the same"));
    connect(allTheSame_, &QPushButton::clicked, this, [this] {
        if (const Part* part = document_.currentPart()) shownAllTheSame_ = part->name;
        restart();
    });
    auto* column = new QVBoxLayout(empty);
    column->addStretch(2);
    column->addWidget(emptyWords_, 0, Qt::AlignHCenter);
    column->addSpacing(space(2));
    column->addWidget(allTheSame_, 0, Qt::AlignHCenter);
    column->addStretch(3);
    return empty;
}

QWidget* LayersPage::makeLayers() {
    auto* layers = new QWidget(this);
    number_ = new QSpinBox(layers);
    number_->setAccessibleName(tr("Layer, counted from the bed"));
    number_->setKeyboardTracking(true);
    number_->setButtonSymbols(QAbstractSpinBox::NoButtons);
    number_->setMinimumWidth(space(14));
    number_->setAlignment(Qt::AlignRight);
    count_ = new QLabel(layers);
    count_->setFont(textFont(TextSize::lead));
    readout_ = new QLabel(layers);
    readout_->setObjectName(QStringLiteral("layer readout"));
    readout_->setFont(textFont(TextSize::lead));
    readout_->setTextInteractionFlags(Qt::TextSelectableByMouse | Qt::TextSelectableByKeyboard);
    readout_->setSizePolicy(QSizePolicy::Ignored, QSizePolicy::Preferred);
    state_ = new QLabel(layers);
    state_->setObjectName(QStringLiteral("layers state"));
    state_->setFont(textFont(TextSize::small));
    state_->setForegroundRole(QPalette::PlaceholderText);
    state_->setWordWrap(true);
    auto* label = new QLabel(tr("&Layer"), layers);
    label->setFont(textFont(TextSize::lead));
    label->setBuddy(number_);
    auto* fit = new QPushButton(tr("&Fit the layer"), layers);
    fit->setToolTip(tr("0 or a double click fits; the wheel zooms, dragging moves"));
    canvas_ = new LayerCanvas(layers);
    profile_ = new TimeOverHeight(layers);
    legend_ = new LayerLegend(layers);
    ways_ = new WaysUpPanel(layers);
    const QString keys = tr("Up, Down: one layer. Page Up, Page Down: ten. Home, End: bed, top.");
    number_->setToolTip(keys);
    canvas_->setToolTip(keys + QLatin1Char('\n') +
                        tr("Wheel, plus, minus: zoom. Dragging moves. 0 or a double click: fit."));

    auto* head = new QHBoxLayout;
    head->setSpacing(space(2));
    head->addWidget(label);
    head->addWidget(number_);
    head->addWidget(count_);
    head->addSpacing(space(4));
    head->addWidget(readout_, 1);
    head->addWidget(fit);
    auto* drawn = new QVBoxLayout;
    drawn->setSpacing(space(2));
    drawn->addLayout(head);
    drawn->addWidget(canvas_, 7);
    drawn->addWidget(profile_, 2);
    auto* side = new QVBoxLayout;
    side->setContentsMargins(0, 0, 0, 0);
    side->setSpacing(space(3));
    side->addWidget(legend_);
    side->addWidget(state_);
    side->addStretch();
    auto* sideHost = new QWidget(layers);
    sideHost->setLayout(side);
    sideHost->setSizePolicy(QSizePolicy::Fixed, QSizePolicy::Preferred);
    auto* middle = new QHBoxLayout;
    middle->setSpacing(space(4));
    middle->addWidget(sideHost);
    middle->addLayout(drawn, 1);
    auto* column = new QVBoxLayout(layers);
    column->setContentsMargins(space(6), space(3), space(4), space(3));
    column->setSpacing(space(3));
    column->addLayout(middle, 1);
    column->addWidget(ways_);

    connect(number_, &QSpinBox::valueChanged, this, [this](int value) { goTo(value - 1); });
    connect(fit, &QPushButton::clicked, canvas_, &LayerCanvas::fit);
    connect(legend_, &LayerLegend::switched, canvas_, &LayerCanvas::setShown);
    connect(canvas_, &LayerCanvas::stepAsked, this, [this](int by) { goTo(layer() + by); });
    connect(canvas_, &LayerCanvas::endAsked, this, [this](bool top) { goTo(top ? layerCount() - 1 : 0); });
    connect(profile_, &TimeOverHeight::layerAsked, this, &LayersPage::goTo);
    connect(profile_, &TimeOverHeight::stepAsked, this, [this](int by) { goTo(layer() + by); });
    connect(profile_, &TimeOverHeight::endAsked, this, [this](bool top) { goTo(top ? layerCount() - 1 : 0); });
    connect(ways_, &WaysUpPanel::chosen, this, &LayersPage::takeWayUp);
    return layers;
}

void LayersPage::connectJobs() {
    connect(&job_, &LayersJob::opened, this, &LayersPage::open);
    connect(&job_, &LayersJob::laid, this, [this](std::shared_ptr<const printed::LaidLayer> laid) {
        if (laid->index != layer_) return;
        laid_ = std::move(laid);
        canvas_->showLaid(laid_);
        tell();
    });
    connect(&job_, &LayersJob::timed, this, [this](std::shared_ptr<const TimesOfLayers> times) {
        times_ = std::move(times);
        elapsed_s_.clear();
        printed::LayerTime sum;
        double elapsed = 0;
        for (const printed::LayerTime& time : times_->layers) {
            sum.add(time, 1);
            elapsed_s_.push_back(elapsed += time.total_s());
        }
        whole_ = sum;
        profile_->show(view_, times_);
        tell();
        tellProgress();
    });
    connect(&job_, &LayersJob::faulted, this, [this](const Fault& fault) {
        abandon(tr("This part cannot be laid out in layers.") + QStringLiteral("\n\n") + fault.sentence());
    });
    connect(&waysJob_, &WaysUpJob::ranked, this, [this](std::shared_ptr<const std::vector<printed::WayUp>> ways) {
        ways_->showWays(std::move(ways));
        ways_->say(
            tr("Coarse grid, for ranking; best first, the worst load case of each. ✗ fails; ? cannot be said, its "
               "unfavourable bound fails."));
    });
    connect(&waysJob_, &WaysUpJob::faulted, this, [this](const Fault& fault) {
        ways_->showWays(nullptr);
        ways_->say(tr("Not ranked. %1").arg(fault.sentence()));
    });
}

void LayersPage::showEvent(QShowEvent*) {
    restartSoon();
}

void LayersPage::hideEvent(QHideEvent*) {
    soon_.stop();
    pulse_.stop();
    if (job_.isRunning()) opened_.reset();
    if (waysJob_.isRunning()) ranked_.reset();
    if (!opened_) job_.cancel();
    if (!ranked_) waysJob_.cancel();
}

void LayersPage::restartSoon() {
    soon_.start();
}

void LayersPage::restart() {
    const Part* part = document_.currentPart();
    if (!part)
        return abandon(tr("No part, so no layers. Add one at the left of the bench, or drop a drawing or body here."));
    if (part->chosenRoute == "machined" && shownAllTheSame_ != part->name)
        return abandon(tr("%1 is settled as machined, so it has no layers. Settle it otherwise on the bench, or look "
                          "at what its print would be.")
                           .arg(text(part->name)),
                       true);
    ways_->setCurrent(printed::stanceOf(part->recipe));
    tellAnswer();
    restartWays(*part);
    if (opened_ && hasSameLayers(*opened_, *part)) return;
    opened_ = *part;
    job_.start(*part, document_.project().folder());
    pulse_.start();
    if (!view_) {
        emptyWords_->setText(tr("Cutting %1 into layers …").arg(text(part->name)));
        allTheSame_->hide();
        stack_->setCurrentIndex(0);
    }
    tellProgress();
}

void LayersPage::restartWays(const Part& part) {
    const std::string& tariff = document_.project().tariff;
    if (ranked_ && hasSameWays(*ranked_, part) && rankedTariff_ == tariff) return;
    ranked_ = part;
    rankedTariff_ = tariff;
    if (ways_->ways()) ways_->showWays(nullptr);
    ways_->say(tr("Trying the six directions …"));
    waysJob_.start(part, document_.project().folder(), tariff);
}

void LayersPage::abandon(const QString& why, bool mayShowAllTheSame) {
    job_.cancel();
    waysJob_.cancel();
    pulse_.stop();
    ranked_.reset();
    if (mayShowAllTheSame || !document_.currentPart()) opened_.reset();  // a fault stays until the part changes
    view_.reset();
    laid_.reset();
    times_.reset();
    whole_.reset();
    canvas_->setView(nullptr);
    profile_->show(nullptr, nullptr);
    ways_->showWays(nullptr);
    emptyWords_->setText(why);
    allTheSame_->setVisible(mayShowAllTheSame);
    stack_->setCurrentIndex(0);
}

void LayersPage::open(std::shared_ptr<const printed::LayerView> view) {
    const double share = view_ && view_->layerCount() > 1 ? double(layer_) / double(view_->layerCount() - 1) : 0.5;
    const bool keepsCount = view_ && view_->layerCount() == view->layerCount();
    view_ = std::move(view);
    laid_.reset();
    times_.reset();
    whole_.reset();
    elapsed_s_.clear();
    const int count = layerCount();
    {
        const QSignalBlocker quiet(number_);
        number_->setRange(1, count);
    }
    count_->setText(tr("of %1").arg(count));
    canvas_->setView(view_);
    profile_->show(view_, nullptr);
    stack_->setCurrentIndex(1);
    const std::size_t wanted = keepsCount ? layer_ : std::size_t(share * (count - 1) + 0.5);
    layer_ = std::size_t(count);  // none, so that the layer is shown anew
    goTo(int(wanted));
}

void LayersPage::goTo(int layer) {
    if (!view_) return;
    const std::size_t k = std::size_t(std::clamp(layer, 0, layerCount() - 1));
    {
        const QSignalBlocker quiet(number_);
        if (number_->value() != int(k) + 1) number_->setValue(int(k) + 1);
    }
    if (k == layer_) return;
    layer_ = k;
    laid_.reset();
    canvas_->showLayer(k);
    profile_->setLayer(k);
    job_.look(k);
    tell();
}

void LayersPage::tell() {
    if (!view_ || layer_ >= view_->layerCount()) return;
    const printed::Layer& place = view_->placeOf(layer_);
    QString words = tr("top at %1, %2 thick")
                        .arg(shownBriefly(place.bottom_mm + place.height_mm, Unit::millimetre),
                             shownBriefly(place.height_mm, Unit::millimetre));
    // the print job's time where it is there, as bar and sum have it; the lengths are those of the lines drawn
    std::optional<printed::LayerTime> time;
    if (times_ && times_->isComplete)
        time = times_->layers[layer_];
    else if (laid_)
        time = laid_->time;
    else if (times_)
        time = times_->layers[layer_];
    if (time && laid_) {
        time->path_mm = laid_->time.path_mm;
        time->travel_mm = laid_->time.travel_mm;
    }
    if (time) words += QStringLiteral("  ·  ") + tr("takes %1").arg(shownBriefly(time->total_s(), Unit::second));
    if (times_ && whole_) {
        const QString over = shownBriefly(elapsed_s_[layer_], Unit::second),
                      whole = shownBriefly(whole_->total_s(), Unit::second);
        words += QStringLiteral("  ·  ") + (times_->isComplete ? tr("%1 of %2 done after it").arg(over, whole)
                                                               : tr("about %1 of %2 done after it").arg(over, whole));
    }
    readout_->setText(words);
    readout_->setToolTip(words);
    legend_->show(time ? &*time : nullptr, whole_ ? &*whole_ : nullptr);
    canvas_->setAccessibleDescription(tr("Layer %1 of %2, ").arg(layer_ + 1).arg(view_->layerCount()) + words);
}

void LayersPage::tellProgress() {
    if (job_.isRunning()) {
        state_->setText(tr("Timing the layers, %1 %").arg(int(job_.progress() * 100)));
    } else {
        pulse_.stop();
        state_->setText(timesText());
    }
}

void LayersPage::tellAnswer() {
    const Answer answer = answers_.current();
    const bool isFinal = answer && answers_.isCurrent() && answer.comparison->fidelity == Fidelity::standard;
    final_ = isFinal ? std::shared_ptr<const RouteOutcome>(answer.comparison, &answer.comparison->printed) : nullptr;
    ways_->setFinal(final_);
    if (!job_.isRunning()) state_->setText(timesText());
}

QString LayersPage::timesText() const {
    if (!whole_) return {};
    const double layers_s = whole_->total_s();
    if (final_) {
        const Figure& print = final_->at(Question::machine_time);
        const auto rounded = [&](double seconds) {
            return shown(Figure::relative(seconds, print.relativeBelow(), print.relativeAbove(), Unit::second))
                .valueText();
        };
        if (const double rest_s = print.value - layers_s; rest_s > 0)
            return tr("layers %1 + start, heating, homing, removal %2 = print %3")
                .arg(rounded(layers_s), rounded(rest_s), shown(print).fullText());
    }
    return tr("layers %1; start, heating, homing and removal come on top").arg(shownBriefly(layers_s, Unit::second));
}

void LayersPage::takeWayUp(const printed::Stance& stance) {
    const Part* part = document_.currentPart();
    if (!part || printed::stanceOf(part->recipe) == stance) return;
    Part turned = *part;
    printed::take(turned.recipe, stance);
    document_.editCurrent(turned,
                          tr("way up %1 → %2").arg(text(printed::upText(part->recipe)), text(printed::upText(stance))));
}

void LayersPage::paintEvent(QPaintEvent*) {
    QPainter painter(this);
    painter.fillRect(rect(), colours().ground);
}

}  // namespace waybench
