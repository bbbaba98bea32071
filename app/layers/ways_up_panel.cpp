#include "app/layers/ways_up_panel.h"

#include <QClipboard>
#include <QGuiApplication>
#include <QHBoxLayout>
#include <QHeaderView>
#include <QKeyEvent>
#include <QLabel>
#include <QPainter>
#include <QPushButton>
#include <QTableWidget>
#include <QVBoxLayout>
#include <algorithm>

#include "app/layers/time_share.h"
#include "app/style/shown_figure.h"
#include "app/style/theme.h"

namespace waybench {

namespace {

enum Column { up, deflection, margin, support, holes, height, time, why, columns };

/// Words on the table's ground, a rule below.
class FlatHeader : public QHeaderView {
public:
    explicit FlatHeader(QWidget* parent) : QHeaderView(Qt::Horizontal, parent) {}

protected:
    void paintSection(QPainter* painter, const QRect& area, int section) const override {
        painter->fillRect(area, colours().sheet);
        painter->setFont(textFont(TextSize::small));
        painter->setPen(colours().muted);
        const auto side = Qt::Alignment(model()->headerData(section, orientation(), Qt::TextAlignmentRole).toInt());
        painter->drawText(area.adjusted(4, 0, -4, 0), side | Qt::AlignVCenter,
                          model()->headerData(section, orientation()).toString());
        painter->setPen(colours().rule);
        painter->drawLine(area.bottomLeft(), area.bottomRight());
    }
};

QString shownSupport(const printed::WayUp& way) {
    if (way.support_mm3.value <= 0) return WaysUpPanel::tr("none");
    return shown(way.support_mm3.in(Unit::none, 1e-3)).value + QChar(0x202f) + QStringLiteral("cm³");
}

QString signOf(printed::Holding holding) {
    return holding == printed::Holding::holds       ? QString()
           : holding == printed::Holding::uncertain ? QStringLiteral("? ")
                                                    : QStringLiteral("✗ ");
}

QString directionText(const printed::Stance& stance) {
    return QString::fromStdString(printed::upText(stance)).replace(QLatin1Char('-'), QChar(0x2212));
}

bool isStance(const printed::WayUp& way, const printed::Stance& stance) {
    return static_cast<const printed::Stance&>(way) == stance;
}

}  // namespace

WaysUpPanel::WaysUpPanel(QWidget* parent) : QWidget(parent) {
    auto* heading = new QLabel(tr("Which way up"), this);
    heading->setFont(textFont(TextSize::lead, QFont::DemiBold));
    state_ = new QLabel(this);
    state_->setObjectName(QStringLiteral("ways up state"));
    state_->setFont(textFont(TextSize::small));
    state_->setForegroundRole(QPalette::PlaceholderText);
    state_->setWordWrap(true);
    use_ = new QPushButton(tr("&Use this way up"), this);
    use_->setObjectName(QStringLiteral("use this way up"));
    use_->setEnabled(false);
    table_ = new QTableWidget(0, columns, this);
    table_->setObjectName(QStringLiteral("ways up"));
    table_->setAccessibleName(tr("Ways up, best first"));
    table_->setHorizontalHeader(new FlatHeader(table_));
    table_->setHorizontalHeaderLabels({tr("up"),
                                       {},
                                       {},
                                       tr("support"),
                                       tr("round holes"),
                                       tr("build height"),
                                       tr("print time"),
                                       tr("why it stands there")});
    for (int c = 0; c < columns; ++c)
        table_->horizontalHeaderItem(c)->setTextAlignment(c == up || c == why ? Qt::AlignLeft : Qt::AlignRight);
    table_->setToolTip(tr("A double click takes the way up over."));
    table_->verticalHeader()->hide();
    table_->setSelectionBehavior(QAbstractItemView::SelectRows);
    table_->setSelectionMode(QAbstractItemView::SingleSelection);
    table_->setEditTriggers(QAbstractItemView::NoEditTriggers);
    table_->setShowGrid(false);
    table_->setTabKeyNavigation(false);
    table_->setHorizontalScrollMode(QAbstractItemView::ScrollPerPixel);
    table_->horizontalHeader()->setHighlightSections(false);
    table_->horizontalHeader()->setSectionResizeMode(QHeaderView::ResizeToContents);
    table_->horizontalHeader()->setSectionResizeMode(why, QHeaderView::Stretch);
    table_->installEventFilter(this);

    auto* line = new QHBoxLayout;
    line->setSpacing(space(3));
    line->addWidget(heading);
    line->addWidget(state_, 1);
    line->addWidget(use_);
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(space(1));
    column->addLayout(line);
    column->addWidget(table_, 1);
    connect(table_, &QTableWidget::itemSelectionChanged, this, &WaysUpPanel::showChoice);
    connect(table_, &QTableWidget::cellDoubleClicked, this, [this] {
        if (use_->isEnabled()) use_->click();
    });
    connect(use_, &QPushButton::clicked, this, [this] {
        if (const auto stance = selected()) Q_EMIT chosen(*stance);
    });
    fillHeads();
    connect(&Theme::instance(), &Theme::changed, this, &WaysUpPanel::fill);
}

void WaysUpPanel::say(const QString& words) {
    state_->setText(words);
}

void WaysUpPanel::showWays(std::shared_ptr<const std::vector<printed::WayUp>> ways) {
    ways_ = std::move(ways);
    fill();
}

void WaysUpPanel::setCurrent(const printed::Stance& stance) {
    now_ = stance;
    fill();
}

void WaysUpPanel::setFinal(std::shared_ptr<const RouteOutcome> outcome) {
    if (outcome == final_) return;
    final_ = std::move(outcome);
    fill();
}

std::optional<printed::Stance> WaysUpPanel::selected() const {
    const int row = table_->currentRow();
    if (!ways_ || row < 0 || row >= int(ways_->size()) || table_->selectedItems().isEmpty()) return std::nullopt;
    return (*ways_)[std::size_t(row)];
}

void WaysUpPanel::fill() {
    const auto kept = selected();
    const QSignalBlocker quiet(table_);
    table_->setRowCount(ways_ ? int(ways_->size()) : 0);
    for (int row = 0; row < table_->rowCount(); ++row) {
        const printed::WayUp& way = (*ways_)[std::size_t(row)];
        fillRow(row, isStance(way, now_) && final_ ? printed::answered(way, *final_, row == 0) : way);
        if (kept && isStance(way, *kept)) table_->selectRow(row);
    }
    fillHeads();
    fitHeight();
    showChoice();
}

void WaysUpPanel::fillRow(int row, const printed::WayUp& way) {
    const bool isNow = isStance(way, now_);
    const auto put = [&](Column column, const QString& words, printed::Holding holding = printed::Holding::holds) {
        auto* item = new QTableWidgetItem(signOf(holding) + words);
        item->setTextAlignment((column == up || column == why ? Qt::AlignLeft : Qt::AlignRight) | Qt::AlignVCenter);
        item->setFont(textFont(TextSize::body, isNow && column == up ? QFont::DemiBold : QFont::Normal));
        if (holding == printed::Holding::fails) item->setForeground(colours().fault);
        if (holding == printed::Holding::uncertain) item->setForeground(colours().caution);
        table_->setItem(row, column, item);
    };
    const auto judged = [&](Column column, const printed::Judged& j) {
        put(column, shownAlike(j.figure, j.figure, j.limit).first.fullText(), j.holding);
        const QString limit = column == deflection ? tr("At most %1").arg(shownQuantity(j.limit, Unit::millimetre))
                                                   : tr("At least %1").arg(shownNumber(j.limit));
        table_->item(row, column)->setToolTip(limit + tr(", under '%1'").arg(text(j.loadCase)));
    };
    put(up, !isNow   ? directionText(way)
            : final_ ? tr("%1 (now, final)").arg(directionText(way))
                     : tr("%1 (now)").arg(directionText(way)));
    judged(deflection, way.deflection);
    judged(margin, way.strength);
    put(support, shownSupport(way));
    put(holes, way.holes > 0 ? tr("%1 of %2").arg(way.roundHoles).arg(way.holes) : QStringLiteral("–"));
    put(Column::height, shownBriefly(way.height_mm, Unit::millimetre),
        way.fitsPrinter ? printed::Holding::holds : printed::Holding::fails);
    put(time, shown(way.machineTime).fullText());
    put(why, text(way.why));
    table_->item(row, why)->setToolTip(text(way.why));
}

void WaysUpPanel::fillHeads() {
    const auto limitOf = [&](printed::Judged printed::WayUp::*member) -> std::optional<double> {
        if (!ways_ || ways_->empty()) return std::nullopt;
        const double limit = (ways_->front().*member).limit;
        const bool isShared = std::all_of(ways_->begin(), ways_->end(),
                                          [&](const printed::WayUp& way) { return (way.*member).limit == limit; });
        return isShared ? std::optional(limit) : std::nullopt;
    };
    const auto allowed = limitOf(&printed::WayUp::deflection), asked = limitOf(&printed::WayUp::strength);
    table_->horizontalHeaderItem(deflection)
        ->setText(allowed ? tr("deflection (≤ %1)").arg(shownQuantity(*allowed, Unit::millimetre)) : tr("deflection"));
    table_->horizontalHeaderItem(margin)->setText(asked ? tr("margin (≥ %1)").arg(shownNumber(*asked))
                                                        : tr("strength margin"));
}

void WaysUpPanel::fitHeight() {
    table_->resizeRowsToContents();
    const int one = QFontMetrics(textFont(TextSize::body)).height() + 4;
    int tall = 0;
    for (int row = 0; row < table_->rowCount(); ++row)
        tall += table_->rowHeight(row);
    table_->setFixedHeight(std::max(tall, 6 * one) + table_->horizontalHeader()->sizeHint().height() +
                           2 * table_->frameWidth() + 2);
}

void WaysUpPanel::resizeEvent(QResizeEvent*) {
    QMetaObject::invokeMethod(this, &WaysUpPanel::fitHeight, Qt::QueuedConnection);  // after the table's own layout
}

void WaysUpPanel::showChoice() {
    const auto up = selected();
    use_->setEnabled(up && *up != now_);
}

QString WaysUpPanel::asText() const {
    QStringList lines;
    QStringList heads;
    for (int c = 0; c < columns; ++c)
        heads << table_->horizontalHeaderItem(c)->text();
    lines << heads.join(QLatin1Char('\t'));
    for (int row = 0; row < table_->rowCount(); ++row) {
        QStringList cells;
        for (int c = 0; c < columns; ++c)
            cells << table_->item(row, c)->text();
        lines << cells.join(QLatin1Char('\t'));
    }
    return lines.join(QLatin1Char('\n')) + QLatin1Char('\n');
}

bool WaysUpPanel::eventFilter(QObject* watched, QEvent* event) {
    if (watched == table_ && event->type() == QEvent::KeyPress) {
        auto* key = static_cast<QKeyEvent*>(event);
        if (key->matches(QKeySequence::Copy)) {
            QGuiApplication::clipboard()->setText(asText());
            return true;
        }
        if ((key->key() == Qt::Key_Return || key->key() == Qt::Key_Enter) && use_->isEnabled()) {
            use_->click();
            return true;
        }
    }
    return QWidget::eventFilter(watched, event);
}

}  // namespace waybench
