#include "app/whatif/whatif_page.h"

#include <QCheckBox>
#include <QComboBox>
#include <QFile>
#include <QFileDialog>
#include <QFileInfo>
#include <QHBoxLayout>
#include <QLabel>
#include <QMenu>
#include <QPainter>
#include <QPushButton>
#include <QSaveFile>
#include <QSettings>
#include <algorithm>
#include <cmath>

#include "app/document/document.h"
#include "app/inspector/choice_field.h"
#include "app/inspector/quantity_field.h"
#include "app/jobs/answers.h"
#include "app/style/shown_figure.h"
#include "app/style/theme.h"
#include "app/whatif/curve_plot.h"
#include "app/whatif/curve_reading.h"
#include "core/comparison/selection_check.h"
#include "core/quantity/quantity_text.h"

namespace waybench {

namespace {
constexpr int kPoints = 9;
}  // namespace

WhatIfPage::WhatIfPage(Document& document, Answers& answers, QWidget* parent)
    : QWidget(parent), document_(document), answers_(answers), job_(document.sharedShop()) {
    variableChoice_ = new ChoiceBox(this);
    variableChoice_->setAccessibleName(tr("What is varied"));
    variableChoice_->setMinimumContentsLength(16);
    questionChoice_ = new ChoiceBox(this);
    questionChoice_->setAccessibleName(tr("Question shown"));
    questionChoice_->setSizeAdjustPolicy(QComboBox::AdjustToContents);
    for (const QuestionText& q : questions())
        questionChoice_->addItem(text(q.title), text(q.key));
    rangeHost_ = new QWidget(this);
    auto* rangeLine = new QHBoxLayout(rangeHost_);
    rangeLine->setContentsMargins(0, 0, 0, 0);
    rangeLine->setSpacing(space(2));
    logarithmic_ = new QCheckBox(tr("&log scale"), this);
    export_ = new QPushButton(tr("E&xport …"), this);
    title_ = new QLabel(this);
    title_->setFont(textFont(TextSize::title));
    title_->setWordWrap(true);
    title_->setTextInteractionFlags(Qt::TextSelectableByMouse | Qt::TextSelectableByKeyboard);
    title_->setAccessibleName(tr("Finding"));
    state_ = new QLabel(this);
    state_->setObjectName(QStringLiteral("what-if state"));
    state_->setFont(textFont(TextSize::small));
    state_->setForegroundRole(QPalette::PlaceholderText);
    side_ = new QLabel(this);
    side_->setObjectName(QStringLiteral("what-if readings"));
    side_->setWordWrap(true);
    side_->setTextFormat(Qt::RichText);
    side_->setAlignment(Qt::AlignTop | Qt::AlignLeft);
    side_->setTextInteractionFlags(Qt::TextSelectableByMouse | Qt::TextSelectableByKeyboard);
    side_->setAccessibleName(tr("Readings and crossings"));
    side_->setFixedWidth(space(62));
    plot_ = new CurvePlot(this);

    const auto labelled = [this](const QString& words, QWidget* buddy) {
        auto* label = new QLabel(words, this);
        label->setForegroundRole(QPalette::PlaceholderText);
        label->setBuddy(buddy);
        return label;
    };
    auto* controls = new QHBoxLayout;
    controls->setSpacing(space(2));
    controls->addWidget(labelled(tr("Var&y"), variableChoice_));
    controls->addWidget(variableChoice_);
    controls->addSpacing(space(2));
    controls->addWidget(rangeHost_);
    controls->addSpacing(space(4));
    controls->addWidget(labelled(tr("wat&ch"), questionChoice_));
    controls->addWidget(questionChoice_);
    controls->addSpacing(space(2));
    controls->addWidget(logarithmic_);
    controls->addStretch();
    controls->addWidget(export_);
    auto* middle = new QHBoxLayout;
    middle->setSpacing(space(4));
    middle->addWidget(plot_, 1);
    middle->addWidget(side_);
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(space(6), space(3), space(4), space(3));
    column->setSpacing(space(2));
    column->addLayout(controls);
    column->addWidget(title_);
    column->addWidget(state_);
    column->addLayout(middle, 1);

    soon_.setSingleShot(true);
    soon_.setInterval(250);
    connect(&soon_, &QTimer::timeout, this, &WhatIfPage::restart);
    pulse_.setInterval(200);
    connect(&pulse_, &QTimer::timeout, this, &WhatIfPage::tellProgress);
    connect(variableChoice_, &QComboBox::currentIndexChanged, this, [this](int k) {
        if (listing_ || k < 0) return;
        chosen_ = variables_[std::size_t(k)].name;
        rangeFromCurrent();
        restart();
    });
    connect(questionChoice_, &QComboBox::currentIndexChanged, this, [this] {
        scaleChosen_ = false;
        redraw();
    });
    connect(logarithmic_, &QCheckBox::clicked, this, [this] {
        scaleChosen_ = true;
        redraw();
    });
    connect(plot_, &CurvePlot::cursorDragged, this, &WhatIfPage::follow);
    connect(plot_, &CurvePlot::settled, this, [this] { ++bout_; });
    connect(&Theme::instance(), &Theme::changed, this, &WhatIfPage::redraw);
    connect(export_, &QPushButton::clicked, this, [this] {
        QSettings settings;
        const QString folder = settings.value(QStringLiteral("export/folder")).toString();
        const QString name =
            QStringLiteral("%1 %2 against %3.svg")
                .arg(text(partName_), text(question().title), variable() ? text(variable()->label) : QString());
        const QString file =
            QFileDialog::getSaveFileName(this, tr("Export the curves"), folder + QLatin1Char('/') + name,
                                         tr("SVG (*.svg);;PDF (*.pdf);;PNG (*.png);;Table (*.csv)"));
        if (file.isEmpty()) return;
        settings.setValue(QStringLiteral("export/folder"), QFileInfo(file).absolutePath());
        exportTo(file);
    });
    connect(&job_, &SweepJob::pointReady, this, [this](quint64, std::shared_ptr<const SweepPoint> point) {
        points_[point->at] = std::move(point);
        redraw();
    });
    connect(&job_, &SweepJob::solved, this, [this](quint64, std::shared_ptr<const SolvedLimit> answer) {
        solved_[answer->route] = std::move(answer);
        redraw();
    });
    connect(&job_, &SweepJob::finished, this, [this] {
        pulse_.stop();
        selections_ = changedSelections(gathered());
        state_->setText(
            tr("Final. Bands are the bounds of every figure; dots are computed, lines between them are straight."));
        redraw();
    });
    connect(&job_, &SweepJob::faulted, this, [this](quint64, const Fault& fault) {
        pulse_.stop();
        state_->setText(fault.sentence());
    });
    const auto changed = [this] {
        if (isVisible()) restartSoon();
    };
    connect(&document_, &Document::currentChanged, this, changed);
    connect(&document_, &Document::projectReset, this, changed);
    connect(&document_, &Document::partEdited, this, changed);
    connect(&document_, &Document::titleBlockChanged, this, changed);  // the tariff stands there
    connect(&answers_, &Answers::currentAnswered, this, [this] {
        if (isVisible()) redraw();
    });
}

const Variable* WhatIfPage::variable() const {
    for (const Variable& v : variables_)
        if (v.name == chosen_) return &v;
    return nullptr;
}

const QuestionText& WhatIfPage::question() const {
    const QuestionText* q = questionNamed(questionChoice_->currentData().toString().toStdString());
    return q ? *q : questions().front();
}

QString WhatIfPage::finding() const {
    return title_->text();
}

void WhatIfPage::showEvent(QShowEvent*) {
    restartSoon();
}
void WhatIfPage::hideEvent(QHideEvent*) {
    job_.cancel();
    pulse_.stop();
    swept_.reset();
}

void WhatIfPage::listVariables() {
    const Part* part = document_.currentPart();
    listing_ = true;
    variables_ = part ? variablesOf(*part, document_.shop()) : std::vector<Variable>();
    QStringList labels;
    for (const Variable& v : variables_)
        labels << text(v.label);
    QStringList shownLabels;
    for (int k = 0; k < variableChoice_->count(); ++k)
        shownLabels << variableChoice_->itemText(k);
    if (labels != shownLabels) {
        variableChoice_->clear();
        variableChoice_->addItems(labels);
    }
    const bool otherPart = part && part->name != partName_;
    if (!variable() || otherPart) {
        const bool keeps = variable() != nullptr && !otherPart;
        if (!keeps) chosen_ = variables_.empty() ? std::string() : variables_.front().name;
    }
    for (int k = 0; k < int(variables_.size()); ++k)
        if (variables_[std::size_t(k)].name == chosen_) variableChoice_->setCurrentIndex(k);
    listing_ = false;
    if (part && (otherPart || !fromField_)) {
        partName_ = part->name;
        rangeFromCurrent();
    }
}

void WhatIfPage::rangeFromCurrent() {
    const Variable* v = variable();
    if (!v) return;
    from_ = std::max(v->minimum, v->current * 0.5);
    to_ = std::min(v->maximum, v->current * 2.0);
    if (!(to_ > from_)) {
        from_ = v->minimum;
        to_ = v->maximum;
    }
    if (v->isWhole) {
        from_ = std::floor(from_);
        to_ = std::ceil(to_);
    }
    delete fromField_;
    delete toField_;
    const auto make = [&](const QString& label, double value, double& target) {
        FieldDescription f;
        f.key = label;
        f.label = label;
        f.unit = v->unit;
        f.minimum = v->minimum;
        f.maximum = v->maximum;
        f.isWhole = v->isWhole;
        auto* field = new QuantityField(f, rangeHost_);
        field->setFixedWidth(space(42));
        field->setValue(value);
        field->setCheck([this, &target](double x) {
            const double a = &target == &from_ ? x : from_, b = &target == &from_ ? to_ : x;
            return a < b ? QString() : tr("the range would be empty");
        });
        connect(field, &QuantityField::edited, this, [this, &target](double x) {
            target = x;
            restartSoon();
        });
        rangeHost_->layout()->addWidget(field);
        return field;
    };
    fromField_ = make(tr("from"), from_, from_);
    toField_ = make(tr("to"), to_, to_);
}

void WhatIfPage::restartSoon() {
    listVariables();
    redraw();
    soon_.start();
}

void WhatIfPage::restart() {
    const Part* part = document_.currentPart();
    listVariables();
    const Variable* v = variable();
    if (!part || !v) return abandon({});
    SweepOrder order;
    order.part = *part;
    order.folder = document_.project().folder();
    order.tariff = document_.project().tariff;
    order.variable = *v;
    order.from = from_;
    order.to = to_;
    order.points = v->isWhole ? int(std::min<double>(kPoints, to_ - from_ + 1)) : kPoints;
    try {
        with(*part, *v, from_);
        if (swept_ && haveSameCurves(*swept_, order)) return redraw();
    } catch (const InputFault& fault) {
        return abandon(Fault::from(fault).sentence());
    }
    swept_ = order;
    points_.clear();
    solved_.clear();
    selections_.clear();
    job_.start(order);
    pulse_.start();
    tellProgress();
    redraw();
}

void WhatIfPage::tellProgress() {
    if (job_.isRunning())
        state_->setText(tr("Computing, %1 %. Curves sharpen point by point.").arg(int(job_.progress() * 100)));
}

void WhatIfPage::abandon(const QString& why) {
    job_.cancel();
    pulse_.stop();
    swept_.reset();
    points_.clear();
    solved_.clear();
    selections_.clear();
    state_->setText(why);
    redraw();
}

void WhatIfPage::follow(double at) {
    const Part* part = document_.currentPart();
    const Variable* v = variable();
    if (!part || !v) return;
    double value = v->isWhole ? std::round(at) : rounded(at, to_ - from_);
    value = std::clamp(value, v->minimum, v->maximum);
    try {
        document_.editCurrent(with(*part, *v, value), tr("%1 → %2").arg(text(v->label), shownQuantity(value, v->unit)),
                              QStringLiteral("what-if %1 %2").arg(text(v->name)).arg(bout_));
    } catch (const InputFault& fault) {
        state_->setText(Fault::from(fault).sentence());
    }
    plot_->setCursorValue(value);
}

bool WhatIfPage::exportTo(const QString& file) {
    bool done = false;
    if (file.endsWith(QLatin1String(".csv"), Qt::CaseInsensitive)) {
        QSaveFile out(file);
        const std::string csv = sweepCsv(gathered());
        done = out.open(QIODevice::WriteOnly) && out.write(csv.data(), qint64(csv.size())) == qint64(csv.size()) &&
               out.commit();
    } else {
        const QString source = tr("%1, part %2, Waybench %3, %4")
                                   .arg(document_.name(), text(partName_), QStringLiteral(WAYBENCH_VERSION),
                                        text(document_.project().date));
        done = plot_->exportTo(file, source);
    }
    if (done)
        Q_EMIT noted(tr("Exported %1").arg(QFileInfo(file).fileName()));
    else
        Q_EMIT faulted({QStringLiteral("cannot_write"),
                        file,
                        {},
                        tr("the curves could not be written"),
                        tr("choose another folder or free some space")});
    return done;
}

void WhatIfPage::paintEvent(QPaintEvent*) {
    QPainter painter(this);
    painter.fillRect(rect(), colours().ground);
}

}  // namespace waybench
