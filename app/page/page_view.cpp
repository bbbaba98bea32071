#include "app/page/page_view.h"

#include <QComboBox>
#include <QFileDialog>
#include <QFileInfo>
#include <QHBoxLayout>
#include <QLabel>
#include <QMessageBox>
#include <QPainter>
#include <QPrintDialog>
#include <QPrinter>
#include <QPushButton>
#include <QScrollArea>
#include <QVBoxLayout>
#include <QtConcurrent/QtConcurrentRun>
#include <algorithm>
#include <utility>

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
    zoomChoice_ = new ChoiceBox(this);
    zoomChoice_->setSizeAdjustPolicy(QComboBox::AdjustToContents);
    zoomChoice_->addItems({tr("page width"), tr("whole page"), tr("100 %"), tr("150 %"), tr("200 %")});
    auto* zoomLabel = new QLabel(tr("&Zoom"), this);
    zoomLabel->setBuddy(zoomChoice_);
    auto* print = new QPushButton(tr("Pr&int …"), this);
    connect(print, &QPushButton::clicked, this, &PageView::askPrint);
    auto* save = new QPushButton(tr("E&xport as PDF …"), this);
    connect(save, &QPushButton::clicked, this, &PageView::askExport);
    picture_ = new QLabel(this);
    picture_->setAlignment(Qt::AlignCenter);
    picture_->setAccessibleName(tr("Preview of the one-page comparison"));
    scroll_ = new QScrollArea(this);
    scroll_->setWidget(picture_);
    scroll_->setWidgetResizable(true);
    scroll_->setFrameShape(QFrame::NoFrame);
    scroll_->setAccessibleName(tr("Page preview"));
    auto* bar = new QHBoxLayout;
    bar->setContentsMargins(space(3), space(2), space(3), space(2));
    bar->addWidget(label);
    bar->addWidget(paperChoice_);
    bar->addSpacing(space(3));
    bar->addWidget(zoomLabel);
    bar->addWidget(zoomChoice_);
    bar->addStretch();
    bar->addWidget(print);
    bar->addWidget(save);
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(0, 0, 0, 0);
    column->addLayout(bar);
    column->addWidget(scroll_, 1);
    connect(paperChoice_, &QComboBox::activated, this, [this] { repaintPage(); });
    connect(zoomChoice_, &QComboBox::activated, this, [this] { fitPicture(); });
    connect(&sweepJob_, &SweepJob::pointReady, this, [this](quint64, const std::shared_ptr<const SweepPoint>& point) {
        if (!sweep_) return;
        auto& points = sweep_->points;
        const auto at = std::lower_bound(points.begin(), points.end(), point->at,
                                         [](const SweepPoint& p, double x) { return p.at < x; });
        points.insert(at, *point);
    });
    connect(&sweepJob_, &SweepJob::finished, this, [this] {
        repaintPage();
        actIfComplete();
    });
    connect(&sweepJob_, &SweepJob::faulted, this, [this] {
        sweep_.reset();  // the page says that it has no curve
        repaintPage();
        actIfComplete();
    });
    connect(&document, &Document::titleBlockChanged, this, [this] {
        if (active_) repaintPage();
    });
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
    if (pending_ && (!answer_ || answer_.comparison->part.name != pendingPart_)) {
        pending_ = nullptr;
        Q_EMIT noted(tr("The page of %1 was not written: another part came before its curve was computed.")
                         .arg(text(pendingPart_)));
    }
    if (isNew || stale) {
        sweepJob_.cancel();
        sweep_.reset();  // it belongs to the answer it was asked with
        sweepWanted_ = answer_ && !stale;
        if (sweepWanted_ && (active_ || pending_)) askSweep();
        if (!stale) actIfComplete();
    }
    if (active_) repaintPage();
}

void PageView::askSweep() {
    sweepWanted_ = false;
    if (!answer_) return;
    const std::vector<Variable> variables = variablesOf(answer_.comparison->part, document_.shop());
    if (variables.empty()) return;
    const Variable& v = pageVariable(variables, answer_.comparison->part);
    SweepOrder order;
    order.part = answer_.comparison->part;
    order.folder = document_.project().folder();
    order.tariff = document_.project().tariff;
    order.variable = v;
    const PageSweepRange range = pageSweepRange(v);
    order.from = range.from;
    order.to = range.to;
    order.points = range.points;
    order.refine = order.solve = false;
    if (!range.isOpen()) return;
    sweep_ = std::make_shared<Sweep>();
    sweep_->variable = v;
    sweepJob_.start(order);
}

Paper PageView::paper() const {
    return paperChoice_->currentIndex() == 0 ? Paper::a4 : Paper::letter;
}

