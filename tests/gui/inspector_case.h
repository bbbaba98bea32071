#pragma once
#include <QAbstractItemView>
#include <QLineEdit>
#include <QMainWindow>
#include <QTest>
#include <QWheelEvent>
#include <memory>

#include "app/document/document.h"
#include "app/inspector/inspector.h"
#include "app/inspector/quantity_field.h"
#include "tests/gui/window_case.h"

namespace waybench::testing {

inline const QStringList kFaces = {QStringLiteral("bottom"), QStringLiteral("top"),  QStringLiteral("front"),
                                   QStringLiteral("back"),   QStringLiteral("left"), QStringLiteral("right")};

inline void wheelOver(QWidget* widget, const QPoint& turn = QPoint(0, -120)) {
    const QPointF at(5, 5);
    QWheelEvent wheel(at, widget->mapToGlobal(at), {}, turn, Qt::NoButton, Qt::NoModifier, Qt::NoScrollPhase, false);
    QApplication::sendEvent(widget, &wheel);
}

/// The inspector by itself in a small window with the Edit menu's undo, on a plate held at one end, loaded at another.
class InspectorCase : public QObject {
protected:
    std::shared_ptr<const Shop> shop_;
    std::unique_ptr<Document> document_;
    std::unique_ptr<QMainWindow> window_;
    Inspector* inspector_ = nullptr;

    static Part plate() {
        Part plate = partOfFamily(familyNamed("plate"));
        plate.name = "plate";
        plate.shape.dimensions["thickness"] = 7;
        plate.loadCase.holds = {{FaceSelector::byName("left")}, {FaceSelector::byBox({0, 0, 0}, {5, 60, 8})}};
        Load load;
        load.face = FaceSelector::byName("right");
        load.vector = {0, 0, -20};
        plate.loadCase.loads = {load};
        plate.loadCase.measuredFace = FaceSelector::byName("right");
        plate.loadCase.deflectionLimit_mm = 0.2;
        return plate;
    }

    void open() {
        document_ = std::make_unique<Document>(shop_);
        document_->startNew();
        document_->addPart(plate());
        window_ = std::make_unique<QMainWindow>();
        inspector_ = new Inspector(*document_, window_.get());
        window_->setCentralWidget(inspector_);
        QAction* undo = document_->undoStack().createUndoAction(window_.get());
        undo->setShortcut(QKeySequence::Undo);
        window_->addAction(undo);
        inspector_->setFaces(kFaces);
        window_->resize(420, 700);
        window_->show();
        activate(*window_);
    }
    void close() {
        window_.reset();
        document_.reset();
    }

    QuantityField* field(const QString& key) const {
        for (QuantityField* f : inspector_->findChildren<QuantityField*>())
            if (f->description().key == key && f->isVisibleTo(inspector_)) return f;
        return nullptr;
    }
    template <typename Widget>
    Widget* named(const QString& name) const {
        for (Widget* w : inspector_->findChildren<Widget*>(name))
            if (w->isVisibleTo(inspector_)) return w;
        return nullptr;
    }
    const Part& part() const { return *document_->currentPart(); }
    QString offeredUndo() const { return document_->undoStack().undoText(); }
    void type(QLineEdit* entry, const QString& words) {
        entry->setFocus();
        entry->selectAll();
        QTest::keyClicks(entry, words);
    }
    void undoByKey() { QTest::keyClick(QApplication::focusWidget(), Qt::Key_Z, Qt::ControlModifier); }
};

}  // namespace waybench::testing
