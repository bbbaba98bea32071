#include "app/layers/layer_legend.h"

#include <QAbstractButton>
#include <QGridLayout>
#include <QLabel>
#include <QLocale>
#include <QPainter>
#include <cmath>

#include "app/layers/layer_painter.h"
#include "app/style/shown_figure.h"
#include "app/style/theme.h"

namespace waybench {

namespace {

/// A line and an area as they are drawn, beside each other.
class Swatch : public QWidget {
public:
    Swatch(TimeShare share, QWidget* parent) : QWidget(parent), share_(share) {
        setFixedSize(space(13), space(4));
        connect(&Theme::instance(), &Theme::changed, this, qOverload<>(&QWidget::update));
    }

protected:
    void paintEvent(QPaintEvent*) override {
        QPainter painter(this);
        const double middle = width() / 2.0;
        const ShareLook look = lookOf(share_, colours());
        painter.setRenderHint(QPainter::Antialiasing);
        const QLineF line(2, height() / 2.0, middle - 4, height() / 2.0);
        if (std::size_t(share_) < kDrawnShares) {
            painter.setPen(QPen(look.colour, look.weight_px * 1.15, Qt::SolidLine, Qt::RoundCap));
            painter.drawLine(line);
        }
        if (share_ == TimeShare::travel) paintArrowhead(painter, line, look.colour);
        if (share_ == TimeShare::retract) paintRing(painter, line.center(), 2.6, look.colour, colours().ground);
        painter.setRenderHint(QPainter::Antialiasing, false);
        const QRectF area(middle + 1, 2, middle - 3, height() - 5);
        paintShare(painter, QPolygonF(area), share_, colours());
        painter.setPen(QPen(colours().mark, 1));
        painter.drawRect(area);
    }

private:
    TimeShare share_;
};

/// The name of a kind of path; pressed once its lines go, and it is struck out, pressed again they come back.
class KindName : public QAbstractButton {
public:
    KindName(const QString& name, QWidget* parent) : QAbstractButton(parent) {
        setText(name);
        setCheckable(true);
        setChecked(true);
        setCursor(Qt::PointingHandCursor);
        setFocusPolicy(Qt::StrongFocus);
        setAttribute(Qt::WA_Hover);
        setToolTip(tr("Draw them or not; their time counts all the same."));
    }
    QSize sizeHint() const override {
        return {fontMetrics().horizontalAdvance(text()) + space(2), fontMetrics().height() + 2};
    }

protected:
    void paintEvent(QPaintEvent*) override {
        QPainter painter(this);
        QFont drawn = font();
        drawn.setStrikeOut(!isChecked());
        drawn.setUnderline(isChecked() && underMouse());
        painter.setFont(drawn);
        painter.setPen(isChecked() ? colours().text : colours().muted);
        painter.drawText(rect().adjusted(space(1), 0, 0, 0), Qt::AlignLeft | Qt::AlignVCenter, text());
        if (!hasFocus()) return;
        painter.setPen(QPen(colours().accent, 1));
        painter.drawRect(rect().adjusted(0, 0, -1, -1));
    }
};

/// One unit for a column and digits enough for its sum.
struct ColumnUnit {
    QString symbol;
    double scale = 1;
    int decimals = 0;

