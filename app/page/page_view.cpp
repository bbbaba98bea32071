#include "app/page/page_view.h"

#include <QComboBox>
#include <QFileDialog>
#include <QFileInfo>
#include <QHBoxLayout>
#include <QLabel>
#include <QPainter>
#include <QPushButton>
#include <QScrollArea>
#include <QVBoxLayout>
#include <QtConcurrent/QtConcurrentRun>
#include <algorithm>

#include "app/document/document.h"
#include "app/inspector/choice_field.h"
#include "app/page/page_pdf.h"
#include "app/style/shown_figure.h"
#include "app/style/theme.h"

namespace waybench {

PageView::PageView(Document& document, QWidget* parent)
    : QWidget(parent), document_(document), sweepJob_(document.sharedShop()) {
    paperChoice_ = new ChoiceBox(this);
    paperChoice_->setSizeAdjustPolicy(QComboBox::AdjustToContents);
    paperChoice_->addItems({tr("A4"), tr("Letter")});
    auto* label = new QLabel(tr("&Paper"), this);
    label->setBuddy(paperChoice_);
    auto* save = new QPushButton(tr("&Export as PDF …"), this);
    connect(save, &QPushButton::clicked, this, &PageView::askExport);
    picture_ = new QLabel(this);
    picture_->setAlignment(Qt::AlignCenter);
    picture_->setAccessibleName(tr("Preview of the one-page comparison"));
    auto* scroll = new QScrollArea(this);
    scroll->setWidget(picture_);
    scroll->setWidgetResizable(true);
    scroll->setFrameShape(QFrame::NoFrame);
    auto* bar = new QHBoxLayout;
    bar->setContentsMargins(space(3), space(2), space(3), space(2));
    bar->addWidget(label);
    bar->addWidget(paperChoice_);
    bar->addStretch();
    bar->addWidget(save);
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(0, 0, 0, 0);
    column->addLayout(bar);
    column->addWidget(scroll, 1);
    connect(paperChoice_, &QComboBox::activated, this, [this] { repaintPage(); });
    connect(&sweepJob_, &SweepJob::pointReady, this, [this](quint64, const std::shared_ptr<const SweepPoint>& point) {
        if (!sweep_) return;
        auto& points = sweep_->points;
        const auto at = std::lower_bound(points.begin(), points.end(), point->at,
                                         [](const SweepPoint& p, double x) { return p.at < x; });
        points.insert(at, *point);
    });
    connect(&sweepJob_, &SweepJob::finished, this, [this] { repaintPage(); });
}

void PageView::setActive(bool active) {
    active_ = active;
    if (active_ && sweepWanted_) askSweep();
    if (active_) repaintPage();
}

void PageView::showAnswer(const Answer& answer, bool stale) {
    const bool isNew = answer.comparison != answer_.comparison;
    answer_ = answer;
    stale_ = stale;
    if (isNew && answer_ && !stale) {
        sweepJob_.cancel();
        sweep_.reset();
        sweepWanted_ = true;
        if (active_) askSweep();
    }
    if (active_) repaintPage();
}

void PageView::askSweep() {
    sweepWanted_ = false;
    if (!answer_) return;
    const std::vector<Variable> variables = variablesOf(answer_.comparison->part, document_.shop());
    if (variables.empty()) return;
    const Variable& v = pageVariable(variables);
    SweepOrder order;
    order.part = answer_.comparison->part;
    order.folder = document_.project().folder();
    order.tariff = document_.project().tariff;
    order.variable = v;
    order.from = std::max(v.minimum, v.current * 0.5);
    order.to = std::min(v.maximum, v.current * 2.0);
    order.points = 7;
    order.refine = order.solve = false;
    if (!(order.from < order.to)) return;
    sweep_ = std::make_shared<Sweep>();
    sweep_->variable = v;
    sweepJob_.start(order);
}

Paper PageView::paper() const {
    return paperChoice_->currentIndex() == 0 ? Paper::a4 : Paper::letter;
}

PageContent PageView::content() const {
    const bool hasPlot = sweep_ && sweep_->points.size() > 1 && !sweepJob_.isRunning();
    PageContent c =
        pageContent(document_.project(), *answer_.comparison, hasPlot ? sweep_.get() : nullptr, document_.shop());
    c.isDraft = c.isDraft || stale_;
    return c;
}

void PageView::repaintPage() {
    if (!answer_) {
        picture_->setText(tr("The page appears as soon as the part has a shape, a hold, a load and a limit."));
        return;
    }
    const quint64 generation = ++painting_;
    const Paper size = paper();
    const Answer answer = answer_;
    QtConcurrent::run([size, answer, page = content()] {
        constexpr double kDotsPerMm = 8;
        const QSizeF mm = sizeOf(size);
        QImage image(int(mm.width() * kDotsPerMm), int(mm.height() * kDotsPerMm), QImage::Format_RGB32);
        image.fill(Qt::white);
        QPainter painter(&image);
        paintPage(painter, kDotsPerMm, size, page, *answer.comparison);
        painter.end();
        return image;
    }).then(this, [this, generation](const QImage& image) {
        if (generation != painting_) return;
        image_ = image;
        fitPicture();
        Q_EMIT painted();
    });
}

void PageView::fitPicture() {
    if (image_.isNull()) return;
    const double ratio = devicePixelRatioF();
    const int width = std::clamp(this->width() - space(16), 300, 980);
    QImage scaled = image_.scaledToWidth(int(width * ratio), Qt::SmoothTransformation);
    scaled.setDevicePixelRatio(ratio);
    picture_->setPixmap(QPixmap::fromImage(scaled));
}

void PageView::resizeEvent(QResizeEvent* event) {
    QWidget::resizeEvent(event);
    fitPicture();
}

bool PageView::exportPdf(const QString& file) {
    if (!answer_) return false;
    try {
        writePagePdf(file, paper(), content(), *answer_.comparison);
    } catch (const InputFault& fault) {
        Q_EMIT noted(Fault::from(fault).sentence());
        return false;
    }
    Q_EMIT noted(tr("Page written to %1").arg(file));
    return true;
}

void PageView::askExport() {
    if (!answer_) {
        Q_EMIT noted(tr("There is no page yet: the part needs a shape, a hold, a load and a limit."));
        return;
    }
    QString name = text(answer_.comparison->part.name);
    name.replace(QLatin1Char(' '), QLatin1Char('_')).replace(QLatin1Char('/'), QLatin1Char('_'));
    const QString folder = QFileInfo(text(document_.project().file.string())).absolutePath();
    const QString file =
        QFileDialog::getSaveFileName(this, tr("Export the page as PDF"),
                                     folder + QLatin1Char('/') + name + QStringLiteral(".pdf"), tr("PDF (*.pdf)"));
    if (!file.isEmpty()) exportPdf(file);
}

}  // namespace waybench
