#include "app/window/start_page.h"

#include <QFileInfo>
#include <QHBoxLayout>
#include <QLabel>
#include <QPainter>
#include <QPushButton>
#include <QVBoxLayout>
#include <algorithm>

#include "app/document/document.h"
#include "app/style/route_mark.h"
#include "app/style/theme.h"

namespace waybench {

namespace {

QLabel* words(const QString& text, TextSize size, QFont::Weight weight, QWidget* parent) {
    auto* label = new QLabel(text, parent);
    label->setFont(textFont(size, weight));
    label->setWordWrap(true);
    return label;
}

}  // namespace

StartPage::StartPage(QWidget* parent) : QWidget(parent) {
    auto* column = new QVBoxLayout;
    column->setSpacing(space(3));
    column->addWidget(words(tr("Print it or machine it?"), TextSize::display, QFont::DemiBold, this));
    column->addWidget(words(tr("Both ways computed for each part of your rig, side by side, with their bounds."),
                            TextSize::lead, QFont::Normal, this));
    column->addSpacing(space(4));

    auto* demo = new QPushButton(tr("Open the &demo rig"), this);
    demo->setObjectName(QStringLiteral("open demo"));
    demo->setDefault(true);
    auto* drawing = new QPushButton(tr("New part from a drawing or &body …"), this);
    auto* fresh = new QPushButton(tr("&New rig with a parametric plate"), this);
    auto* open = new QPushButton(tr("&Open a project …"), this);
    connect(demo, &QPushButton::clicked, this, &StartPage::demoAsked);
    connect(drawing, &QPushButton::clicked, this, &StartPage::drawingAsked);
    connect(fresh, &QPushButton::clicked, this, &StartPage::newAsked);
    connect(open, &QPushButton::clicked, this, &StartPage::openAsked);
    for (QPushButton* button : {demo, drawing, fresh, open})
        column->addWidget(button, 0, Qt::AlignLeft);

    column->addSpacing(space(4));
    column->addWidget(words(tr("From a drawing to an answer"), TextSize::title, QFont::DemiBold, this));
    column->addWidget(words(tr("1  Shape: a DXF profile and its thickness, a closed body, or one of our families."),
                            TextSize::body, QFont::Normal, this));
    column->addWidget(words(tr("2  Load: click the face that is held, the face that is loaded, the face that counts; "
                               "type the force and the deflection it may have."),
                            TextSize::body, QFont::Normal, this));
    column->addWidget(words(tr("3  Compare: read the verdict, drag a wall thickness, hand on the page."),
                            TextSize::body, QFont::Normal, this));
    auto* recent = words(recentList(), TextSize::body, QFont::Normal, this);
    recent->setTextInteractionFlags(Qt::TextBrowserInteraction);
    recent->setVisible(!recent->text().isEmpty());
    connect(recent, &QLabel::linkActivated, this, &StartPage::recentAsked);
    column->addSpacing(space(4));
    column->addWidget(recent);

    auto* outer = new QVBoxLayout(this);
    auto* block = new QWidget(this);
    block->setLayout(column);
    block->setMaximumWidth(QFontMetrics(textFont(TextSize::body)).averageCharWidth() * 90);
    outer->addStretch(2);
    // Between stretches, not aligned: an aligned widget is not asked for the height its wrapped words need.
    auto* middle = new QHBoxLayout;
    middle->addStretch(1);
    middle->addWidget(block, 100);
    middle->addStretch(1);
    outer->addLayout(middle);
    outer->addStretch(3);
}

void StartPage::paintEvent(QPaintEvent*) {
    QPainter painter(this);
    // Both routes' marks, large and faint, printed left and machined right as everywhere else.
    painter.setOpacity(0.14);
    const double side = std::min(width(), height()) * 0.42, top = (height() - side) / 2;
    paintRouteMark(painter, QRectF(-side * 0.3, top, side, side), RouteMark::printed);
    paintRouteMark(painter, QRectF(width() - side * 0.7, top, side, side), RouteMark::machined);
}

QString StartPage::recentList() const {
    QString html;
    for (const QString& file : Document::recentFiles()) {
        const QString name = QFileInfo(file).fileName().toHtmlEscaped();
        html += QFileInfo::exists(file) ? QStringLiteral("<br><a href=\"%1\">%2</a>").arg(file.toHtmlEscaped(), name)
                                        : QStringLiteral("<br>%1").arg(tr("%1 (no longer there)").arg(name));
    }
    return html.isEmpty() ? html : tr("Recent projects") + html;
}

}  // namespace waybench
