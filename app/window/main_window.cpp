#include "app/window/main_window.h"

#include <QButtonGroup>
#include <QCloseEvent>
#include <QCoreApplication>
#include <QDir>
#include <QFileDialog>
#include <QFileInfo>
#include <QHBoxLayout>
#include <QLabel>
#include <QLineEdit>
#include <QMessageBox>
#include <QMimeData>
#include <QPointer>
#include <QPushButton>
#include <QSettings>
#include <QSplitter>
#include <QStackedWidget>
#include <QStatusBar>
#include <QTimer>
#include <QVBoxLayout>
#include <algorithm>

#include "app/inspector/inspector.h"
#include "app/inspector/load_case_section.h"
#include "app/layers/layers_page.h"
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
#include "app/window/shape_import.h"
#include "app/window/start_page.h"
#include "app/window/status_notes.h"
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

namespace {

/// Installed first, then beside the sources.
QStringList demoRigPlaces() {
    const QString name = QStringLiteral("/hinge_endurance_rig.waybench");
    return {QStringLiteral(WAYBENCH_INSTALLED_DEMO) + name, QStringLiteral(WAYBENCH_SOURCE_DEMO) + name};
}

}  // namespace

QString demoRigFile() {
    const QStringList places = demoRigPlaces();
    return QFileInfo::exists(places.front()) ? places.front() : places.back();
}

bool isShippedSample(const QString& file) {
    const QString real = QFileInfo(file).canonicalFilePath();
    if (real.isEmpty()) return false;
    const QStringList places = demoRigPlaces();
    return std::any_of(places.begin(), places.end(),
                       [&](const QString& place) { return QFileInfo(place).canonicalFilePath() == real; });
}

MainWindow::MainWindow(std::shared_ptr<const Shop> shop) : document_(std::move(shop)), answers_(document_) {
    setAcceptDrops(true);
    auto* start = new StartPage(this);
    connect(start, &StartPage::demoAsked, this, [this] { openProject(demoRigFile()); });
    connect(start, &StartPage::openAsked, this, &MainWindow::openAsked);
    connect(start, &StartPage::drawingAsked, this, &MainWindow::importAsked);
    connect(start, &StartPage::recentAsked, this, [this](const QString& file) { openProject(file); });
    connect(start, &StartPage::newAsked, this, [this] {
        document_.startNew();
        document_.addPart(partOfFamily(familyNamed("plate")));
    });

    pages_ = new QStackedWidget(this);
    whatIf_ = new WhatIfPage(document_, answers_, this);
    layers_ = new LayersPage(document_, answers_, this);
    page_ = new PageView(document_, this);
    pages_->addWidget(makeBench());
    pages_->addWidget(whatIf_);
    pages_->addWidget(layers_);
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

    notes_ = new StatusNotes(this);
    statusBar()->addWidget(notes_, 1);
    auto* caution = new QLabel(QCoreApplication::translate("Help", cautionLine()), this);
    caution->setFont(textFont(TextSize::small));
    caution->setContentsMargins(space(2), 0, space(3), space(1));
    caution->setAccessibleName(tr("Caution"));
    statusBar()->addPermanentWidget(caution);
    statusBar()->setSizeGripEnabled(false);

    import_ = new ShapeImport(document_, this);
    makeMenus();
    connectAnswers();
    showStanding();
    resize(1400, 900);
    restoreGeometry(QSettings().value(QStringLiteral("window/geometry")).toByteArray());
    sideways_->restoreState(QSettings().value(QStringLiteral("window/sideways")).toByteArray());
    upright_->restoreState(QSettings().value(QStringLiteral("window/upright")).toByteArray());
}

