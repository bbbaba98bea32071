#include "app/style/route_mark.h"

#include <QCoreApplication>
#include <QPainter>
#include <QPainterPath>

#include "app/style/theme.h"

namespace waybench {

RouteMark markOf(Choice choice) {
    switch (choice) {
        case Choice::printed:
            return RouteMark::printed;
        case Choice::machined:
            return RouteMark::machined;
        case Choice::neither:
            return RouteMark::neither;
    }
    return RouteMark::neither;
}

QString wordOf(RouteMark mark) {
    switch (mark) {
        case RouteMark::printed:
            return QCoreApplication::translate("RouteMark", "printed");
        case RouteMark::machined:
            return QCoreApplication::translate("RouteMark", "machined");
        case RouteMark::neither:
            return QCoreApplication::translate("RouteMark", "neither");
        case RouteMark::pending:
            break;
    }
    return QCoreApplication::translate("RouteMark", "pending");
}

QColor textColourOf(RouteMark mark) {
    const Palette& c = colours();
    switch (mark) {
        case RouteMark::printed:
            return c.printedText;
        case RouteMark::machined:
            return c.machinedText;
        case RouteMark::neither:
            return c.fault;
        case RouteMark::pending:
            break;
    }
    return c.muted;
}

QColor colourOf(RouteKind kind) {
    return kind == RouteKind::printed ? colours().printed : colours().machined;
}
QColor textColourOf(RouteKind kind) {
    return kind == RouteKind::printed ? colours().printedText : colours().machinedText;
}

void paintRouteMark(QPainter& painter, const QRectF& box, RouteMark mark) {
    const Palette& c = colours();
    paintRouteMark(painter, box, mark,
                   mark == RouteMark::printed    ? c.printed
                   : mark == RouteMark::machined ? c.machined
                   : mark == RouteMark::neither  ? c.fault
                                                 : c.mark);
}

void paintRouteMark(QPainter& painter, const QRectF& box, RouteMark mark, const QColor& colour) {
    painter.save();
    painter.setRenderHint(QPainter::Antialiasing);
    const double side = std::min(box.width(), box.height());
    QRectF b(0, 0, side, side);
    b.moveCenter(box.center());
    const double pen = std::max(1.3, side / 10);
    switch (mark) {
        case RouteMark::printed: {
            painter.setPen(Qt::NoPen);
            painter.setBrush(colour);
            const double course = side / 4.6, gap = side / 11;
            const double inset[] = {side * 0.2, side * 0.08, 0, 0};
            for (int k = 0; k < 4; ++k) {
                const double y = b.top() + k * (course * 0.86 + gap);
                painter.drawRoundedRect(QRectF(b.left() + inset[k], y, side - 2 * inset[k], course * 0.86),
                                        course / 2.4, course / 2.4);
            }
            break;
        }
        case RouteMark::machined: {
            const QRectF r = b.adjusted(pen, pen, -pen, -pen);
            QPainterPath path(r.bottomLeft());
            path.lineTo(r.topLeft());
            path.lineTo(r.left() + r.width() * 0.5, r.top());
            path.lineTo(r.left() + r.width() * 0.5, r.top() + r.height() * 0.45);
            path.lineTo(r.right(), r.top() + r.height() * 0.45);
            path.lineTo(r.bottomRight());
            path.closeSubpath();
            painter.setPen(QPen(colour, pen * 1.15, Qt::SolidLine, Qt::FlatCap, Qt::MiterJoin));
            painter.setBrush(Qt::NoBrush);
            painter.drawPath(path);
            break;
        }
        case RouteMark::neither: {
            const QRectF r = b.adjusted(pen, pen, -pen, -pen);
            painter.setPen(QPen(colour, pen));
            painter.setBrush(Qt::NoBrush);
            painter.drawEllipse(r);
            const QPointF d(r.width() * 0.35, r.height() * 0.35);
            painter.drawLine(r.center() - d, r.center() + d);
            break;
        }
        case RouteMark::pending: {
            const QRectF r = b.adjusted(pen, pen, -pen, -pen);
            painter.setPen(QPen(colour, pen, Qt::DotLine));
            painter.setBrush(Qt::NoBrush);
            painter.drawEllipse(r);
            break;
        }
    }
    painter.restore();
}

}  // namespace waybench
