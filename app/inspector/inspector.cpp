#include "app/inspector/inspector.h"

#include <QLabel>
#include <QPainter>
#include <QScrollArea>
#include <QVBoxLayout>

#include "app/document/document.h"
#include "app/inspector/field_message.h"
#include "app/inspector/load_case_section.h"
#include "app/inspector/quantity_field.h"
#include "app/inspector/settings_section.h"
#include "app/inspector/shape_section.h"
#include "app/inspector/title_block_section.h"
#include "app/inspector/vector_field.h"
#include "app/inspector/weights_section.h"
#include "app/jobs/answer.h"
#include "app/style/shown_figure.h"
#include "app/style/theme.h"

namespace waybench {

namespace {

/// Widgets Tab may stop at, in the order of the layouts, which is the order of reading.
void collectStops(QLayout* layout, std::vector<QWidget*>& stops) {
    for (int k = 0; layout && k < layout->count(); ++k) {
        QLayoutItem* item = layout->itemAt(k);
        if (QWidget* widget = item->widget()) {
            if (qobject_cast<OriginMark*>(widget) || (widget->focusPolicy() & Qt::TabFocus))
                stops.push_back(widget);
            else
                collectStops(widget->layout(), stops);
        } else {
            collectStops(item->layout(), stops);
        }
    }
}

}  // namespace

Inspector::Inspector(Document& document, QWidget* parent) : QWidget(parent), document_(document) {
    setAccessibleName(tr("Fields"));
    strip_ = new FieldMessage(this);
    strip_->setFont(textFont(TextSize::body));
    strip_->setContentsMargins(space(4), space(2), space(3), space(2));
    strip_->setAccessibleName(tr("what is wrong"));
    scroll_ = new QScrollArea(this);
    scroll_->setWidgetResizable(true);
    scroll_->setFrameShape(QFrame::NoFrame);
    scroll_->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    scroll_->setFocusPolicy(Qt::NoFocus);
    auto* content = new QWidget;
    auto* column = new QVBoxLayout(content);
    column->setContentsMargins(space(1), space(2), space(3), space(2));
    column->setSpacing(space(2));
    shape_ = new ShapeSection(document, content);
    loadCase_ = new LoadCaseSection(document, content);
    auto* recipe = makeRecipeSection(document, content);
    auto* plan = makePlanSection(document, content);
    auto* weights = new WeightsSection(document, content);
    titleBlock_ = new TitleBlockSection(document, content);
    sections_ = {shape_, loadCase_, recipe, plan, weights, titleBlock_};
    for (Section* section : sections_) {
        column->addWidget(section);
        connect(section, &Section::describeAsked, this, &Inspector::describeAsked);
        connect(section, &Section::rebuilt, this, &Inspector::orderTabs);
    }
    column->addStretch();
    scroll_->setWidget(content);
    about_ = new QLabel(this);
    about_->setObjectName(QStringLiteral("about field"));
    about_->setWordWrap(true);
    about_->setFont(textFont(TextSize::small));
    about_->setForegroundRole(QPalette::PlaceholderText);
    about_->setAlignment(Qt::AlignLeft | Qt::AlignTop);
    about_->setContentsMargins(space(4), space(2), space(3), space(2));
    about_->setFixedHeight(QFontMetrics(about_->font()).height() * 4 + space(4));
    about_->setText(
        tr("Fields take numbers with or without a unit and simple sums: 12, 1/2 in, 120-2*6. "
           "Up and Down change a value in steps."));
    auto* outer = new QVBoxLayout(this);
    outer->setContentsMargins(0, 0, 0, 0);
    outer->setSpacing(0);
    outer->addWidget(strip_);
    outer->addWidget(scroll_, 1);
    outer->addWidget(about_);
    connect(this, &Inspector::describeAsked, about_, &QLabel::setText);

    connect(&document_, &Document::currentChanged, this, &Inspector::refreshOther);
    connect(&document_, &Document::projectReset, this, &Inspector::refreshOther);
    connect(&document_, &Document::partsChanged, this, &Inspector::refresh);
    connect(&document_, &Document::partEdited, this, [this](int index) {
        if (index == document_.currentIndex()) refresh();
    });
    connect(&Theme::instance(), &Theme::changed, this, qOverload<>(&QWidget::update));
    refresh();
    orderTabs();
}

void Inspector::setFaces(const QStringList& names) {
    loadCase_->setFaces(names);
}

void Inspector::showSolids(const PartSolids& solids) {
    QStringList names;
    if (const auto& drawn = solids.printed ? solids.printed : solids.machined)
        for (const Face& face : drawn->solid->faces)
            names << text(face.name);
    setFaces(names);
    shape_->showSolids(solids);
}

void Inspector::refresh() {
    showPart(document_.currentPart());
}

void Inspector::refreshOther() {
    for (QuantityField* field : findChildren<QuantityField*>())
        field->abandon();
    for (VectorField* field : findChildren<VectorField*>())
        field->abandon();
    refresh();
}

void Inspector::showPart(const Part* part) {
    clearFault();
    for (Section* section : sections_)
        if (section != titleBlock_) section->setEnabled(part != nullptr);
    titleBlock_->showBlock();
    if (!part) return;
    for (Section* section : sections_)
        section->showPart(*part);
}

void Inspector::showFault(const Fault& fault) {
    clearFault();
    QString place = fault.placeInPart();
    // That nothing holds or loads the part is told by the code.
    if (fault.code == QLatin1String("no_support") || fault.code == QLatin1String("no_load"))
        place += QStringLiteral(", ") + fault.code;
    Fault bare = fault;
    bare.file.clear();
    bare.place.clear();
    QString words = bare.sentence();
    if (!words.isEmpty()) words[0] = words[0].toUpper();
    for (Section* section : sections_)
        if (section->showFault(place, words) && section->isOpen()) return;
    strip_->say(fault.sentence());
    update();
}

void Inspector::clearFault() {
    strip_->say({});
    for (Section* section : sections_)
        section->clearFault();
}

QString Inspector::stripText() const {
    return strip_->text();
}

void Inspector::orderTabs() {
    std::vector<QWidget*> stops;
    collectStops(scroll_->widget()->layout(), stops);
    // Marks of standard values take no focus now but may later; only widgets that do can be put in order.
    for (QWidget* stop : stops)
        if (qobject_cast<OriginMark*>(stop) && stop->focusPolicy() == Qt::NoFocus) {
            stop->setProperty("resting", true);
            stop->setFocusPolicy(Qt::TabFocus);
        }
    for (std::size_t k = 1; k < stops.size(); ++k)
        setTabOrder(stops[k - 1], stops[k]);
    for (QWidget* stop : stops)
        if (stop->property("resting").toBool()) {
            stop->setProperty("resting", false);
            stop->setFocusPolicy(Qt::NoFocus);
        }
}

void Inspector::paintEvent(QPaintEvent*) {
    QPainter painter(this);
    painter.fillRect(rect(), colours().ground);
    if (strip_->isVisible()) {
        painter.fillRect(strip_->geometry(), colours().sunken);
        painter.fillRect(QRect(0, strip_->y(), 3, strip_->height()), colours().fault);
    }
    painter.fillRect(QRect(0, about_->y(), width(), 1), colours().rule);
}

}  // namespace waybench
