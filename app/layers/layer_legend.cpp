#include "app/layers/layer_legend.h"

#include <QCheckBox>
#include <QGridLayout>
#include <QLabel>
#include <QPainter>

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
        if (std::size_t(share_) < kDrawnShares) {
            painter.setRenderHint(QPainter::Antialiasing);
            const ShareLook look = lookOf(share_, colours());
            QPen pen(look.colour, look.weight_px * 1.15, Qt::SolidLine,
                     look.dash.isEmpty() || look.dash.first() < 1 ? Qt::RoundCap : Qt::FlatCap);
            if (!look.dash.isEmpty()) pen.setDashPattern(look.dash);
            painter.setPen(pen);
            painter.drawLine(QPointF(2, height() / 2.0), QPointF(middle - 4, height() / 2.0));
            painter.setRenderHint(QPainter::Antialiasing, false);
        }
        const QRectF area(middle + 1, 2, middle - 3, height() - 5);
        paintShare(painter, QPolygonF(area), share_, colours());
        painter.setPen(QPen(colours().mark, 1));
        painter.drawRect(area);
    }

private:
    TimeShare share_;
};

QLabel* figureLabel(QWidget* parent) {
    auto* label = new QLabel(parent);
    label->setMinimumWidth(
        QFontMetrics(textFont(TextSize::body, QFont::DemiBold)).horizontalAdvance(QStringLiteral("00.0 min")));
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
    grid->setVerticalSpacing(space(1));
    grid->addWidget(headLabel(tr("length"), this), 0, 2);
    grid->addWidget(headLabel(tr("this layer"), this), 0, 3);
    grid->addWidget(headLabel(tr("all layers"), this), 0, 4);
    for (std::size_t s = 0; s < kTimeShares; ++s) {
        const TimeShare share = TimeShare(s);
        Row& row = rows_[s];
        if (s < kDrawnShares) {
            auto* box = new QCheckBox(wordOf(share), this);
            box->setChecked(true);
            box->setObjectName(QStringLiteral("show ") + wordOf(share));
            box->setToolTip(tr("Draw them or not; their time counts all the same."));
            connect(box, &QCheckBox::toggled, this, [this, s](bool on) {
                shown_[s] = on;
                Q_EMIT switched(shown_);
            });
            row.name = box;
        } else {
            row.name = new QLabel(wordOf(share), this);
            row.name->setMinimumHeight(space(5));
        }
        row.length = figureLabel(this);
        row.time = figureLabel(this);
        row.whole = figureLabel(this);
        const int at = int(s) + 1;
        row.swatch = new Swatch(share, this);
        grid->addWidget(row.swatch, at, 0);
        grid->addWidget(row.name, at, 1);
        grid->addWidget(row.length, at, 2);
        grid->addWidget(row.time, at, 3);
        grid->addWidget(row.whole, at, 4);
    }
    sum_ = {nullptr, new QLabel(tr("together"), this), figureLabel(this), figureLabel(this), figureLabel(this)};
    const int at = int(kTimeShares) + 1;
    grid->addWidget(sum_.name, at, 1);
    grid->addWidget(sum_.length, at, 2);
    grid->addWidget(sum_.time, at, 3);
    grid->addWidget(sum_.whole, at, 4);
    for (QWidget* w : std::initializer_list<QWidget*>{sum_.name, sum_.length, sum_.time, sum_.whole})
        w->setFont(textFont(TextSize::body, QFont::DemiBold));
    grid->setColumnStretch(1, 1);
    setAccessibleName(tr("What the lines mean, with their lengths and times"));
}

void LayerLegend::show(const printed::LayerTime* layer, const printed::LayerTime* whole) {
    const QString none = QStringLiteral("–");
    double length_mm = 0;
    for (std::size_t s = 0; s < kTimeShares; ++s) {
        const TimeShare share = TimeShare(s);
        const double length = layer ? lengthOf_mm(*layer, share).value_or(0) : 0;
        length_mm += length;
        const auto timeText = [&](const printed::LayerTime* time) {
            const double seconds = time ? secondsOf(*time, share) : 0;
            return seconds > 0 ? shownBriefly(seconds, Unit::second) : none;
        };
        rows_[s].length->setText(length > 0 ? shownBriefly(length, Unit::millimetre) : none);
        rows_[s].time->setText(timeText(layer));
        rows_[s].whole->setText(timeText(whole));
        // what this print does not have at all takes no row
        const bool isRare = share == TimeShare::support || share == TimeShare::bridge || share == TimeShare::brim;
        const bool isThere = !isRare || (whole && secondsOf(*whole, share) > 0) || length > 0;
        for (QWidget* w : std::initializer_list<QWidget*>{rows_[s].swatch, rows_[s].name, rows_[s].length,
                                                          rows_[s].time, rows_[s].whole})
            w->setVisible(isThere);
        const QString spoken = wordOf(share) + QStringLiteral(": ") + rows_[s].length->text() + QStringLiteral(", ") +
                               rows_[s].time->text();
        rows_[s].name->setAccessibleDescription(spoken);
    }
    sum_.length->setText(layer ? shownBriefly(length_mm, Unit::millimetre) : none);
    sum_.time->setText(layer ? shownBriefly(layer->total_s(), Unit::second) : none);
    sum_.whole->setText(whole ? shownBriefly(whole->total_s(), Unit::second) : none);
}

}  // namespace waybench
