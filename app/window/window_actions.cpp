#include <QActionGroup>
#include <QApplication>
#include <QFileInfo>
#include <QMenu>
#include <QMenuBar>

#include "app/page/page_view.h"
#include "app/parts/parts_panel.h"
#include "app/style/theme.h"
#include "app/twinview/twin_view.h"
#include "app/window/help_window.h"
#include "app/window/main_window.h"
#include "core/geometry/shape.h"

namespace waybench {

namespace {

/// Names of parts and files give no access keys.
QString plainInMenu(QString words) {
    return words.replace(QLatin1Char('&'), QStringLiteral("&&"));
}

}  // namespace

void MainWindow::makeMenus() {
    QMenu* file = menuBar()->addMenu(tr("&File"));
    file->addAction(tr("&New"), QKeySequence::New, this, [this] {
        if (!mayDiscard()) return;
        document_.startNew();
        document_.addPart(partOfFamily(familyNamed("plate")));
    });
    file->addAction(tr("&Open …"), QKeySequence::Open, this, &MainWindow::openAsked);
    QMenu* recent = file->addMenu(tr("Open &recent"));
    connect(recent, &QMenu::aboutToShow, this, [this, recent] { fillRecent(recent); });
    file->addAction(tr("Open the &demo rig"), this, [this] { openProject(demoRigFile()); });
    file->addSeparator();
    file->addAction(tr("&Save"), QKeySequence::Save, this, [this] { saveAsked(); });
    // Keys written out where not every desktop has a standard of its own.
    file->addAction(tr("Save &as …"), QKeySequence(Qt::CTRL | Qt::SHIFT | Qt::Key_S), this, [this] { saveAsAsked(); });
    file->addSeparator();
    file->addAction(tr("&Import a drawing or body …"), this, &MainWindow::importAsked);
    file->addAction(tr("&Export the page as PDF …"), QKeySequence(Qt::CTRL | Qt::Key_E), this, [this] {
        commitTyping();
        page_->askExport();
    });
    file->addAction(tr("&Print the page …"), QKeySequence::Print, this, [this] {
        commitTyping();
        page_->askPrint();
    });
    file->addSeparator();
    file->addAction(tr("&Quit"), QKeySequence(Qt::CTRL | Qt::Key_Q), this, &QWidget::close);

    QMenu* edit = menuBar()->addMenu(tr("&Edit"));
    QUndoStack* steps = &document_.undoStack();
    QAction* undo = edit->addAction(tr("&Undo"), steps, &QUndoStack::undo);
    undo->setShortcut(QKeySequence(Qt::CTRL | Qt::Key_Z));
    QAction* redo = edit->addAction(tr("&Redo"), steps, &QUndoStack::redo);
    redo->setShortcuts({QKeySequence(Qt::CTRL | Qt::SHIFT | Qt::Key_Z), QKeySequence(Qt::CTRL | Qt::Key_Y)});
    for (QAction* action : {undo, redo})
        action->setEnabled(false);
    connect(steps, &QUndoStack::canUndoChanged, undo, &QAction::setEnabled);
    connect(steps, &QUndoStack::canRedoChanged, redo, &QAction::setEnabled);
    connect(steps, &QUndoStack::undoTextChanged, undo,
            [undo](const QString& step) { undo->setText(tr("&Undo %1").arg(plainInMenu(step)).trimmed()); });
    connect(steps, &QUndoStack::redoTextChanged, redo,
            [redo](const QString& step) { redo->setText(tr("&Redo %1").arg(plainInMenu(step)).trimmed()); });
    edit->addSeparator();
    edit->addMenu(parts_->addMenu());
    // Keys in the text only: the list itself answers them, so that they stay free in the fields.
    QAction* rename = edit->addAction(tr("Re&name the part\tF2"), this, [this] {
        showPage(Page::bench);
        parts_->renameCurrent();
    });
    QAction* duplicate = edit->addAction(tr("Du&plicate the part\tCtrl+D"), this,
                                         [this] { document_.duplicatePart(document_.currentIndex()); });
    QAction* remove =
        edit->addAction(tr("&Delete the part\tDel"), this, [this] { document_.removePart(document_.currentIndex()); });
    connect(edit, &QMenu::aboutToShow, this, [this, rename, duplicate, remove] {
        for (QAction* action : {rename, duplicate, remove})
            action->setEnabled(document_.currentPart() != nullptr);
    });

    QMenu* view = menuBar()->addMenu(tr("&View"));
    view->addAction(tr("&Bench"), QKeySequence(Qt::CTRL | Qt::Key_1), this, [this] { showPage(Page::bench); });
    view->addAction(tr("&What if"), QKeySequence(Qt::CTRL | Qt::Key_2), this, [this] { showPage(Page::whatIf); });
    view->addAction(tr("La&yers"), QKeySequence(Qt::CTRL | Qt::Key_3), this, [this] { showPage(Page::layers); });
    view->addAction(tr("P&age"), QKeySequence(Qt::CTRL | Qt::Key_4), this, [this] { showPage(Page::onePage); });
    view->addSeparator();
    view->addAction(tr("&Fit the part"), views_, &TwinView::fit);
    QMenu* along = view->addMenu(tr("L&ook from"));
    for (const Direction d : {Direction::plus_x, Direction::minus_x, Direction::plus_y, Direction::minus_y,
                              Direction::plus_z, Direction::minus_z})
        along->addAction(QString::fromLatin1(nameOf(d)), this, [this, d] {
            Camera camera = views_->camera();
            camera.lookAlong(d);
            views_->setCamera(camera);
        });
    view->addSeparator();
    auto* themes = new QActionGroup(this);
    const std::pair<QString, ThemeChoice> choices[] = {{tr("As the &system"), ThemeChoice::system},
                                                       {tr("&Light"), ThemeChoice::light},
                                                       {tr("&Dark"), ThemeChoice::dark}};
    for (const auto& [name, choice] : choices) {
        QAction* action = view->addAction(name, this, [c = choice] { Theme::instance().choose(c); });
        action->setCheckable(true);
        action->setChecked(Theme::instance().choice() == choice);
        themes->addAction(action);
    }

    QMenu* help = menuBar()->addMenu(tr("&Help"));
    help->addAction(tr("&How to, limits, cautions …"), QKeySequence::HelpContents, this, [this] { showHelp(this); });
}

void MainWindow::fillRecent(QMenu* menu) {
    menu->clear();
    for (const QString& file : Document::recentFiles()) {
        QAction* action =
            menu->addAction(plainInMenu(QFileInfo(file).fileName()), this, [this, file] { openProject(file); });
        action->setToolTip(file);
        action->setEnabled(QFileInfo::exists(file));
    }
    if (menu->isEmpty()) menu->addAction(tr("nothing yet"))->setEnabled(false);
}

}  // namespace waybench
