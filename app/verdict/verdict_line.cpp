#include "app/verdict/verdict_line.h"

#include <QGridLayout>
#include <QHBoxLayout>
#include <QLabel>
#include <QPainter>
#include <QPushButton>
#include <QScrollArea>
#include <QToolButton>

#include "app/style/shown_figure.h"
#include "app/style/theme.h"

namespace waybench {

namespace {
constexpr int kLongSentence = 120;  ///< characters beyond which the sentence is set smaller
}

class VerdictLine::Glyph : public QWidget {
public:
    using QWidget::QWidget;
    RouteMark mark = RouteMark::pending;
    QSize sizeHint() const override { return {space(12), space(10)}; }
    void paintEvent(QPaintEvent*) override {
        QPainter painter(this);
        painter.setFont(textFont(TextSize::small, QFont::DemiBold));
        painter.setPen(textColourOf(mark));
        const int word = painter.fontMetrics().height();
        paintRouteMark(painter, QRectF(0, 2, width(), height() - word - 6).adjusted(2, 0, -2, 0), mark);
        painter.drawText(QRect(0, height() - word, width(), word), Qt::AlignHCenter | Qt::AlignBottom, wordOf(mark));
    }
};

VerdictLine::VerdictLine(QWidget* parent) : QWidget(parent) {
    setAccessibleName(tr("Verdict"));
    glyph_ = new Glyph(this);
    glyph_->setFixedSize(
        QFontMetrics(textFont(TextSize::small, QFont::DemiBold)).horizontalAdvance(tr("machined")) + space(2),
        space(14));
    sentence_ = new QLabel(this);
    sentence_->setFont(textFont(TextSize::title));
    sentence_->setWordWrap(true);
    sentence_->setTextFormat(Qt::PlainText);
    sentence_->setTextInteractionFlags(Qt::TextSelectableByMouse | Qt::TextSelectableByKeyboard);
    sentence_->setAccessibleName(tr("Verdict"));
    sentence_->setMinimumWidth(space(40));
    state_ = new QLabel(this);
    state_->setFont(textFont(TextSize::small));
    state_->setAccessibleName(tr("State of the computation"));
    cancel_ = new QPushButton(tr("Stop"), this);
    cancel_->setFlat(true);
    cancel_->setFont(textFont(TextSize::small));
    more_ = new QToolButton(this);
    more_->setText(tr("Reasons"));
    more_->setCheckable(true);
    more_->setFont(textFont(TextSize::small));
    more_->setToolButtonStyle(Qt::ToolButtonTextBesideIcon);
    more_->setArrowType(Qt::RightArrow);
    more_->setAutoRaise(true);
    more_->setAccessibleName(tr("Reasons for the verdict"));
    reasons_ = new QLabel(this);
    reasons_->setWordWrap(true);
    reasons_->setTextFormat(Qt::RichText);
    reasons_->setTextInteractionFlags(Qt::TextSelectableByMouse | Qt::TextSelectableByKeyboard);
    reasons_->setAccessibleName(tr("Reasons"));
    reasons_->setAlignment(Qt::AlignTop | Qt::AlignLeft);
    reasonsScroll_ = new QScrollArea(this);
    reasonsScroll_->setWidget(reasons_);
    reasonsScroll_->setWidgetResizable(true);
    reasonsScroll_->setFrameShape(QFrame::NoFrame);
    reasonsScroll_->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    reasonsScroll_->setFixedHeight(space(44));
    reasonsScroll_->hide();

    auto* grid = new QGridLayout(this);
    grid->setContentsMargins(space(4), space(2), space(4), space(2));
    grid->setHorizontalSpacing(space(4));
    grid->setVerticalSpacing(0);
    grid->addWidget(glyph_, 0, 0, 2, 1, Qt::AlignTop);
    grid->addWidget(sentence_, 0, 1, Qt::AlignVCenter);
    auto* foot = new QHBoxLayout;
    foot->setSpacing(space(3));
    foot->addWidget(more_);
    foot->addWidget(state_);
    foot->addWidget(cancel_);
    foot->addStretch();
    grid->addLayout(foot, 1, 1);
    grid->addWidget(reasonsScroll_, 2, 1);
    grid->setColumnStretch(1, 1);

    connect(cancel_, &QPushButton::clicked, this, [this] {
        if (stage_ == ComparisonJob::Stage::cancelled)
            Q_EMIT resumeAsked();
        else
            Q_EMIT cancelAsked();
    });
    connect(more_, &QToolButton::toggled, this, &VerdictLine::setExpanded);
    connect(&Theme::instance(), &Theme::changed, this, &VerdictLine::refresh);
    showNothing(tr("No part yet."));
}

QString VerdictLine::sentence() const {
    return sentence_->text();
}

void VerdictLine::showComparison(std::shared_ptr<const Comparison> comparison) {
    comparison_ = std::move(comparison);
    fault_.clear();
    mark_ = markOf(comparison_->verdict.choice);
    const QString words = text(comparison_->verdict.sentence);
    sentence_->setFont(textFont(words.size() > kLongSentence ? TextSize::lead : TextSize::title));
    sentence_->setText(words);
    refresh();
}

void VerdictLine::showFault(const Fault& fault) {
    fault_ = fault.sentence();
    if (!comparison_) {
        mark_ = RouteMark::pending;
        // Which part and route is plain here.
        QString words = Fault{{}, {}, fault.placeInPart(), fault.problem, fault.remedy}.sentence();
        if (!words.isEmpty()) words[0] = words[0].toUpper();
        sentence_->setFont(textFont(words.size() > kLongSentence ? TextSize::lead : TextSize::title));
        sentence_->setText(words);
    }
    refresh();
}

void VerdictLine::showNothing(const QString& why) {
    comparison_.reset();
    fault_.clear();
    mark_ = RouteMark::pending;
    sentence_->setText(why);
    refresh();
}

void VerdictLine::setStage(ComparisonJob::Stage stage) {
    stage_ = stage;
    refresh();
}

void VerdictLine::setProgress(double share) {
    progress_ = share;
    refresh();
}

void VerdictLine::setExpanded(bool expanded) {
    expanded_ = expanded;
    refresh();
}

void VerdictLine::refresh() {
    using Stage = ComparisonJob::Stage;
    const Palette& c = colours();
    const bool running = stage_ == Stage::drafting || stage_ == Stage::refining;
    const bool stale = stage_ == Stage::drafting || stage_ == Stage::cancelled || stage_ == Stage::faulty;
    glyph_->mark = mark_;
    glyph_->update();
    const QColor ink = comparison_ && !stale ? c.text : c.muted;
    QPalette p = sentence_->palette();
    p.setColor(QPalette::WindowText, !comparison_ && !fault_.isEmpty() ? c.fault : ink);
    sentence_->setPalette(p);

    const int percent = int(progress_ * 100);
    QString state;
    switch (stage_) {
        case Stage::idle:
            break;
        case Stage::drafting:
            state = comparison_ ? tr("Being recomputed, the answer above is the previous one")
                                : tr("First answer under way");
            break;
        case Stage::refining:
            state = tr("Draft, sharpening: %1 %").arg(percent);
            break;
        case Stage::done:
            if (comparison_)
                state = comparison_->fidelity == Fidelity::draft ? tr("Draft") : tr("Final for these inputs");
            break;
        case Stage::cancelled:
            state = comparison_ ? tr("Stopped: the answer above may be old or a draft")
                                : tr("Stopped before the first answer");
            break;
        case Stage::faulty:
            state = comparison_ ? tr("Not current. %1").arg(fault_) : QString();
            break;
    }
    state_->setText(state);
    QPalette s = state_->palette();
    s.setColor(QPalette::WindowText, stage_ == Stage::faulty ? c.fault : c.muted);
    state_->setPalette(s);
    state_->setWordWrap(stage_ == Stage::faulty);
    cancel_->setText(stage_ == Stage::cancelled ? tr("Compute again") : tr("Stop"));
    cancel_->setAccessibleName(stage_ == Stage::cancelled ? tr("Compute again") : tr("Stop computing"));
    cancel_->setVisible(running || stage_ == Stage::cancelled);
    more_->setVisible(comparison_ != nullptr);
    more_->setChecked(expanded_);
    more_->setArrowType(expanded_ ? Qt::DownArrow : Qt::RightArrow);

    const bool open = expanded_ && comparison_;
    if (open) {
        const auto list = [](const QString& heading, const std::vector<std::string>& items) {
            if (items.empty()) return QString();
            QString s2 = QStringLiteral("<p style='margin-bottom:2px'><b>%1</b></p><ul style='margin:0 0 6px -18px'>")
                             .arg(heading);
            for (const std::string& item : items)
                s2 += QStringLiteral("<li>%1</li>").arg(text(item).toHtmlEscaped());
            return s2 + QStringLiteral("</ul>");
        };
        const Verdict& v = comparison_->verdict;
        const auto requirements = [](const std::vector<Requirement>& all) {
            std::vector<std::string> lines;
            for (const Requirement& r : all)
                lines.push_back(r.text);
            return lines;
        };
        QString html = list(tr("Why"), v.reasons) + list(tr("What would change it"), v.wouldChange) +
                       list(tr("Requirements, printed"), requirements(comparison_->printedRequirements)) +
                       list(tr("Requirements, machined"), requirements(comparison_->machinedRequirements));
        if (!v.decisionRule.empty()) html += QStringLiteral("<p>%1</p>").arg(text(v.decisionRule).toHtmlEscaped());
        reasons_->setText(html);
    }
    reasonsScroll_->setVisible(open);
    update();
}

void VerdictLine::paintEvent(QPaintEvent*) {
    QPainter painter(this);
    painter.fillRect(rect(), colours().ground);
    // Progress is a line growing from the spine to both sides: no more than a breath at the lower edge.
    painter.fillRect(QRect(0, height() - 1, width(), 1), colours().rule);
    if (stage_ == ComparisonJob::Stage::drafting || stage_ == ComparisonJob::Stage::refining) {
        const int half = int(progress_ * width() / 2);
        painter.fillRect(QRect(width() / 2 - half, height() - 2, 2 * half, 2), colours().accent);
    }
}

}  // namespace waybench
