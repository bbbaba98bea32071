#include "app/inspector/weights_section.h"

#include <QGridLayout>
#include <QLabel>
#include <QPushButton>
#include <QSlider>
#include <QVBoxLayout>
#include <QWheelEvent>
#include <cmath>
#include <functional>

#include "app/document/document.h"
#include "app/inspector/quantity_field.h"
#include "app/style/shown_figure.h"
#include "app/style/theme.h"
#include "core/route/outcome.h"

namespace waybench {

namespace {
constexpr int kSteps = 20;

class CalmSlider : public QSlider {
public:
    using QSlider::QSlider;
    std::function<void()> looked;  ///< the focus or the pointer came

protected:
    void focusInEvent(QFocusEvent* event) override {
        QSlider::focusInEvent(event);
        if (looked) looked();
    }
    void enterEvent(QEnterEvent* event) override {
        QSlider::enterEvent(event);
        if (looked) looked();
    }
    void wheelEvent(QWheelEvent* event) override {
        if (hasFocus())
            QSlider::wheelEvent(event);
        else
            event->ignore();
    }
};
}  // namespace

WeightsSection::WeightsSection(Document& document, QWidget* parent) : Section(tr("Weights"), document, parent) {
    auto* note = new QLabel(tr("Count only where both routes meet every requirement."), this);
    note->setWordWrap(true);
    note->setFont(textFont(TextSize::small));
    note->setForegroundRole(QPalette::PlaceholderText);
    note->setContentsMargins(fieldIndent(), 0, 0, 0);
    body()->addWidget(note);
    auto* grid = new QGridLayout;
    grid->setContentsMargins(0, 0, 0, 0);
    grid->setHorizontalSpacing(space(1));
    grid->setVerticalSpacing(space(1));
    int line = 0;
    for (const QuestionText& q : questions()) {
        if (!q.isRanked) continue;
        auto* origin = new OriginMark(this);
        auto* label = new QLabel(text(q.title), this);
        auto* slider = new CalmSlider(Qt::Horizontal, this);
        slider->setRange(0, kSteps);
        slider->setPageStep(5);
        slider->setFocusPolicy(Qt::StrongFocus);
        slider->setMinimumHeight(24);
        slider->setAccessibleName(tr("weight of %1").arg(text(q.title)));
        slider->setToolTip(text(q.meaning));
        slider->looked = [this, words = tr("Weight of %1, 0 to 1, standard %2. %3")
                                            .arg(text(q.title), shownNumber(q.standardWeight), text(q.meaning))] {
            Q_EMIT describeAsked(words);
        };
        slider->setObjectName(QStringLiteral("weight ") + text(q.key));
        label->setBuddy(slider);
        auto* word = new QLabel(this);
        word->setAlignment(Qt::AlignRight | Qt::AlignVCenter);
        word->setMinimumWidth(QFontMetrics(font()).horizontalAdvance(QStringLiteral("0.00")) + 4);
        word->setForegroundRole(QPalette::PlaceholderText);
        grid->addWidget(origin, line, 0);
        grid->addWidget(label, line, 1);
        grid->addWidget(slider, line, 2);
        grid->addWidget(word, line, 3);
        ++line;
        const std::string key = q.key;
        const double standard = q.standardWeight;
        const auto put = [this, key, title = text(q.title)](std::optional<double> weight, const QString& mergeWord) {
            const Part* part = this->document().currentPart();
            if (!part) return;
            Part next = *part;
            if (weight)
                next.weights[key] = *weight;
            else
                next.weights.erase(key);
            this->document().editCurrent(next, tr("weight of %1").arg(title), mergeWord);
        };
        connect(slider, &QSlider::valueChanged, this,
                [put, key](int v) { put(double(v) / kSteps, QStringLiteral("weight ") + text(key)); });
        connect(origin, &OriginMark::resetAsked, this, [put] { put(std::nullopt, {}); });
        origin->setTyped(false, {});
        slider->setProperty("standard", standard);
        slider->setProperty("origin", QVariant::fromValue<QObject*>(origin));
        rows_[key] = {slider, word};
    }
    grid->setColumnStretch(2, 1);
    body()->addLayout(grid);
}

void WeightsSection::showPart(const Part& part) {
    for (auto& [key, row] : rows_) {
        const double standard = row.slider->property("standard").toDouble();
        const auto own = part.weights.find(key);
        const double weight = own != part.weights.end() ? own->second : standard;
        const QSignalBlocker quiet(row.slider);
        row.slider->setValue(int(std::lround(weight * kSteps)));
        row.word->setText(shownNumber(std::round(weight * 100) / 100));
        if (auto* origin = qobject_cast<OriginMark*>(row.slider->property("origin").value<QObject*>()))
            origin->setTyped(own != part.weights.end(), shownNumber(standard));
    }
}

}  // namespace waybench
