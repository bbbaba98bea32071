#include "app/inspector/inspector.h"

#include <QLabel>
#include <QPainter>
#include <QScrollArea>
#include <QVBoxLayout>

#include "app/document/document.h"
#include "app/inspector/load_case_section.h"
#include "app/inspector/settings_section.h"
#include "app/inspector/shape_section.h"
#include "app/inspector/weights_section.h"
#include "app/style/theme.h"

namespace waybench {

Inspector::Inspector(Document& document, QWidget* parent) : QWidget(parent), document_(document) {
    setAccessibleName(tr("Fields"));
    scroll_ = new QScrollArea(this);
    scroll_->setWidgetResizable(true);
    scroll_->setFrameShape(QFrame::NoFrame);
    scroll_->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    scroll_->setFocusPolicy(Qt::NoFocus);
    auto* content = new QWidget;
    auto* column = new QVBoxLayout(content);
    column->setContentsMargins(space(1), space(2), space(3), space(2));
    column->setSpacing(space(2));
    loadCase_ = new LoadCaseSection(document, content);
    sections_ = {new ShapeSection(document, content), loadCase_, makeRecipeSection(document, content),
                 makePlanSection(document, content), new WeightsSection(document, content)};
    for (Section* section : sections_) {
        column->addWidget(section);
        connect(section, &Section::describeAsked, this, [this](const QString& words) { about_->setText(words); });
    }
    column->addStretch();
    scroll_->setWidget(content);
    about_ = new QLabel(this);
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
    outer->addWidget(scroll_, 1);
    outer->addWidget(about_);

    connect(&document_, &Document::currentChanged, this, &Inspector::refresh);
    connect(&document_, &Document::partsChanged, this, &Inspector::refresh);
    connect(&document_, &Document::partEdited, this, [this](int index) {
        if (index == document_.currentIndex()) refresh();
    });
    connect(&Theme::instance(), &Theme::changed, this, qOverload<>(&QWidget::update));
    refresh();
}

void Inspector::setFaces(const QStringList& names) {
    loadCase_->setFaces(names);
}

void Inspector::refresh() {
    const Part* part = document_.currentPart();
    scroll_->widget()->setEnabled(part != nullptr);
    if (!part) return;
    for (Section* section : sections_)
        section->showPart(*part);
}

void Inspector::paintEvent(QPaintEvent*) {
    QPainter painter(this);
    painter.fillRect(rect(), colours().ground);
    painter.fillRect(QRect(0, about_->y(), width(), 1), colours().rule);
}

}  // namespace waybench
