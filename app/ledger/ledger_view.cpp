#include "app/ledger/ledger_view.h"

#include <QAccessible>
#include <QApplication>
#include <QClipboard>
#include <QContextMenuEvent>
#include <QHelpEvent>
#include <QKeyEvent>
#include <QMenu>
#include <QMimeData>
#include <QPainter>
#include <QScrollBar>
#include <QToolTip>
#include <algorithm>
#include <cmath>

#include "app/ledger/ledger_painter.h"
#include "app/style/shown_figure.h"
#include "app/style/theme.h"
#include "core/quantity/quantity_text.h"

namespace waybench {

LedgerView::LedgerView(QWidget* parent) : QAbstractScrollArea(parent) {
    setFrameShape(QFrame::NoFrame);
    setFocusPolicy(Qt::StrongFocus);
    setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    viewport()->setMouseTracking(true);
    viewport()->setAutoFillBackground(false);
    setAccessibleName(tr("Ledger"));
    setAccessibleDescription(tr("Nothing computed yet"));
    connect(&Theme::instance(), &Theme::changed, viewport(), qOverload<>(&QWidget::update));
    layOut();
}

QSize LedgerView::sizeHint() const {
    return {space(190), space(80)};
}
QSize LedgerView::minimumSizeHint() const {
    return {space(120), space(30)};
}

int LedgerView::rowCount() const {
    return comparison_ ? int(comparison_->ledger.size()) : 0;
}

const LedgerRow* LedgerView::row(int index) const {
    return index >= 0 && index < rowCount() ? &comparison_->ledger[std::size_t(index)] : nullptr;
}

void LedgerView::showComparison(std::shared_ptr<const Comparison> comparison) {
    comparison_ = std::move(comparison);
    selected_ = std::clamp(selected_, 0, std::max(0, rowCount() - 1));
    layOut();
    viewport()->update();
    setAccessibleDescription(accessibleRowText(selected_));
    Q_EMIT rowSelected(selected_);
}

void LedgerView::setStale(bool stale) {
    if (stale_ == stale) return;
    stale_ = stale;
    viewport()->update();
}

LedgerColumns LedgerView::columnsNow() const {
    return LedgerColumns::fitting(viewport()->width(),
                                  comparison_ ? std::span(comparison_->ledger) : std::span<const LedgerRow>());
}

void LedgerView::layOut() {
    const LedgerColumns columns = columnsNow();
    tops_.assign(1, 0);
    for (int k = 0; k < rowCount(); ++k)
        tops_.push_back(tops_.back() + int(std::ceil(ledgerRowHeight(*row(k), columns))));
    verticalScrollBar()->setRange(0, std::max(0, tops_.back() - viewport()->height()));
    verticalScrollBar()->setPageStep(viewport()->height());
    verticalScrollBar()->setSingleStep(space(7));
}

QRect LedgerView::rowRect(int index) const {
    if (!row(index)) return {};
    const int top = tops_[std::size_t(index)];
    return {0, top - verticalScrollBar()->value(), viewport()->width(), tops_[std::size_t(index) + 1] - top};
}

int LedgerView::rowAt(int y) const {
    const int at = y + verticalScrollBar()->value();
    for (int k = 0; k < rowCount(); ++k)
        if (at >= tops_[std::size_t(k)] && at < tops_[std::size_t(k) + 1]) return k;
    return -1;
}

void LedgerView::selectRow(int index) {
    if (!row(index)) return;
    selected_ = index;
    const int top = tops_[std::size_t(index)], bottom = tops_[std::size_t(index) + 1];
    QScrollBar* bar = verticalScrollBar();
    if (top < bar->value()) bar->setValue(top);
    if (bottom > bar->value() + viewport()->height()) bar->setValue(bottom - viewport()->height());
    viewport()->update();
    setAccessibleDescription(accessibleRowText(index));
    QAccessibleEvent event(this, QAccessible::DescriptionChanged);
    QAccessible::updateAccessibility(&event);
    Q_EMIT rowSelected(index);
}

QString LedgerView::accessibleRowText(int index) const {
    const LedgerRow* r = row(index);
    if (!r) return tr("Nothing computed yet");
    const auto [printed, machined] = shownAlike(r->printed, r->machined, r->limit);
    QString s = tr("%1, printed %2, machined %3").arg(text(r->title), printed.fullText(), machined.fullText());
    if (r->limit) s += tr(", limit %1").arg(shownQuantity(*r->limit, r->unit));
    if (!r->aheadText.empty()) s += QStringLiteral(", ") + text(r->aheadText);
    if (stale_) s += tr(", being recomputed");
    return s;
}

QString LedgerView::tableText() const {
    QString table = QStringLiteral(
        "question\tunit\tprinted\tprinted low\tprinted high\tmachined\tmachined low\tmachined high\tlimit\tahead\n");
    for (int k = 0; k < rowCount(); ++k) {
        const LedgerRow& r = *row(k);
        QStringList cells{text(r.title), text(symbolOf(r.unit))};
        for (const Figure* f : {&r.printed, &r.machined})
            for (const double v : {f->value, f->low, f->high})
                cells << text(plainNumber(v));
        cells << (r.limit ? text(plainNumber(*r.limit)) : QString()) << text(r.aheadText);
        table += cells.join(QLatin1Char('\t')) + QLatin1Char('\n');
    }
    return table;
}

void LedgerView::copyTable() const {
    auto* mime = new QMimeData;
    const QString table = tableText();
    mime->setText(table);
    mime->setData(QStringLiteral("text/tab-separated-values"), table.toUtf8());
    QApplication::clipboard()->setMimeData(mime);
}

void LedgerView::paintEvent(QPaintEvent*) {
    QPainter painter(viewport());
    painter.fillRect(viewport()->rect(), colours().sheet);
    if (!comparison_) {
        painter.setPen(colours().muted);
        painter.drawText(
            viewport()->rect().adjusted(space(6), space(3), -space(6), -space(3)), Qt::AlignCenter | Qt::TextWordWrap,
            tr("Hold a face, load a face and say where the deflection is measured. Click a face in a view, "
               "or choose it at the right; the ledger then fills itself."));
        return;
    }
    const LedgerColumns columns = columnsNow();
    for (int k = 0; k < rowCount(); ++k) {
        const QRect box = rowRect(k);
        if (box.bottom() < 0 || box.top() > viewport()->height()) continue;
        paintLedgerRow(painter, box, columns, *row(k),
                       {.selected = k == selected_, .hovered = k == hovered_, .focused = hasFocus(), .stale = stale_});
    }
}

void LedgerView::resizeEvent(QResizeEvent*) {
    layOut();
}

void LedgerView::mousePressEvent(QMouseEvent* event) {
    if (const int k = rowAt(event->position().toPoint().y()); k >= 0) selectRow(k);
}

void LedgerView::mouseMoveEvent(QMouseEvent* event) {
    const int k = rowAt(event->position().toPoint().y());
    if (k != hovered_) {
        hovered_ = k;
        viewport()->update();
    }
}

void LedgerView::leaveEvent(QEvent*) {
    hovered_ = -1;
    viewport()->update();
}

void LedgerView::keyPressEvent(QKeyEvent* event) {
    if (event->matches(QKeySequence::Copy)) return copyTable();
    const int page = std::max(1, viewport()->height() / space(8));
    switch (event->key()) {
        case Qt::Key_Up:
            return selectRow(std::max(0, selected_ - 1));
        case Qt::Key_Down:
            return selectRow(std::min(rowCount() - 1, selected_ + 1));
        case Qt::Key_Home:
            return selectRow(0);
        case Qt::Key_End:
            return selectRow(rowCount() - 1);
        case Qt::Key_PageUp:
            return selectRow(std::max(0, selected_ - page));
        case Qt::Key_PageDown:
            return selectRow(std::min(rowCount() - 1, selected_ + page));
        default:
            QAbstractScrollArea::keyPressEvent(event);
    }
}

void LedgerView::focusInEvent(QFocusEvent* event) {
    QAbstractScrollArea::focusInEvent(event);
    viewport()->update();
}
void LedgerView::focusOutEvent(QFocusEvent* event) {
    QAbstractScrollArea::focusOutEvent(event);
    viewport()->update();
}

void LedgerView::contextMenuEvent(QContextMenuEvent* event) {
    QMenu menu(this);
    menu.addAction(tr("Copy the ledger as a table"), QKeySequence::Copy, this, &LedgerView::copyTable);
    menu.exec(event->globalPos());
}

bool LedgerView::viewportEvent(QEvent* event) {
    if (event->type() == QEvent::ToolTip) {
        const auto* help = static_cast<QHelpEvent*>(event);
        if (const LedgerRow* r = row(rowAt(help->pos().y()))) {
            const auto [printed, machined] = shownAlike(r->printed, r->machined, r->limit);
            QToolTip::showText(help->globalPos(),
                               tr("<p><b>%1</b><br>%2</p><p>printed %3<br>machined %4</p>")
                                   .arg(text(r->title).toHtmlEscaped(), text(r->meaning).toHtmlEscaped(),
                                        printed.fullText().toHtmlEscaped(), machined.fullText().toHtmlEscaped()),
                               viewport());
        }
        return true;
    }
    return QAbstractScrollArea::viewportEvent(event);
}

void LedgerView::changeEvent(QEvent* event) {
    QAbstractScrollArea::changeEvent(event);
    if (event->type() == QEvent::FontChange) layOut();
}

}  // namespace waybench
