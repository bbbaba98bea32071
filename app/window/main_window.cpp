#include "app/window/main_window.h"

#include <QButtonGroup>
#include <QCloseEvent>
#include <QCoreApplication>
#include <QFileDialog>
#include <QFileInfo>
#include <QHBoxLayout>
#include <QLabel>
#include <QMessageBox>
#include <QMimeData>
#include <QPushButton>
#include <QSettings>
#include <QSplitter>
#include <QStackedWidget>
#include <QStatusBar>
#include <QTimer>
#include <QVBoxLayout>

#include "app/inspector/inspector.h"
#include "app/inspector/load_case_section.h"
#include "app/ledger/ledger_detail.h"
#include "app/ledger/ledger_view.h"
#include "app/page/page_view.h"
#include "app/parts/parts_panel.h"
#include "app/style/shown_figure.h"
#include "app/style/theme.h"
#include "app/twinview/twin_view.h"
#include "app/verdict/verdict_line.h"
#include "app/whatif/whatif_page.h"
#include "app/window/help_window.h"
#include "app/window/start_page.h"
#include "core/geometry/shape.h"

namespace waybench {

namespace {

QStringList takenFiles(const QMimeData* dropped) {
    QStringList files;
    for (const QUrl& url : dropped->urls()) {
        const QString file = url.toLocalFile();
        const QString ending = QFileInfo(file).suffix().toLower();
        if (ending == QLatin1String("waybench") || shapeEndings().contains(ending)) files << file;
    }
    return files;
}

bool isProject(const QString& file) {
    return file.endsWith(QLatin1String(".waybench"), Qt::CaseInsensitive);
}

}  // namespace

QString demoRigFile() {
    const QString name = QStringLiteral("/hinge_endurance_rig.waybench");
    const QString installed = QStringLiteral(WAYBENCH_INSTALLED_DEMO) + name;
    return QFileInfo::exists(installed) ? installed : QStringLiteral(WAYBENCH_SOURCE_DEMO) + name;
}

MainWindow::MainWindow(std::shared_ptr<const Shop> shop) : document_(std::move(shop)), answers_(document_) {
    setAcceptDrops(true);
    auto* start = new StartPage(this);
    connect(start, &StartPage::demoAsked, this, [this] { openProject(demoRigFile(), true); });
    connect(start, &StartPage::openAsked, this, &MainWindow::openAsked);
    connect(start, &StartPage::drawingAsked, this, &MainWindow::importAsked);
    connect(start, &StartPage::recentAsked, this, [this](const QString& file) { openProject(file); });
    connect(start, &StartPage::newAsked, this, [this] {
        document_.startNew();
        document_.addPart(partOfFamily(familyNamed("plate")));
    });

    pages_ = new QStackedWidget(this);
    whatIf_ = new WhatIfPage(document_, answers_, this);
    page_ = new PageView(document_, this);
    pages_->addWidget(makeBench());
    pages_->addWidget(whatIf_);
    pages_->addWidget(page_);
    auto* project = new QWidget(this);
    auto* column = new QVBoxLayout(project);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(0);
    column->addWidget(makePageRow());
    column->addWidget(pages_, 1);
    whole_ = new QStackedWidget(this);
    whole_->addWidget(start);
    whole_->addWidget(project);
    setCentralWidget(whole_);

    note_ = new QLabel(this);
    note_->setSizePolicy(QSizePolicy::Ignored, QSizePolicy::Preferred);  // the caution beside it is never cut
    note_->setTextInteractionFlags(Qt::TextSelectableByMouse);
    statusBar()->addWidget(note_, 1);
    auto* caution = new QLabel(QCoreApplication::translate("Help", cautionLine()), this);
    caution->setFont(textFont(TextSize::small));
    caution->setContentsMargins(space(2), 0, space(3), space(1));
    caution->setAccessibleName(tr("Caution"));
    statusBar()->addPermanentWidget(caution);
    statusBar()->setSizeGripEnabled(false);

    makeMenus();
    connectAnswers();
    showStanding();
    resize(1400, 900);
    restoreGeometry(QSettings().value(QStringLiteral("window/geometry")).toByteArray());
    sideways_->restoreState(QSettings().value(QStringLiteral("window/sideways")).toByteArray());
    upright_->restoreState(QSettings().value(QStringLiteral("window/upright")).toByteArray());
}

QWidget* MainWindow::makeBench() {
    parts_ = new PartsPanel(document_, answers_, this);
    verdict_ = new VerdictLine(this);
    views_ = new TwinView(this);
    ledger_ = new LedgerView(this);
    detail_ = new LedgerDetail(this);
    inspector_ = new Inspector(document_, this);

    auto* above = new QWidget(this);
    auto* aboveColumn = new QVBoxLayout(above);
    aboveColumn->setContentsMargins(0, 0, 0, 0);
    aboveColumn->setSpacing(0);
    aboveColumn->addWidget(verdict_);
    aboveColumn->addWidget(views_, 1);
    auto* below = new QWidget(this);
    auto* belowColumn = new QVBoxLayout(below);
    belowColumn->setContentsMargins(0, 0, 0, 0);
    belowColumn->setSpacing(0);
    belowColumn->addWidget(ledger_, 1);
    belowColumn->addWidget(detail_);
    upright_ = new QSplitter(Qt::Vertical, this);
    upright_->addWidget(above);
    upright_->addWidget(below);
    upright_->setStretchFactor(0, 5);
    upright_->setStretchFactor(1, 4);
    upright_->setChildrenCollapsible(false);
    upright_->setSizes({space(110), space(118)});

    sideways_ = new QSplitter(Qt::Horizontal, this);
    for (QWidget* w : std::initializer_list<QWidget*>{parts_, upright_, inspector_})
        sideways_->addWidget(w);
    parts_->setMinimumWidth(space(52));
    inspector_->setMinimumWidth(space(80));
    sideways_->setStretchFactor(1, 1);
    sideways_->setChildrenCollapsible(false);
    const int letter = QFontMetrics(textFont(TextSize::body)).averageCharWidth();
    sideways_->setSizes({letter * 34, letter * 110, letter * 50});
    return sideways_;
}

QWidget* MainWindow::makePageRow() {
    auto* row = new QWidget(this);
    auto* line = new QHBoxLayout(row);
    line->setContentsMargins(space(3), space(1), space(3), space(1));
    pageRow_ = new QButtonGroup(this);
    const QStringList names = {tr("&Bench"), tr("&What if"), tr("P&age")};
    for (int k = 0; k < names.size(); ++k) {
        auto* button = new QPushButton(names[k], row);
        button->setCheckable(true);
        button->setChecked(k == 0);
        button->setFlat(true);
        pageRow_->addButton(button, k);
        line->addWidget(button);
    }
    line->addStretch();
    connect(pageRow_, &QButtonGroup::idClicked, this, [this](int k) { showPage(Page(k)); });
    return row;
}

void MainWindow::showPage(Page page) {
    pages_->setCurrentIndex(int(page));
    pageRow_->button(int(page))->setChecked(true);
    page_->setActive(page == Page::onePage);
}

void MainWindow::connectAnswers() {
    connect(&answers_, &Answers::solidsReady, this, [this](const PartSolids& solids) {
        QStringList faces;
        const auto& drawn = solids.printed ? solids.printed : solids.machined;
        if (drawn)
            for (const Face& face : drawn->solid->faces)
                faces << text(face.name);
        inspector_->setFaces(faces);
        const Part* part = document_.currentPart();
        if (part && !answers_.current()) views_->showSolids(solids, part->loadCase);
    });
    connect(&answers_, &Answers::currentAnswered, this, [this](const Answer& answer) {
        inspector_->clearFault();
        verdict_->showComparison(answer.comparison);
        views_->showAnswer(answer);
        views_->setStale(false);
        ledger_->showComparison(answer.comparison);
        ledger_->setStale(false);
        detail_->showRow(ledger_->row(ledger_->selectedRow()));
        page_->showAnswer(answer, answer.comparison->fidelity == Fidelity::draft);
        note({});
    });
    connect(&answers_, &Answers::becameStale, this, [this] {
        views_->setStale(true);
        ledger_->setStale(true);
        page_->showAnswer(answers_.current(), true);
    });
    connect(&answers_, &Answers::currentFaulted, this, &MainWindow::showFault);
    connect(&answers_.job(), &ComparisonJob::stageChanged, verdict_, &VerdictLine::setStage);
    connect(&answers_.job(), &ComparisonJob::progressed, verdict_, &VerdictLine::setProgress);
    connect(verdict_, &VerdictLine::cancelAsked, this, [this] { answers_.stop(); });
    connect(verdict_, &VerdictLine::resumeAsked, this, [this] { answers_.resume(); });
    connect(ledger_, &LedgerView::rowSelected, this, [this](int row) { detail_->showRow(ledger_->row(row)); });
    LoadCaseSection* loadCase = inspector_->loadCase();
    connect(views_, &TwinView::holdAsked, loadCase, &LoadCaseSection::hold);
    connect(views_, &TwinView::loadAsked, loadCase, &LoadCaseSection::load);
    connect(views_, &TwinView::measureAsked, loadCase, &LoadCaseSection::measure);
    connect(views_, &TwinView::releaseAsked, loadCase, &LoadCaseSection::release);
    connect(whatIf_, &WhatIfPage::faulted, this, [this](const Fault& fault) { note(fault.sentence()); });
    connect(whatIf_, &WhatIfPage::noted, this, &MainWindow::note);
    connect(page_, &PageView::noted, this, &MainWindow::note);
    connect(parts_, &PartsPanel::importAsked, this, &MainWindow::importAsked);

    connect(&document_, &Document::faulted, this, [this](const Fault& fault) { note(fault.sentence()); });
    connect(&document_, &Document::noted, this, &MainWindow::note);
    connect(&document_, &Document::projectReset, this, &MainWindow::showStanding);
    connect(&document_, &Document::partsChanged, this, &MainWindow::showStanding);
    connect(&document_, &Document::fileChanged, this, &MainWindow::showStanding);
    connect(&document_, &Document::modifiedChanged, this, &QWidget::setWindowModified);
    connect(&document_, &Document::currentChanged, this, [this](int) {
        views_->fitNext();
        if (const Answer answer = answers_.current()) {
            verdict_->showComparison(answer.comparison);
            views_->showAnswer(answer);
            ledger_->showComparison(answer.comparison);
            detail_->showRow(ledger_->row(ledger_->selectedRow()));
            page_->showAnswer(answer, !answers_.isCurrent());
        } else {
            verdict_->showNothing(tr("Computing the first answer …"));
            views_->clear();
            ledger_->showComparison(nullptr);
        }
    });
}

void MainWindow::showStanding() {
    whole_->setCurrentIndex(document_.isOpen() ? 1 : 0);
    setWindowTitle(document_.isOpen() ? tr("%1[*] – Waybench").arg(document_.name()) : tr("Waybench"));
    setWindowModified(document_.isModified());
    if (document_.isOpen() && !document_.currentPart()) verdict_->showNothing(tr("Add a part at the left."));
}

void MainWindow::showFault(const Fault& fault) {
    verdict_->showFault(fault);
    if (!answers_.current()) views_->setStale(false);
    inspector_->showFault(fault);
    note({});  // verdict line and field say it in full
}

void MainWindow::note(const QString& message) {
    note_->setText(message);
    note_->setToolTip(message);
}

bool MainWindow::openProject(const QString& file, bool asSample) {
    if (!mayDiscard()) return false;
    const bool opened = document_.open(file, asSample);
    if (opened) showPage(Page::bench);
    return opened;
}

void MainWindow::openAsked() {
    const QString file =
        QFileDialog::getOpenFileName(this, tr("Open a project"), {}, tr("Waybench projects (*.waybench)"));
    if (!file.isEmpty()) openProject(file);
}

bool MainWindow::saveAsked() {
    if (document_.isSample() || document_.project().file.empty()) return saveAsAsked();
    return document_.save();
}

bool MainWindow::saveAsAsked() {
    QString file = QFileDialog::getSaveFileName(
        this, tr("Save the project as"), text(document_.project().file.string()), tr("Waybench projects (*.waybench)"));
    if (file.isEmpty()) return false;
    if (!isProject(file)) file += QStringLiteral(".waybench");
    return document_.saveAs(file);
}

void MainWindow::importAsked() {
    const QString file =
        QFileDialog::getOpenFileName(this, tr("Drawing or body of a part"), {},
                                     tr("Drawings and bodies (*.dxf *.DXF *.stl *.STL *.step *.STEP *.stp *.STP)"));
    if (!file.isEmpty()) document_.importShape(file);
}

bool MainWindow::mayDiscard() {
    if (!document_.isModified()) return true;
    QMessageBox box(QMessageBox::NoIcon, tr("Unsaved work"), tr("Save the changes to %1?").arg(document_.name()),
                    QMessageBox::Save | QMessageBox::Discard | QMessageBox::Cancel, this);
    box.setDefaultButton(QMessageBox::Save);
    box.setEscapeButton(QMessageBox::Cancel);
    switch (box.exec()) {
        case QMessageBox::Save:
            return saveAsked();
        case QMessageBox::Discard:
            return true;
        default:
            return false;
    }
}

void MainWindow::closeEvent(QCloseEvent* event) {
    if (!mayDiscard()) {
        event->ignore();
        return;
    }
    QSettings settings;
    settings.setValue(QStringLiteral("window/geometry"), saveGeometry());
    settings.setValue(QStringLiteral("window/sideways"), sideways_->saveState());
    settings.setValue(QStringLiteral("window/upright"), upright_->saveState());
    event->accept();
}

void MainWindow::dragEnterEvent(QDragEnterEvent* event) {
    if (!takenFiles(event->mimeData()).isEmpty()) event->acceptProposedAction();
}

void MainWindow::dropEvent(QDropEvent* event) {
    for (const QString& file : takenFiles(event->mimeData()))
        if (isProject(file))
            openProject(file);
        else
            document_.importShape(file);
    event->acceptProposedAction();
}

}  // namespace waybench