bool PageView::isWaitingForSweep() const {
    return sweepWanted_ || sweepJob_.isRunning();
}

void PageView::whenComplete(std::function<void()> act) {
    if (sweepWanted_) askSweep();
    if (!isWaitingForSweep()) return act();
    pending_ = std::move(act);
    pendingPart_ = answer_.comparison->part.name;
    Q_EMIT noted(tr("The page is written as soon as its curve is computed."));
}

void PageView::actIfComplete() {
    if (pending_ && answer_ && !isWaitingForSweep()) std::exchange(pending_, nullptr)();
}

PageContent PageView::content() const {
    const bool hasPlot = sweep_ && sweep_->points.size() > 1 && !sweepJob_.isRunning();
    PageContent c =
        pageContent(document_.project(), *answer_.comparison, hasPlot ? sweep_.get() : nullptr, document_.shop());
    c.isDraft = c.isDraft || stale_;
    if (isWaitingForSweep()) c.plotMissing = tr("The curve over the thickness is being computed.").toStdString();
    return c;
}

void PageView::repaintPage() {
    if (!answer_) {
        ++painting_;
        image_ = {};
        picture_->setText(tr("The page appears as soon as the part has a shape, a hold, a load and a limit."));
        return;
    }
    const quint64 generation = ++painting_;
    const Paper size = paper();
    const Answer answer = answer_;
    QtConcurrent::run([size, answer, page = content()] {
        constexpr double kDotsPerMm = 12;
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
    constexpr double kShares[] = {0, 0, 1, 1.5, 2};  // of the paper's own size
    const QSize room = scroll_->viewport()->size();
    const double aspect = double(image_.width()) / image_.height();
    double width = std::clamp(room.width() - space(16), 300, 980);
    const int zoom = zoomChoice_->currentIndex();
    if (zoom == 1) width = std::max(200.0, (room.height() - space(4)) * aspect);
    if (zoom > 1) width = kShares[zoom] * sizeOf(paper()).width() / 25.4 * logicalDpiX();
    QImage scaled = image_.scaledToWidth(int(width * ratio), Qt::SmoothTransformation);
    scaled.setDevicePixelRatio(ratio);
    picture_->setPixmap(QPixmap::fromImage(scaled));
}

void PageView::resizeEvent(QResizeEvent* event) {
    QWidget::resizeEvent(event);
    fitPicture();
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
    if (file.isEmpty()) return;
    const bool hasSuffix = file.endsWith(QStringLiteral(".pdf"), Qt::CaseInsensitive);
    const QString target = hasSuffix ? file : file + QStringLiteral(".pdf");
    // The dialog asked about the name as it was typed.
    if (!hasSuffix && QFileInfo::exists(target) &&
        QMessageBox::question(this, tr("Export the page as PDF"),
                              tr("%1 is there already. Replace it?").arg(QFileInfo(target).fileName())) !=
            QMessageBox::Yes)
        return;
    whenComplete([this, target] { write(target); });
}

void PageView::write(const QString& file) {
    QtConcurrent::run([file, size = paper(), answer = answer_, page = content()] {
        try {
            writePagePdf(file, size, page, *answer.comparison);
        } catch (const InputFault& fault) {
            return Fault::from(fault).sentence();
        } catch (const std::exception& error) {
            return QString::fromUtf8(error.what());
        }
        return QString();
    }).then(this, [this, file](const QString& problem) {
        Q_EMIT noted(problem.isEmpty() ? tr("Page written to %1").arg(file) : problem);
    });
}

void PageView::askPrint() {
    if (!answer_) {
        Q_EMIT noted(tr("There is no page yet: the part needs a shape, a hold, a load and a limit."));
        return;
    }
    auto printer = std::make_shared<QPrinter>(QPrinter::HighResolution);
    printer->setPageSize(QPageSize(paper() == Paper::a4 ? QPageSize::A4 : QPageSize::Letter));
    printer->setFullPage(true);
    printer->setDocName(text(answer_.comparison->part.name));
    QPrintDialog dialog(printer.get(), this);
    dialog.setOption(QAbstractPrintDialog::PrintPageRange, false);
    if (dialog.exec() != QDialog::Accepted) return;
    whenComplete([this, printer] {
        if (!answer_) return;
        QPainter painter;
        if (!painter.begin(printer.get())) {
            Q_EMIT noted(tr("The printer did not take the page; choose another one, or export the page as PDF."));
            return;
        }
        paintPage(painter, printer->resolution() / 25.4, paper(), content(), *answer_.comparison);
        painter.end();
        Q_EMIT noted(tr("Page sent to %1").arg(printer->printerName()));
    });
}

}  // namespace waybench
