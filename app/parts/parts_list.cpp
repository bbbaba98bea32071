#include "app/parts/parts_list.h"

#include <QFileDialog>
#include <QHBoxLayout>
#include <QListWidget>
#include <QMenu>
#include <QPushButton>
#include <QShortcut>
#include <QVBoxLayout>
#include <QtConcurrent/QtConcurrentRun>

#include "app/document/document.h"
#include "app/parts/part_entry_painter.h"
#include "app/style/shown_figure.h"
#include "app/style/theme.h"
#include "core/geometry/shape.h"

namespace waybench {

namespace {

QImage thumbnail(const DrawnSolid& drawn, double ratio) {
    Camera camera;
    const QSize size(96, 72);
    camera.fit(boundsOf(drawn.solid->mesh), size, 1.05);
    PaintStyle style;
    style.body = colours().body;
    style.edge = colours().edge;
    return MeshPainter::paint(drawn.paintable, camera, size, ratio, style).image;
}

}  // namespace

PartsList::PartsList(Document& document, QWidget* parent) : QWidget(parent), document_(document) {
    list_ = new QListWidget(this);
    list_->setItemDelegate(new PartEntryPainter(list_));
    list_->setAccessibleName(tr("Parts of the rig"));
    list_->setFrameShape(QFrame::NoFrame);
    list_->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    list_->setEditTriggers(QAbstractItemView::EditKeyPressed | QAbstractItemView::DoubleClicked);
    list_->setVerticalScrollMode(QAbstractItemView::ScrollPerPixel);
    auto* add = new QPushButton(tr("Add part"), this);
    connect(add, &QPushButton::clicked, this, [this, add] { offerAdding(add->mapToGlobal(QPoint(0, add->height()))); });
    auto* twin = new QPushButton(tr("Duplicate"), this);
    connect(twin, &QPushButton::clicked, this, [this] {
        if (list_->currentRow() >= 0) document_.duplicatePart(list_->currentRow());
    });
    auto* remove = new QShortcut(QKeySequence::Delete, list_, nullptr, nullptr, Qt::WidgetShortcut);
    connect(remove, &QShortcut::activated, this, [this] {
        if (list_->currentRow() >= 0) document_.removePart(list_->currentRow());
    });
    auto* buttons = new QHBoxLayout;
    buttons->setContentsMargins(space(2), space(1), space(2), space(2));
    buttons->addWidget(add);
    buttons->addWidget(twin);
    buttons->addStretch();
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(0);
    column->addWidget(list_, 1);
    column->addLayout(buttons);

    connect(list_, &QListWidget::currentRowChanged, this, [this](int row) {
        if (!rebuilding_ && row >= 0) document_.setCurrentIndex(row);
    });
    connect(list_, &QListWidget::itemChanged, this, [this](QListWidgetItem* item) {
        const int row = list_->row(item);
        if (rebuilding_ || row < 0 || row >= int(document_.project().parts.size())) return;
        if (text(document_.project().parts[std::size_t(row)].name) != item->text())
            document_.renamePart(row, item->text());
    });
    connect(&document_, &Document::projectReset, this, [this] {
        known_.clear();
        rebuild();
    });
    connect(&document_, &Document::partsChanged, this, [this] { rebuild(); });
    connect(&document_, &Document::currentChanged, this, [this](int row) {
        if (list_->currentRow() != row) list_->setCurrentRow(row);
    });
    rebuild();
}

void PartsList::rebuild() {
    rebuilding_ = true;
    list_->clear();
    for (const Part& part : document_.project().parts) {
        auto* item = new QListWidgetItem(text(part.name), list_);
        item->setFlags(item->flags() | Qt::ItemIsEditable);
        const Entry entry = known_.value(text(part.name));
        item->setData(Qt::DecorationRole, entry.picture);
        item->setData(PartEntryPainter::markRole, int(entry.mark));
        item->setData(Qt::AccessibleTextRole, tr("%1, %2").arg(text(part.name), wordOf(entry.mark)));
    }
    list_->setCurrentRow(document_.currentIndex());
    rebuilding_ = false;
}

void PartsList::showAnswer(int index, const Answer& answer) {
    if (index < 0 || index >= list_->count() || !answer) return;
    rebuilding_ = true;
    QListWidgetItem* item = list_->item(index);
    Entry& entry = known_[item->text()];
    entry.mark = markOf(answer.comparison->verdict.choice);
    item->setData(PartEntryPainter::markRole, int(entry.mark));
    item->setData(Qt::AccessibleTextRole, tr("%1, %2").arg(item->text(), wordOf(entry.mark)));
    rebuilding_ = false;
    const auto drawn = entry.mark == RouteMark::machined ? answer.solids.machined : answer.solids.printed;
    if (!drawn) return;
    const QString name = item->text();
    const double ratio = devicePixelRatioF();
    QtConcurrent::run([drawn, ratio] {
        return thumbnail(*drawn, ratio);
    }).then(this, [this, name](const QImage& image) {
        known_[name].picture = QPixmap::fromImage(image);
        for (int row = 0; row < list_->count(); ++row)
            if (list_->item(row)->text() == name) {
                rebuilding_ = true;
                list_->item(row)->setData(Qt::DecorationRole, known_[name].picture);
                rebuilding_ = false;
            }
    });
}

void PartsList::showPending(int index) {
    if (index < 0 || index >= list_->count()) return;
    rebuilding_ = true;
    known_[list_->item(index)->text()].mark = RouteMark::pending;
    list_->item(index)->setData(PartEntryPainter::markRole, int(RouteMark::pending));
    rebuilding_ = false;
}

void PartsList::offerAdding(const QPoint& global) {
    QMenu menu(this);
    menu.addAction(tr("From a &drawing (DXF) or surface (STL) …"), this, [this] {
        const QString file = QFileDialog::getOpenFileName(this, tr("Drawing or surface"), {},
                                                          tr("Drawings and surfaces (*.dxf *.DXF *.stl *.STL)"));
        if (!file.isEmpty()) document_.importShape(file);
    });
    menu.addSeparator();
    for (const Family* family : families())
        menu.addAction(text(family->title()), this, [this, family] { document_.addPart(partOfFamily(*family)); });
    menu.exec(global);
}

}  // namespace waybench
