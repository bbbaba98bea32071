#pragma once
#include <QHash>
#include <QPixmap>
#include <QWidget>

#include "app/jobs/answer.h"
#include "app/style/route_mark.h"

class QListWidget;

namespace waybench {

class Document;

/// The rig's parts: picture, name, and the way each is to be made as shape and word. Add, duplicate, rename (F2) and
/// delete are steps of the document that can be undone.
class PartsList : public QWidget {
    Q_OBJECT
public:
    explicit PartsList(Document& document, QWidget* parent = nullptr);
    void showAnswer(int index, const Answer& answer);
    void showPending(int index);

private:
    void rebuild();
    void offerAdding(const QPoint& global);

    struct Entry {
        QPixmap picture;
        RouteMark mark = RouteMark::pending;
    };
    Document& document_;
    QListWidget* list_;
    QHash<QString, Entry> known_;  ///< by part name
    bool rebuilding_ = false;
};

}  // namespace waybench
