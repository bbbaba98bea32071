#include "app/layers/ways_up_panel.h"

#include <QClipboard>
#include <QGuiApplication>
#include <QHBoxLayout>
#include <QHeaderView>
#include <QKeyEvent>
#include <QLabel>
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

QString shownSupport(const printed::WayUp& way) {
    if (way.support_mm3.value <= 0) return WaysUpPanel::tr("none");
    return shownBriefly(way.support_mm3.value / 1000, Unit::none) + QChar(0x202f) + QStringLiteral("cm³");
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
    table_->setHorizontalHeaderLabels({tr("up"), tr("deflection"), tr("strength margin"), tr("support"),
                                       tr("round holes"), tr("height"), tr("time"), tr("why it stands there")});
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
    table_->horizontalHeader()->setDefaultAlignment(Qt::AlignLeft | Qt::AlignVCenter);
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
    connect(use_, &QPushButton::clicked, this, [this] {
        if (const auto up = selected()) Q_EMIT chosen(*up);
    });
    connect(&Theme::instance(), &Theme::changed, this, &WaysUpPanel::fill);
}

void WaysUpPanel::say(const QString& words) {
    state_->setText(words);
}

void WaysUpPanel::showWays(std::shared_ptr<const std::vector<printed::WayUp>> ways) {
    ways_ = std::move(ways);
    fill();
}

void WaysUpPanel::setCurrentUp(Direction up) {
    now_ = up;
    fill();
}

std::optional<Direction> WaysUpPanel::selected() const {
    const int row = table_->currentRow();
    if (!ways_ || row < 0 || row >= int(ways_->size()) || table_->selectedItems().isEmpty()) return std::nullopt;
    return (*ways_)[std::size_t(row)].up;
}

void WaysUpPanel::fill() {
    const auto kept = selected();
    const QSignalBlocker quiet(table_);
    table_->setRowCount(ways_ ? int(ways_->size()) : 0);
    for (int row = 0; row < table_->rowCount(); ++row) {
        const printed::WayUp& way = (*ways_)[std::size_t(row)];
        const bool isNow = way.up == now_;
        const auto put = [&](Column column, const QString& words, bool fails = false) {
            auto* item = new QTableWidgetItem(words);
            item->setToolTip(column == why ? words : QString());
            const QFont font = textFont(TextSize::body, isNow && column == up ? QFont::DemiBold : QFont::Normal);
            item->setFont(font);
            if (fails) item->setForeground(colours().fault);
            table_->setItem(row, column, item);
        };
        const QString direction = QString::fromLatin1(nameOf(way.up)).replace(QLatin1Char('-'), QChar(0x2212));
        put(up, isNow ? tr("%1 (now)").arg(direction) : direction);
        const bool bends = way.deflectionDemand > 1, breaks = way.strengthDemand > 1;
        put(deflection, (bends ? QStringLiteral("✗ ") : QString()) + shown(way.deflection).valueText(), bends);
        put(margin, (breaks ? QStringLiteral("✗ ") : QString()) + shown(way.strengthMargin).valueText(), breaks);
        table_->item(row, deflection)->setToolTip(shown(way.deflection).fullText());
        table_->item(row, margin)->setToolTip(shown(way.strengthMargin).fullText());
        put(support, shownSupport(way));
        put(holes, way.holes > 0 ? tr("%1 of %2").arg(way.roundHoles).arg(way.holes) : QStringLiteral("–"));
        put(Column::height,
            (way.fitsPrinter ? QString() : QStringLiteral("✗ ")) + shownBriefly(way.height_mm, Unit::millimetre),
            !way.fitsPrinter);
        put(time, shown(way.machineTime).valueText());
        table_->item(row, time)->setToolTip(shown(way.machineTime).fullText());
        put(why, text(way.why));
        if (kept && way.up == *kept) table_->selectRow(row);
    }
    fitHeight();
    showChoice();
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
