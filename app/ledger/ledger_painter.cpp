#include "app/ledger/ledger_painter.h"

#include <QCoreApplication>
#include <QFontMetricsF>
#include <QPainter>
#include <QPainterPath>
#include <algorithm>
#include <cmath>

#include "app/style/route_mark.h"
#include "app/style/shown_figure.h"
#include "app/style/theme.h"

namespace waybench {

namespace {

QString tr(const char* s) {
    return QCoreApplication::translate("Ledger", s);
}

/// Wedge that points away from the spine, to the side that is ahead.
void wedge(QPainter& painter, const QPointF& centre, double size, bool toLeft, const QColor& colour) {
    const double d = toLeft ? -1 : 1;
    QPainterPath path(centre + QPointF(d * size * 0.7, 0));
    path.lineTo(centre + QPointF(-d * size * 0.45, -size * 0.65));
    path.lineTo(centre + QPointF(-d * size * 0.45, size * 0.65));
    path.closeSubpath();
    painter.fillPath(path, colour);
}

struct BarScale {
    double perUnit = 0;
    double limitAt = -1;  ///< px from the spine, negative = none
};

BarScale scaleFor(const LedgerRow& row, double length) {
    double most = 0;
    for (const Figure* f : {&row.printed, &row.machined})
        most = std::max({most, std::abs(f->value), std::abs(f->high), std::abs(f->low)});
    const double widest = most;
    if (row.limit) most = std::max(most, std::abs(*row.limit));
    // A limit far beyond both figures would shrink the bars to nothing: it is then drawn at the end, as an arrow.
    if (row.limit && widest > 0 && most > 8 * widest) most = 8 * widest;
    BarScale scale;
    if (most > 0) scale.perUnit = (length - 10) / most;
    if (row.limit) scale.limitAt = std::min(std::abs(*row.limit) * scale.perUnit, length - 4);
    return scale;
}

void paintBar(QPainter& painter, double spineX, double y, double height, const Figure& figure, const BarScale& scale,
              RouteKind kind, bool stale) {
    const double d = kind == RouteKind::printed ? -1 : 1;
    const double length = std::abs(figure.value) * scale.perUnit;
    QColor colour = colourOf(kind);
    if (stale) colour.setAlphaF(0.45f);
    QRectF bar(spineX, y - height / 2, d * length, height);
    bar = bar.normalized();
    if (kind == RouteKind::printed) {
        painter.setPen(Qt::NoPen);
        painter.setBrush(colour);
        painter.drawRect(bar);
    } else {
        QColor wash = colour;
        wash.setAlphaF(stale ? 0.08f : 0.18f);
        painter.setPen(QPen(colour, 1.6));
        painter.setBrush(wash);
        painter.drawRect(bar.adjusted(0, 0.8, -0.8, -0.8));
    }
    if (figure.low < figure.high) {
        const double a =
            spineX + d * std::max(0.0, std::min(std::abs(figure.low), std::abs(figure.high))) * scale.perUnit;
        const double b = spineX + d * std::max(std::abs(figure.low), std::abs(figure.high)) * scale.perUnit;
        const QColor ink = colours().text;
        const double tick = height * 0.34;
        painter.setPen(QPen(colours().sheet, 3.4));
        painter.drawLine(QPointF(a, y), QPointF(b, y));
        painter.setPen(QPen(ink, 1.4));
        painter.drawLine(QPointF(a, y), QPointF(b, y));
        painter.drawLine(QPointF(a, y - tick), QPointF(a, y + tick));
        painter.drawLine(QPointF(b, y - tick), QPointF(b, y + tick));
    }
}

void paintLimit(QPainter& painter, double x, double y, double height, bool upper, double outward) {
    const QColor ink = colours().fault;
    painter.setPen(QPen(ink, 2));
    painter.drawLine(QPointF(x, y - height / 2 - 4), QPointF(x, y + height / 2 + 4));
    // Short hatch strokes lie on the failing side.
    painter.setPen(QPen(ink, 1.2));
    const double away = upper ? outward : -outward;
    for (int k = 0; k < 3; ++k) {
        const double yy = y - height / 2 - 1 + k * (height / 2 + 1);
        painter.drawLine(QPointF(x, yy + 2), QPointF(x + away * 4, yy - 2));
    }
}

}  // namespace

LedgerColumns LedgerColumns::fitting(double width, std::span<const LedgerRow> rows) {
    const QFontMetricsF body(textFont(TextSize::body, QFont::DemiBold)), small(textFont(TextSize::small));
    LedgerColumns c;
    c.left = space(2);
    c.right = width - space(2);
    c.word = small.horizontalAdvance(tr("ahead")) + space(4);
    double title = 0;
    for (const LedgerRow& row : rows) {
        const auto [printed, machined] = shownAlike(row.printed, row.machined, row.limit);
        for (const ShownFigure* f : {&printed, &machined}) {
            c.value = std::max(c.value, body.horizontalAdvance(f->valueText()));
            c.band = std::max(c.band, small.horizontalAdvance(f->bandText()));
        }
        title = std::max(title, body.horizontalAdvance(text(row.title)));
    }
    c.value += space(3);
    c.band += space(3);
    const double spine = std::max(title + space(4), width * 0.15);
    c.spineLeft = width / 2 - spine / 2;
    c.spineRight = width / 2 + spine / 2;
    c.bandsBelow = c.barLength() < space(18);
    if (c.bandsBelow) c.value = std::max(c.value, c.band);
    return c;
}

double ledgerRowHeight(const LedgerRow& row, const LedgerColumns& columns) {
    const double one = QFontMetricsF(textFont(TextSize::body)).height();
    const double two = one + QFontMetricsF(textFont(TextSize::small)).height();
    return (row.limit || columns.bandsBelow ? two : one) + space(3);
}

void paintLedgerRow(QPainter& painter, const QRectF& box, const LedgerColumns& columns, const LedgerRow& row,
                    const LedgerRowState& state) {
    const Palette& c = colours();
    painter.save();
    painter.setRenderHint(QPainter::Antialiasing);
    if (state.selected || state.hovered) painter.fillRect(box, state.selected ? c.sunken : c.ground);
    painter.setPen(QPen(c.rule, 1));
    painter.drawLine(QPointF(box.left() + columns.left, box.bottom() - 0.5),
                     QPointF(box.left() + columns.right, box.bottom() - 0.5));
    if (state.selected && state.focused) {
        painter.setPen(QPen(c.accent, 2));
        painter.setBrush(Qt::NoBrush);
        painter.drawRect(box.adjusted(1, 1, -1, -1));
    }

    const double x0 = box.left(), y = box.center().y();
    const auto [printed, machined] = shownAlike(row.printed, row.machined, row.limit);
    const QFont valueFont = textFont(TextSize::body, QFont::DemiBold), plainFont = textFont(TextSize::body);
    const QFont smallFont = textFont(TextSize::small);

    // Spine: the question, its limit below.
    const QRectF spine(x0 + columns.spineLeft, box.top(), columns.spineRight - columns.spineLeft, box.height());
    painter.setPen(c.text);
    painter.setFont(plainFont);
    const QString title = text(row.title);
    if (row.limit) {
        const double titleHeight = QFontMetricsF(plainFont).height(), limitHeight = QFontMetricsF(smallFont).height();
        const double top = y - (titleHeight + limitHeight) / 2;
        painter.drawText(QRectF(spine.left(), top, spine.width(), titleHeight), Qt::AlignCenter, title);
        painter.setFont(smallFont);
        painter.setPen(c.fault);
        const QString limit =
            (row.limitIsUpper ? tr("at most %1") : tr("at least %1")).arg(shownQuantity(*row.limit, row.unit));
        painter.drawText(QRectF(spine.left(), top + titleHeight, spine.width(), limitHeight), Qt::AlignCenter, limit);
    } else {
        painter.drawText(spine, Qt::AlignCenter,
                         QFontMetricsF(plainFont).elidedText(title, Qt::ElideRight, spine.width() - 4));
    }
    painter.setPen(QPen(c.mark, 1));
    for (const double x : {spine.left(), spine.right()})
        painter.drawLine(QPointF(x, box.top()), QPointF(x, box.bottom()));

    const double length = columns.barLength();
    const BarScale scale = scaleFor(row, length);
    const double barHeight = space(2) + 2;
    for (const RouteKind kind : {RouteKind::printed, RouteKind::machined}) {
        const bool left = kind == RouteKind::printed;
        const ShownFigure& figure = left ? printed : machined;
        const bool ahead = row.ahead == (left ? LedgerRow::Ahead::printed : LedgerRow::Ahead::machined);
        const double spineX = left ? spine.left() : spine.right();
        paintBar(painter, spineX, y, barHeight, left ? row.printed : row.machined, scale, kind, state.stale);
        if (scale.limitAt >= 0)
            paintLimit(painter, spineX + (left ? -1 : 1) * scale.limitAt, y, barHeight, row.limitIsUpper,
                       left ? -1 : 1);

        // Text columns, from the margin inwards.
        const double edge = x0 + (left ? columns.left : columns.right);
        const double in = left ? 1 : -1;
        const auto column = [&](double from, double width) {
            const double a = edge + in * from, b = edge + in * (from + width);
            return QRectF(QPointF(std::min(a, b), box.top()), QPointF(std::max(a, b), box.bottom()));
        };
        const QColor ink = state.stale ? c.muted : textColourOf(kind);
        const auto outwards = Qt::AlignVCenter | (left ? Qt::AlignLeft : Qt::AlignRight);
        if (ahead) {
            const QRectF cell = column(0, columns.word);
            wedge(painter, QPointF(edge + in * space(1), y), space(2), left, ink);
            painter.setFont(smallFont);
            painter.setPen(ink);
            painter.drawText(cell.adjusted(left ? space(3) : 0, 0, left ? 0 : -space(3), 0), outwards, tr("ahead"));
        }
        painter.setFont(ahead ? valueFont : plainFont);
        painter.setPen(state.stale ? c.muted : c.text);
        QRectF cell = column(columns.word, columns.value);
        if (columns.bandsBelow) {
            const double h = QFontMetricsF(plainFont).height(), s = QFontMetricsF(smallFont).height();
            cell.setTop(y - (h + s) / 2);
            painter.drawText(QRectF(cell.left(), cell.top(), cell.width(), h), outwards, figure.valueText());
            painter.setFont(smallFont);
            painter.setPen(c.muted);
            painter.drawText(QRectF(cell.left(), cell.top() + h, cell.width(), s), outwards, figure.bandText());
        } else {
            painter.drawText(cell, outwards, figure.valueText());
            painter.setFont(smallFont);
            painter.setPen(c.muted);
            painter.drawText(column(columns.word + columns.value, columns.band), outwards, figure.bandText());
        }
    }
    painter.restore();
}

}  // namespace waybench