MainWindow::~MainWindow() {
    hide();  // the field being left gives its words to a document that still lives
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
    const QStringList names = {tr("&Bench"), tr("&What if"), tr("La&yers"), tr("P&age")};
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
        inspector_->showSolids(solids);
        if (document_.currentPart() && !answers_.current()) views_->showSolids(solids);
    });
    connect(&answers_, &Answers::currentAnswered, this, [this](const Answer& answer) {
        inspector_->clearFault();
        verdict_->showComparison(answer.comparison);
        views_->showAnswer(answer);
        views_->setStale(false);
        ledger_->showComparison(answer.comparison);
        ledger_->setStale(false);
        showDetail();
        page_->showAnswer(answer, answer.comparison->fidelity == Fidelity::draft);
        showStage();
        notes_->dropNoteAboutAnswers();
    });
    connect(&answers_, &Answers::becameStale, this, [this] {
        views_->setStale(true);
        ledger_->setStale(true);
        page_->showAnswer(answers_.current(), true);
    });
    connect(&answers_, &Answers::currentFaulted, this, &MainWindow::showFault);
    connect(&answers_.job(), &ComparisonJob::stageChanged, this, &MainWindow::showStage);
    connect(&answers_.job(), &ComparisonJob::progressed, verdict_, &VerdictLine::setProgress);
    connect(verdict_, &VerdictLine::cancelAsked, this, [this] { answers_.stop(); });
    connect(verdict_, &VerdictLine::resumeAsked, this, [this] { answers_.resume(); });
    connect(ledger_, &LedgerView::rowSelected, this, [this] { showDetail(); });
    LoadCaseSection* loadCase = inspector_->loadCase();
    connect(loadCase, &LoadCaseSection::caseShown, views_, &TwinView::showLoadCase);
    connect(views_, &TwinView::holdAsked, loadCase, &LoadCaseSection::hold);
    connect(views_, &TwinView::loadAsked, loadCase, &LoadCaseSection::load);
    connect(views_, &TwinView::massAsked, loadCase, &LoadCaseSection::attach);
    connect(views_, &TwinView::measureAsked, loadCase, &LoadCaseSection::measure);
    connect(views_, &TwinView::releaseAsked, loadCase, &LoadCaseSection::release);
    connect(whatIf_, &WhatIfPage::faulted, this, [this](const Fault& fault) {
        if (fault.code == QLatin1String("cannot_write"))
            notes_->showFault(fault.sentence());
        else
            notes_->note(document_.asWritten(fault).sentence(), StatusNotes::About::answers);
    });
    const auto note = [this](const QString& words) { notes_->note(words); };
    connect(whatIf_, &WhatIfPage::noted, this, note);
    connect(page_, &PageView::noted, this, note);
    connect(parts_, &PartsPanel::importAsked, this, &MainWindow::importAsked);

    connect(&document_, &Document::faulted, this, [this](const Fault& fault) { notes_->showFault(fault.sentence()); });
    connect(&document_, &Document::noted, this, note);
    connect(&document_, &Document::projectReset, this, [this] { notes_->note({}); });
    connect(&document_, &Document::fileChanged, notes_, &StatusNotes::clearFault);
    connect(&document_, &Document::projectReset, this, &MainWindow::showStanding);
    connect(&document_, &Document::partsChanged, this, &MainWindow::showStanding);
    connect(&document_, &Document::fileChanged, this, &MainWindow::showStanding);
    connect(&document_, &Document::modifiedChanged, this, &QWidget::setWindowModified);
    connect(&document_, &Document::currentChanged, this, &MainWindow::showCurrent);
}

void MainWindow::showCurrent() {
    views_->fitNext();
    if (const Answer answer = answers_.current()) {
        verdict_->showComparison(answer.comparison);
        views_->showAnswer(answer);
        ledger_->showComparison(answer.comparison);
        showDetail();
        page_->showAnswer(answer, !answers_.isCurrent());
    } else {
        const bool hasPart = document_.currentPart() != nullptr;
        verdict_->showNothing(hasPart ? tr("Computing the first answer …")
                                      : tr("No part. Add one at the left, or drop a drawing or body here."));
        views_->clear();
        ledger_->showComparison(nullptr);
        showDetail();
        page_->showAnswer(answer, hasPart);
        if (!hasPart) {
            views_->setStale(false);
            ledger_->setStale(false);
            inspector_->setFaces({});
            notes_->dropNoteAboutAnswers();
        }
    }
    showStage();
}

void MainWindow::showDetail() {
    detail_->showRow(ledger_->row(ledger_->selectedRow()), ledger_->comparison());
}

void MainWindow::showStage() {
    ComparisonJob::Stage stage = answers_.job().stage();
    const Answer answer = answers_.current();
    if (!document_.currentPart())
        stage = ComparisonJob::Stage::idle;
    else if (answers_.isCurrent() && answer.comparison->fidelity == Fidelity::standard)
        stage = ComparisonJob::Stage::done;  // whatever was stopped was for another part
    verdict_->setStage(stage);
}

void MainWindow::showStanding() {
    whole_->setCurrentIndex(document_.isOpen() ? 1 : 0);
    setWindowTitle(document_.isOpen() ? tr("%1[*] – Waybench").arg(document_.name()) : tr("Waybench"));
    setWindowModified(document_.isModified());
}

void MainWindow::showFault(const Fault& raised) {
    const Fault fault = document_.asWritten(raised);
    verdict_->showFault(fault);
    if (!answers_.current()) views_->setStale(false);
    inspector_->showFault(fault);
    notes_->dropNoteAboutAnswers();  // verdict line and field say it in full
}

