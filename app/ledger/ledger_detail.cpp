#include "app/ledger/ledger_detail.h"

#include <QGridLayout>
#include <QLabel>
#include <QPainter>
#include <QScrollArea>
#include <QVBoxLayout>

#include "app/ledger/ledger_further.h"
#include "app/style/shown_figure.h"
#include "app/style/theme.h"

namespace waybench {

namespace {
QLabel* selectable(QWidget* parent, Qt::Alignment alignment, const QString& name) {
    auto* label = new QLabel(parent);
    label->setWordWrap(true);
    label->setTextFormat(Qt::PlainText);
    label->setTextInteractionFlags(Qt::TextSelectableByMouse | Qt::TextSelectableByKeyboard);
    label->setAlignment(alignment | Qt::AlignTop);
    label->setAccessibleName(name);
    label->setFont(textFont(TextSize::small));
    label->setMinimumWidth(1);
    return label;
}

QString working(const Figure& figure, const ShownFigure& asInTheRow, const std::string& how, const QString& further) {
    QString s = asInTheRow.fullText();
    if (!further.isEmpty()) s += QStringLiteral("\n") + further;
    if (!how.empty()) s += QStringLiteral("\n") + text(how);
    if (!figure.note.empty() && figure.note != how) s += QStringLiteral("\n") + text(figure.note);
    return s;
}
}  // namespace

LedgerDetail::LedgerDetail(QWidget* parent) : QWidget(parent) {
    auto* content = new QWidget;
    auto* scroll = new QScrollArea(this);
    scroll->setWidget(content);
    scroll->setWidgetResizable(true);
    scroll->setFrameShape(QFrame::NoFrame);
    scroll->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    scroll->viewport()->setAutoFillBackground(false);
    content->setAutoFillBackground(false);
    scroll->setAccessibleName(tr("How the figures were worked out"));
    auto* whole = new QVBoxLayout(this);
    whole->setContentsMargins(0, 0, 0, 0);
    whole->addWidget(scroll);
    setFixedHeight(QFontMetrics(textFont(TextSize::small)).height() * 6 + space(6));
    auto* grid = new QGridLayout(content);
    grid->setContentsMargins(space(3), space(2), space(3), space(2));
    grid->setHorizontalSpacing(space(6));
    grid->setVerticalSpacing(space(1));
    heading_ = selectable(this, Qt::AlignHCenter, tr("What the row counts"));
    printed_ = selectable(this, Qt::AlignLeft, tr("Working, printed"));
    machined_ = selectable(this, Qt::AlignLeft, tr("Working, machined"));
    grid->addWidget(heading_, 0, 0, 1, 2);
    grid->addWidget(printed_, 1, 0);
    grid->addWidget(machined_, 1, 1);
    grid->setColumnStretch(0, 1);
    grid->setColumnStretch(1, 1);
    grid->setRowStretch(2, 1);
    connect(&Theme::instance(), &Theme::changed, this, qOverload<>(&QWidget::update));
    showRow(nullptr, nullptr);
}

void LedgerDetail::showRow(const LedgerRow* row, const Comparison* comparison) {
    if (!row || !comparison) {
        heading_->setText(tr("Choose a row to see how its figures were worked out."));
        printed_->clear();
        machined_->clear();
        return;
    }
    QString what = text(row->title) + QStringLiteral(": ") + text(row->meaning);
    if (!row->aheadText.empty()) what += QStringLiteral("  ·  ") + text(row->aheadText);
    heading_->setText(what);
    const auto [printed, machined] = shownAlike(row->printed, row->machined, row->limit);
    printed_->setText(tr("Printed: %1")
                          .arg(working(row->printed, printed, row->printedWorking,
                                       furtherText(comparison->printed, row->question, row->loadCase))));
    machined_->setText(tr("Machined: %1")
                           .arg(working(row->machined, machined, row->machinedWorking,
                                        furtherText(comparison->machined, row->question, row->loadCase))));
}

void LedgerDetail::paintEvent(QPaintEvent*) {
    QPainter painter(this);
    painter.fillRect(rect(), colours().sunken);
}

}  // namespace waybench