    QString shown(double value) const {
        const double step = std::pow(10, -decimals), scaled = value * scale;
        if (value <= 0) return QStringLiteral("–");
        if (scaled < step / 2) return QStringLiteral("< ") + shownNumber(step);
        QString text = QLocale::c().toString(scaled, 'f', decimals);
        text.remove(QLatin1Char(','));
        return text.replace(QLatin1Char('.'), QLocale().decimalPoint());
    }
};

ColumnUnit unitOf(double sum, Unit unit) {
    if (unit == Unit::millimetre) return {QStringLiteral("m"), 1e-3, sum < 1e5 ? 2 : 1};
    if (sum < 1000) return {QStringLiteral("s"), 1, 1};
    return {QStringLiteral("min"), 1.0 / 60, 1};
}

QLabel* figureLabel(QWidget* parent) {
    auto* label = new QLabel(parent);
    label->setMinimumWidth(
        QFontMetrics(textFont(TextSize::body, QFont::DemiBold)).horizontalAdvance(QStringLiteral("0000.0")));
    label->setAlignment(Qt::AlignRight | Qt::AlignVCenter);
    label->setTextInteractionFlags(Qt::TextSelectableByMouse);
    return label;
}

QLabel* headLabel(const QString& words, QWidget* parent) {
    auto* label = new QLabel(words, parent);
    label->setFont(textFont(TextSize::small));
    label->setForegroundRole(QPalette::PlaceholderText);
    label->setAlignment(Qt::AlignRight | Qt::AlignBottom);
    return label;
}

}  // namespace

LayerLegend::LayerLegend(QWidget* parent) : QWidget(parent) {
    shown_.fill(true);
    auto* grid = new QGridLayout(this);
    grid->setContentsMargins(0, 0, 0, 0);
    grid->setHorizontalSpacing(space(2));
    grid->setVerticalSpacing(0);
    const auto place = [&](const Row& row, int at) {
        int column = 0;
        for (QWidget* w : std::initializer_list<QWidget*>{row.swatch, row.name, row.length, row.time, row.whole}) {
            if (w) grid->addWidget(w, at, column);
            ++column;
        }
        grid->setRowMinimumHeight(at, 0);
    };
    heads_ = {nullptr, nullptr, headLabel({}, this), headLabel({}, this), headLabel({}, this)};
    place(heads_, 0);
    for (std::size_t s = 0; s < kTimeShares; ++s) {
        const TimeShare share = TimeShare(s);
        Row& row = rows_[s];
        if (s < kDrawnShares) {
            auto* name = new KindName(wordOf(share), this);
            name->setObjectName(QStringLiteral("show ") + wordOf(share));
            connect(name, &QAbstractButton::toggled, this, [this, s](bool on) {
                shown_[s] = on;
                Q_EMIT switched(shown_);
            });
            row.name = name;
        } else {
            auto* name = new QLabel(wordOf(share), this);
            name->setContentsMargins(space(1), 0, 0, 0);
            row.name = name;
        }
        row.swatch = new Swatch(share, this);
        row.name->setFixedHeight(space(5));
        row.length = figureLabel(this);
        row.time = figureLabel(this);
        row.whole = figureLabel(this);
        place(row, int(s) + 1);
    }
    auto* together = new QLabel(tr("together"), this);
    together->setContentsMargins(space(1), 0, 0, 0);
    together->setFixedHeight(space(5));
    sum_ = {nullptr, together, nullptr, figureLabel(this), figureLabel(this)};
    place(sum_, int(kTimeShares) + 1);
    for (QWidget* w : std::initializer_list<QWidget*>{sum_.name, sum_.time, sum_.whole})
        w->setFont(textFont(TextSize::body, QFont::DemiBold));
    lengths_ = headLabel({}, this);
    lengths_->setObjectName(QStringLiteral("layer lengths"));
    lengths_->setAlignment(Qt::AlignLeft | Qt::AlignVCenter);
    lengths_->setContentsMargins(space(1), 0, 0, 0);
    grid->addWidget(lengths_, int(kTimeShares) + 2, 1, 1, 4);
    grid->setColumnStretch(1, 1);
    setAccessibleName(tr("What the lines mean, with their lengths and times"));
}

void LayerLegend::show(const printed::LayerTime* layer, const printed::LayerTime* whole) {
    double laid_mm = 0;
    for (std::size_t k = 0; layer && k < printed::kPathKinds; ++k)
        laid_mm += layer->path_mm[k];
    const ColumnUnit length = unitOf(laid_mm, Unit::millimetre),
                     time = unitOf(layer ? layer->total_s() : 0, Unit::second),
                     all = unitOf(whole ? whole->total_s() : 0, Unit::second);
    heads_.length->setText(tr("length, %1").arg(length.symbol));
    heads_.time->setText(tr("this layer, %1").arg(time.symbol));
    heads_.whole->setText(tr("all layers, %1").arg(all.symbol));
    for (std::size_t s = 0; s < kTimeShares; ++s) {
        const TimeShare share = TimeShare(s);
        const double length_mm = layer ? lengthOf_mm(*layer, share).value_or(0) : 0,
                     layer_s = layer ? secondsOf(*layer, share) : 0, whole_s = whole ? secondsOf(*whole, share) : 0;
        rows_[s].length->setText(lengthOf_mm({}, share) ? length.shown(length_mm) : QString());
        rows_[s].time->setText(time.shown(layer_s));
        rows_[s].whole->setText(all.shown(whole_s));
        // while the whole is not known only what is sure to be there has a row
        const bool isThere = length_mm > 0 || layer_s > 0 || whole_s > 0;
        for (QWidget* w : std::initializer_list<QWidget*>{rows_[s].swatch, rows_[s].name, rows_[s].length,
                                                          rows_[s].time, rows_[s].whole})
            w->setVisible(isThere);
        rows_[s].name->setAccessibleDescription(heads_.time->text() + QStringLiteral(": ") + rows_[s].time->text());
    }
    sum_.time->setText(layer ? time.shown(layer->total_s()) : QString());
    sum_.whole->setText(whole ? all.shown(whole->total_s()) : QString());
    lengths_->setText(
        layer ? tr("laid %1, travel %2")
                    .arg(shownBriefly(laid_mm, Unit::millimetre), shownBriefly(layer->travel_mm, Unit::millimetre))
              : QString());
}

}  // namespace waybench