void MainWindow::commitTyping() {
    const QPointer<QWidget> focused = focusWidget();
    if (!focused || focused == this) return;
    const QPointer<QLineEdit> entry = qobject_cast<QLineEdit*>(focused);
    const int from = entry ? entry->selectionStart() : -1, length = entry ? entry->selectionLength() : 0;
    const int cursor = entry ? entry->cursorPosition() : 0;
    focused->clearFocus();
    // The parts list renames after its editor has closed.
    QCoreApplication::sendPostedEvents(parts_, QEvent::MetaCall);
    if (!focused || !focused->isVisible()) return;
    focused->setFocus(Qt::OtherFocusReason);
    if (!entry) return;
    entry->setCursorPosition(cursor);
    if (from >= 0) entry->setSelection(from, length);
}

bool MainWindow::openProject(const QString& file) {
    if (!mayDiscard()) return false;
    const bool opened = document_.open(file, isShippedSample(file));
    if (opened) showPage(Page::bench);
    return opened;
}

void MainWindow::openAsked() {
    const QString file =
        QFileDialog::getOpenFileName(this, tr("Open a project"), {}, tr("Waybench projects (*.waybench)"));
    if (!file.isEmpty()) openProject(file);
}

bool MainWindow::saveAsked() {
    commitTyping();
    if (document_.isSample() || document_.project().file.empty()) return saveAsAsked();
    if (document_.isChangedOnDisk()) {
        QMessageBox box(
            QMessageBox::NoIcon, tr("Changed elsewhere"),
            tr("%1 was changed by another program since it was read here. Overwriting it loses that change.")
                .arg(document_.name()),
            QMessageBox::Cancel, this);
        auto* overwrite = box.addButton(tr("&Overwrite"), QMessageBox::DestructiveRole);
        auto* elsewhere = box.addButton(tr("&Save as …"), QMessageBox::AcceptRole);
        box.setDefaultButton(elsewhere);
        box.setEscapeButton(QMessageBox::Cancel);
        box.exec();
        if (box.clickedButton() == elsewhere) return saveAsAsked();
        if (box.clickedButton() != overwrite) return false;
    }
    return document_.save();
}

bool MainWindow::saveAsAsked() {
    commitTyping();
    QString wish = text(document_.project().file.string());
    if (document_.isSample()) wish = QDir::home().filePath(QFileInfo(wish).fileName());
    for (;;) {
        QFileDialog dialog(this, tr("Save the project as"), QFileInfo(wish).path(),
                           tr("Waybench projects (*.waybench)"));
        dialog.setAcceptMode(QFileDialog::AcceptSave);
        dialog.setDefaultSuffix(QStringLiteral("waybench"));  // before the dialog's own question about overwriting
        dialog.selectFile(QFileInfo(wish).fileName());
        if (dialog.exec() != QDialog::Accepted) return false;
        wish = dialog.selectedFiles().constFirst();
        // A name with another ending is not completed by the dialog, which then asked about another file.
        const bool completed = !isProject(wish);
        if (completed) wish += QStringLiteral(".waybench");
        if (isShippedSample(wish)) {
            QMessageBox::information(this, tr("Shipped sample"),
                                     tr("%1 is a sample that came with the program and stays as it is. Choose another "
                                        "name or folder.")
                                         .arg(QFileInfo(wish).fileName()));
        } else if (!completed || !QFileInfo::exists(wish) || mayOverwrite(wish)) {
            return document_.saveAs(wish);
        }
    }
}

bool MainWindow::mayOverwrite(const QString& file) {
    return QMessageBox::question(this, tr("Save the project as"),
                                 tr("%1 exists already. Replace it?").arg(QFileInfo(file).fileName()),
                                 QMessageBox::Yes | QMessageBox::No, QMessageBox::No) == QMessageBox::Yes;
}

void MainWindow::importAsked() {
    commitTyping();
    const QString file =
        QFileDialog::getOpenFileName(this, tr("Drawing or body of a part"), {},
                                     tr("Drawings and bodies (*.dxf *.DXF *.stl *.STL *.step *.STEP *.stp *.STP)"));
    if (!file.isEmpty()) import_->take(file);
}

bool MainWindow::mayDiscard() {
    commitTyping();
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
    commitTyping();
    for (const QString& file : takenFiles(event->mimeData()))
        if (isProject(file))
            openProject(file);
        else
            import_->take(file);
    event->acceptProposedAction();
}

}  // namespace waybench
