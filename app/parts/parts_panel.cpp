#include "app/parts/parts_panel.h"

#include <QKeyEvent>
#include <QLabel>
#include <QListWidget>
#include <QMenu>
#include <QPainter>
#include <QToolButton>
#include <QVBoxLayout>

#include "app/document/document.h"
#include "app/jobs/answers.h"
#include "app/parts/part_delegate.h"
#include "app/style/route_mark.h"
#include "app/style/shown_figure.h"
#include "app/style/theme.h"

namespace waybench {

PartsPanel::PartsPanel(Document& document, Answers& answers, QWidget* parent)
    : QWidget(parent), document_(document), answers_(answers) {
    list_ = new QListWidget(this);
    list_->setFrameShape(QFrame::NoFrame);
    list_->setItemDelegate(new PartDelegate(list_));
    list_->setEditTriggers(QAbstractItemView::EditKeyPressed | QAbstractItemView::DoubleClicked);
    list_->setContextMenuPolicy(Qt::CustomContextMenu);
    list_->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    list_->setMouseTracking(true);
    list_->setAccessibleName(tr("Parts of the rig"));
    list_->viewport()->setAutoFillBackground(false);
    list_->installEventFilter(this);
    auto* heading = new QLabel(tr("Parts"), this);
    heading->setFont(textFont(TextSize::lead, QFont::DemiBold));
    add_ = new QToolButton(this);
    add_->setText(tr("+ Add"));
    add_->setAutoRaise(true);
    add_->setPopupMode(QToolButton::InstantPopup);
    add_->setAccessibleName(tr("Add a part"));
    addMenu_ = new QMenu(tr("&Add a part"), this);
    for (const Family* family : families())
        addMenu_->addAction(text(family->title()), this, [this, family] { document_.addPart(partOfFamily(*family)); });
    addMenu_->addSeparator();
    addMenu_->addAction(tr("From a &drawing or body (DXF, STL, STEP) …"), this, &PartsPanel::importAsked);
    add_->setMenu(addMenu_);
    add_->setStyleSheet(QStringLiteral("QToolButton::menu-indicator { image: none; }"));

    auto* head = new QHBoxLayout;
    head->setContentsMargins(space(3), space(2), space(2), space(1));
    head->addWidget(heading);
    head->addStretch();
    head->addWidget(add_);
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(0);
    column->addLayout(head);
    column->addWidget(list_, 1);

    connect(list_, &QListWidget::currentRowChanged, this, [this](int row) {
        if (!filling_) document_.setCurrentIndex(row);
    });
    connect(list_, &QListWidget::itemChanged, this, [this](QListWidgetItem* item) {
        if (filling_) return;
        // Queued: the list is rebuilt by the rename, while its editor is still closing.
        QMetaObject::invokeMethod(
            this,
            [this, row = list_->row(item), name = item->text()] {
                if (!document_.renamePart(row, name)) refreshItem(row);
            },
            Qt::QueuedConnection);
    });
    connect(list_, &QListWidget::customContextMenuRequested, this, [this](const QPoint& at) {
        const int row = list_->indexAt(at).row();
        if (row < 0) return;
        QMenu menu(this);
        menu.addAction(tr("&Rename"), this, &PartsPanel::renameCurrent);
        menu.addAction(tr("D&uplicate"), this, [this, row] { document_.duplicatePart(row); });
        menu.addAction(tr("&Delete"), this, [this, row] { document_.removePart(row); });
        menu.exec(list_->viewport()->mapToGlobal(at));
    });
    connect(&document_, &Document::projectReset, this, &PartsPanel::rebuild);
    connect(&document_, &Document::partsChanged, this, &PartsPanel::rebuild);
    connect(&document_, &Document::currentChanged, this, [this](int index) {
        filling_ = true;
        list_->setCurrentRow(index);
        filling_ = false;
    });
    connect(&document_, &Document::partEdited, this, [this](int index) {
        refreshItem(index);
        toRedraw_.insert(index);
        redraw_.start();
    });
    connect(&answers_, &Answers::partKnown, this, [this](const std::string& name) {
        for (int k = 0; k < int(document_.project().parts.size()); ++k)
            if (document_.project().parts[std::size_t(k)].name == name) refreshItem(k);
    });
    connect(&thumbnails_, &ThumbnailJob::drawn, this, [this](const QString& name, const QImage& image) {
        filling_ = true;
        for (int k = 0; k < list_->count(); ++k)
            if (list_->item(k)->text() == name) list_->item(k)->setData(PartDelegate::imageRole, image);
        filling_ = false;
    });
    connect(&Theme::instance(), &Theme::changed, this, [this] {
        rebuild();
        update();
    });
    redraw_.setSingleShot(true);
    redraw_.setInterval(500);
    connect(&redraw_, &QTimer::timeout, this, [this] {
        for (const int k : toRedraw_)
            askThumbnail(k);
        toRedraw_.clear();
    });
    rebuild();
}

void PartsPanel::renameCurrent() {
    if (QListWidgetItem* item = list_->currentItem()) list_->editItem(item);
}

void PartsPanel::rebuild() {
    filling_ = true;
    thumbnails_.dropAll();
    list_->clear();
    for (const Part& part : document_.project().parts) {
        auto* item = new QListWidgetItem(text(part.name), list_);
        item->setFlags(item->flags() | Qt::ItemIsEditable);
    }
    list_->setCurrentRow(document_.currentIndex());
    filling_ = false;
    for (int k = 0; k < list_->count(); ++k) {
        refreshItem(k);
        askThumbnail(k);
    }
}

void PartsPanel::refreshItem(int index) {
    if (index < 0 || index >= list_->count() || index >= int(document_.project().parts.size())) return;
    const Part& part = document_.project().parts[std::size_t(index)];
    RouteMark mark = RouteMark::pending;
    QString note;
    const Answers::Known* known = answers_.known(part.name);
    if (part.chosenRoute == "printed" || part.chosenRoute == "machined") {
        mark = part.chosenRoute == "printed" ? RouteMark::printed : RouteMark::machined;
        note = tr(", settled");
    } else if (known && known->fault) {
        note = tr(": see verdict");
    } else if (known && known->answer) {
        mark = markOf(known->answer.comparison->verdict.choice);
        if (!sameInputs(known->part, part)) note = QStringLiteral(" …");
    }
    QListWidgetItem* item = list_->item(index);
    filling_ = true;
    if (item->text() != text(part.name)) item->setText(text(part.name));
    item->setData(PartDelegate::markRole, int(mark));
    item->setData(PartDelegate::noteRole, note);
    item->setData(Qt::AccessibleTextRole, QStringLiteral("%1, %2%3").arg(text(part.name), wordOf(mark), note));
    item->setToolTip(part.note.empty() ? text(part.name) : text(part.name) + QStringLiteral("\n") + text(part.note));
    filling_ = false;
}

void PartsPanel::askThumbnail(int index) {
    if (index < 0 || index >= int(document_.project().parts.size())) return;
    thumbnails_.ask(document_.project().parts[std::size_t(index)], document_.project().folder(),
                    PartDelegate::pictureSize(), devicePixelRatioF());
}

bool PartsPanel::eventFilter(QObject* watched, QEvent* event) {
    if (watched == list_ && event->type() == QEvent::KeyPress) {
        const auto* key = static_cast<QKeyEvent*>(event);
        if (key->key() == Qt::Key_Delete) {
            document_.removePart(list_->currentRow());
            return true;
        }
        if (key->key() == Qt::Key_D && (key->modifiers() & Qt::ControlModifier)) {
            document_.duplicatePart(list_->currentRow());
            return true;
        }
    }
    return QWidget::eventFilter(watched, event);
}

void PartsPanel::paintEvent(QPaintEvent*) {
    QPainter painter(this);
    painter.fillRect(rect(), colours().ground);
}

}  // namespace waybench
