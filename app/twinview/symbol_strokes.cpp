#include "app/twinview/symbol_strokes.h"

#include <QFontMetricsF>
#include <QPainter>
#include <QPainterPath>
#include <QPolygonF>
#include <cmath>
#include <numbers>

namespace waybench {

namespace {

/// Halo first, then the strokes themselves.
template <typename Draw>
void twice(QPainter& painter, const QColor& colour, const SymbolStyle& style, Draw draw) {
    painter.setBrush(Qt::NoBrush);
    for (const auto& [ink, width] : {std::pair(style.halo, style.pen_px * 2.6), std::pair(colour, style.pen_px)}) {
        painter.setPen(QPen(ink, width, Qt::SolidLine, Qt::RoundCap, Qt::RoundJoin));
        draw();
    }
}

}  // namespace

void paintSymbolLabel(QPainter& painter, QPointF at, const QString& words, const QColor& colour, const QColor& halo,
                      const QSizeF& size) {
    const QFontMetricsF metrics(painter.font());
    QRectF box = metrics.boundingRect(words).adjusted(-4, -2, 4, 2);
    box.moveCenter(at);
    if (box.left() < 2) box.moveLeft(2);
    if (box.right() > size.width() - 2) box.moveRight(size.width() - 2);
    if (box.top() < 2) box.moveTop(2);
    if (box.bottom() > size.height() - 2) box.moveBottom(size.height() - 2);
    painter.setPen(Qt::NoPen);
    painter.setBrush(halo);
    painter.drawRoundedRect(box, 3, 3);
    painter.setPen(colour);
    painter.drawText(box, Qt::AlignCenter, words);
}

void paintArrow(QPainter& painter, QPointF tip, QPointF direction, double length, const QColor& colour,
                const QColor& halo, double pen, bool hollow) {
    const QPointF normal(-direction.y(), direction.x());
    const double head = length * 0.38, half = hollow ? 2 * pen : pen;
    QPainterPath path;
    const QPointF tail = tip - direction * length, neck = tip - direction * head;
    path.moveTo(tail + normal * half);
    path.lineTo(neck + normal * half);
    path.lineTo(neck + normal * head * 0.5);
    path.lineTo(tip);
    path.lineTo(neck - normal * head * 0.5);
    path.lineTo(neck - normal * half);
    path.lineTo(tail - normal * half);
    path.closeSubpath();
    painter.setPen(QPen(halo, pen * (hollow ? 2.6 : 1.6), Qt::SolidLine, Qt::RoundCap, Qt::RoundJoin));
    painter.setBrush(Qt::NoBrush);
    painter.drawPath(path);
    if (hollow) {
        painter.setPen(QPen(colour, pen * 0.8, Qt::SolidLine, Qt::RoundCap, Qt::RoundJoin));
        painter.setBrush(halo);
    } else {
        painter.setPen(Qt::NoPen);
        painter.setBrush(colour);
    }
    painter.drawPath(path);
}

void paintHoldSymbol(QPainter& painter, const QPointF& at, HoldKind kind, const SymbolStyle& style) {
    const double half = style.size_px * 0.42;
    twice(painter, style.hold, style, [&] {
        switch (kind) {
            case HoldKind::fixed:
                painter.drawLine(at + QPointF(-half, 0), at + QPointF(half, 0));
                for (int i = 0; i < 5; ++i) {
                    const double x = -half + half * 2 * (i + 0.6) / 5;
                    painter.drawLine(at + QPointF(x, 0), at + QPointF(x - half * 0.4, half * 0.5));
                }
                break;
            case HoldKind::sliding: {
                const double r = half * 0.27;
                painter.drawLine(at + QPointF(-half, 0), at + QPointF(half, 0));
                for (const double x : {-0.64, 0.0, 0.64})
                    painter.drawEllipse(at + QPointF(x * half, r + style.pen_px * 0.5), r, r);
                painter.drawLine(at + QPointF(-half, 2 * r + style.pen_px), at + QPointF(half, 2 * r + style.pen_px));
                break;
            }
            case HoldKind::bolted: {
                QPolygonF hexagon;
                for (int i = 0; i < 6; ++i) {
                    const double angle = std::numbers::pi / 3 * (i + 0.5);
                    hexagon << at + half * 0.8 * QPointF(std::cos(angle), std::sin(angle));
                }
                painter.drawPolygon(hexagon);
                painter.drawEllipse(at, half * 0.34, half * 0.34);
                break;
            }
        }
    });
}

void paintMassSymbol(QPainter& painter, const QPointF& at, const QString& words, const QSizeF& size,
                     const SymbolStyle& style) {
    const double half = style.size_px * 0.3;
    const QPolygonF body({at + QPointF(-half * 0.6, -half * 0.9), at + QPointF(half * 0.6, -half * 0.9),
                          at + QPointF(half, half * 0.4), at + QPointF(-half, half * 0.4)});
    twice(painter, style.load, style, [&] {
        painter.drawEllipse(at + QPointF(0, -half * 1.25), half * 0.35, half * 0.35);
        painter.drawPolygon(body);
    });
    painter.setPen(Qt::NoPen);
    painter.setBrush(style.load);
    painter.drawPolygon(body);
    if (style.withText)
        paintSymbolLabel(painter, at + QPointF(0, half * 0.4 + QFontMetricsF(painter.font()).height() * 0.75), words,
                         style.load, style.halo, size);
}

void paintCentreSymbol(QPainter& painter, const QPointF& at, const SymbolStyle& style) {
    const double r = style.size_px * 0.17;
    const QRectF box(at.x() - r, at.y() - r, 2 * r, 2 * r);
    painter.setPen(QPen(style.hold, style.pen_px * 0.7));
    painter.setBrush(style.halo);
    painter.drawEllipse(box);
    painter.setBrush(style.hold);
    painter.drawPie(box, 0, 90 * 16);
    painter.drawPie(box, 180 * 16, 90 * 16);
}

}  // namespace waybench
