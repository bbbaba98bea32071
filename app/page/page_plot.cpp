#include "app/page/page_plot.h"

#include <QPainterPath>
#include <algorithm>
#include <cmath>

namespace waybench {

namespace {

/// Round steps for an axis.
double niceStep(double span, int wanted) {
    const double raw = span / std::max(1, wanted);
    const double power = std::pow(10.0, std::floor(std::log10(raw)));
    for (const double m : {1.0, 2.0, 5.0, 10.0})
        if (raw <= m * power) return m * power;
    return 10 * power;
}

struct Axes {
    QRectF box;  ///< mm
    double x0, x1, y0, y1;
    bool isLog;

    double x(double v) const { return box.left() + (v - x0) / (x1 - x0) * box.width(); }
    double y(double v) const {
        const double share = isLog ? std::log(std::max(v, y0) / y0) / std::log(y1 / y0) : (v - y0) / (y1 - y0);
        return box.bottom() - std::clamp(share, -0.02, 1.02) * box.height();
    }
};

Axes axesFor(const QRectF& box, const PageContent& c) {
    Axes a{box, c.plotX.front(), c.plotX.back(), 0, 0, false};
    double low = 1e300, high = 0;
    for (const auto* curve : {&c.plotPrinted, &c.plotMachined})
        for (const Figure& f : *curve) {
            low = std::min(low, f.low);
            high = std::max(high, f.high);
        }
    if (c.plotLimit > 0) {
        low = std::min(low, c.plotLimit);
        high = std::max(high, c.plotLimit);
    }
    a.isLog = low > 0 && high / low > 30;  // about a decade and a half
    a.y0 = a.isLog ? std::pow(10.0, std::floor(std::log10(low))) : 0;
    a.y1 = a.isLog ? std::pow(10.0, std::ceil(std::log10(high))) : high * 1.05;
    return a;
}

/// Never with an exponent.
QString plainAxisNumber(double v) {
    QString text = QString::number(v, 'f', 6);
    while (text.endsWith(QLatin1Char('0')))
        text.chop(1);
    if (text.endsWith(QLatin1Char('.'))) text.chop(1);
    return text;
}

void paintGrid(PageCanvas& canvas, const Axes& a, const PageContent& c) {
    canvas.setFont(7.5);
    canvas.setInk(canvas.ink.soft);
    const double dx = niceStep(a.x1 - a.x0, 6);
    for (double v = std::ceil(a.x0 / dx - 1e-9) * dx; v <= a.x1 + 1e-9; v += dx) {
        canvas.rule(a.x(v), a.box.bottom(), a.x(v), a.box.bottom() + 1, canvas.ink.soft, 0.15);
        canvas.line(QRectF(a.x(v) - 8, a.box.bottom() + 1, 16, 3.4), QString::number(v, 'g', 4), Qt::AlignCenter);
    }
    auto tick = [&](double v) {
        canvas.rule(a.box.left(), a.y(v), a.box.right(), a.y(v), QColor(0xe2, 0xe4, 0xe6), 0.12);
        canvas.line(QRectF(a.box.left() - 13, a.y(v) - 2, 12, 4), plainAxisNumber(v),
                    Qt::AlignRight | Qt::AlignVCenter);
    };
    if (a.isLog) {
        for (double v = a.y0; v <= a.y1 * 1.001; v *= 10)
            tick(v);
    } else {
        const double dy = niceStep(a.y1, 4);
        for (double v = 0; v <= a.y1; v += dy)
            tick(v);
    }
    canvas.line(QRectF(a.box.left(), a.box.bottom() + 4.1, a.box.width(), 3.6), QString::fromStdString(c.plotAxis),
                Qt::AlignCenter);
    canvas.line(QRectF(a.box.left() - 13, a.box.top() - 4.4, a.box.width(), 3.8),
                QString::fromStdString(c.plotAxisY) + (a.isLog ? QStringLiteral(" (log scale)") : QString()));
}

double valueAt(const std::vector<double>& xs, const std::vector<Figure>& curve, double x) {
    for (std::size_t i = 1; i < xs.size(); ++i)
        if (x <= xs[i])
            return curve[i - 1].value + (curve[i].value - curve[i - 1].value) * (x - xs[i - 1]) / (xs[i] - xs[i - 1]);
    return curve.back().value;
}

/// The place along the limit's line, above or below it, where its label is farthest from both curves.
QRectF roomForLimit(const Axes& a, const PageContent& c, double width, double height) {
    const double line = a.y(c.plotLimit);
    QRectF best;
    double mostRoom = -1e9;
    for (int i = 0; i <= 8; ++i)
        for (const double top : {line + 0.3, line - 0.3 - height}) {
            const QRectF label(a.box.left() + 1 + i / 8.0 * (a.box.width() - width - 2), top, width, height);
            if (label.top() < a.box.top() || label.bottom() > a.box.bottom()) continue;
            double room = 1e9;
            for (int k = 0; k <= 6; ++k) {
                const double x = label.left() + k / 6.0 * width;
                const double value = a.x0 + (x - a.box.left()) / a.box.width() * (a.x1 - a.x0);
                for (const auto* curve : {&c.plotPrinted, &c.plotMachined}) {
                    const double y = a.y(valueAt(c.plotX, *curve, value));
                    room = std::min(room, std::max(label.top() - y, y - label.bottom()));
                }
            }
            if (room > mostRoom + 0.5) mostRoom = room, best = label;
        }
    return best;
}

void paintLimit(PageCanvas& canvas, const Axes& a, const PageContent& c) {
    if (c.plotLimit <= 0) return;
    QPainter& painter = canvas.painter();
    const double y = a.y(c.plotLimit);
    painter.save();
    painter.setClipRect(canvas.px(QRectF(a.box.left(), a.box.top(), a.box.width(), y - a.box.top())));
    for (double x = a.box.left() - a.box.height(); x < a.box.right(); x += 3)
        canvas.rule(x, y, x + (y - a.box.top()), a.box.top(), QColor(0xcf, 0xd2, 0xd6), 0.12);
    painter.restore();
    canvas.rule(a.box.left(), y, a.box.right(), y, canvas.ink.text, 0.35);
    canvas.setInk(canvas.ink.text);
    canvas.setFont(7.5);
    const QString label = QStringLiteral("limit %1 mm").arg(QString::number(c.plotLimit, 'g', 4));
    const QRectF room = roomForLimit(a, c, canvas.width_mm(label) + 1, 3.4);
    if (room.isValid()) canvas.line(room, label);
}

void paintCurve(PageCanvas& canvas, const Axes& a, const std::vector<double>& xs, const std::vector<Figure>& curve,
                const QColor& colour, bool isDashed, const QString& name) {
    QPainter& painter = canvas.painter();
    auto at = [&](double x, double y) { return QPointF(canvas.px(a.x(x)), canvas.px(a.y(y))); };
    QPolygonF band, line;
    for (std::size_t i = 0; i < curve.size(); ++i)
        band << at(xs[i], curve[i].high), line << at(xs[i], curve[i].value);
    for (std::size_t i = curve.size(); i-- > 0;)
        band << at(xs[i], curve[i].low);
    painter.save();
    painter.setClipRect(canvas.px(a.box.adjusted(-1, -1, 1, 1)));
    QColor tint = colour;
    tint.setAlphaF(0.16f);
    painter.setPen(Qt::NoPen);
    painter.setBrush(tint);
    painter.drawPolygon(band);
    painter.setBrush(Qt::NoBrush);
    painter.setPen(QPen(colour, canvas.px(0.5), isDashed ? Qt::DashLine : Qt::SolidLine));
    painter.drawPolyline(line);
    for (const QPointF& p : line) {
        painter.setBrush(isDashed ? QBrush(Qt::white) : QBrush(colour));  // as the window's bars: machined hollow
        painter.setPen(QPen(colour, canvas.px(0.25)));
        if (isDashed)
            painter.drawRect(
                QRectF(p - QPointF(canvas.px(0.6), canvas.px(0.6)), p + QPointF(canvas.px(0.6), canvas.px(0.6))));
        else
            painter.drawEllipse(p, canvas.px(0.7), canvas.px(0.7));
    }
    painter.restore();
    canvas.setFont(8, true);
    canvas.setInk(colour);
    canvas.line(
        QRectF(a.box.right() + 1, std::clamp(a.y(curve.back().value) - 2, a.box.top(), a.box.bottom() - 4), 18, 4),
        name);
}

}  // namespace

void paintPagePlot(PageCanvas& canvas, const QRectF& box, const PageContent& c) {
    if (c.plotX.size() < 2 || c.plotPrinted.size() != c.plotX.size() || c.plotMachined.size() != c.plotX.size()) {
        canvas.setFont(9, false, true);
        canvas.setInk(canvas.ink.soft);
        canvas.text(box, QString::fromStdString(c.plotMissing));
        return;
    }
    const QString finding = QString::fromStdString(c.plotTitle);
    canvas.setFont(9, true);
    if (canvas.textHeight_mm(box.width(), finding) > 8.5) canvas.setFont(8, true);
    canvas.setInk(canvas.ink.text);
    const double title = canvas.text(
        QRectF(box.left(), box.top(), box.width(), std::min(12.5, canvas.textHeight_mm(box.width(), finding) + 0.1)),
        finding);
    const Axes axes =
        axesFor(QRectF(box.left() + 13, box.top() + title + 5, box.width() - 13 - 18, box.height() - title - 5 - 8), c);
    paintGrid(canvas, axes, c);
    paintLimit(canvas, axes, c);
    if (c.plotHere > axes.x0 && c.plotHere < axes.x1) {
        QPainter& painter = canvas.painter();
        painter.setPen(QPen(canvas.ink.soft, canvas.px(0.2), Qt::DotLine));
        painter.drawLine(canvas.px(QRectF(axes.x(c.plotHere), axes.box.top(), 0, axes.box.height())).topLeft(),
                         canvas.px(QRectF(axes.x(c.plotHere), axes.box.bottom(), 0, 0)).topLeft());
        canvas.setFont(7.5);
        canvas.setInk(canvas.ink.soft);
        canvas.line(QRectF(axes.x(c.plotHere) + 0.8, axes.box.top(), 26, 3.5), QStringLiteral("this part"));
    }
    paintCurve(canvas, axes, c.plotX, c.plotPrinted, canvas.ink.printed, false, QStringLiteral("printed"));
    paintCurve(canvas, axes, c.plotX, c.plotMachined, canvas.ink.machined, true, QStringLiteral("machined"));
    canvas.rule(axes.box.left(), axes.box.bottom(), axes.box.right(), axes.box.bottom(), canvas.ink.soft, 0.2);
    canvas.rule(axes.box.left(), axes.box.top(), axes.box.left(), axes.box.bottom(), canvas.ink.soft, 0.2);
}

}  // namespace waybench
