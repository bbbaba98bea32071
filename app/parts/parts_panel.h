#pragma once
#include <QTimer>
#include <QWidget>
#include <set>
#include <string>

#include "app/jobs/thumbnail_job.h"

class QListWidget;
class QToolButton;
class QMenu;

namespace waybench {

class Answers;
class Document;

/// The rig's parts, each with a picture and the way it is to be made (shape and word). F2 renames, Delete deletes,
/// Ctrl+D duplicates; all undoable, nothing asks "are you sure".
class PartsPanel : public QWidget {
    Q_OBJECT
public:
    PartsPanel(Document& document, Answers& answers, QWidget* parent = nullptr);
    QMenu* addMenu() const { return addMenu_; }
    QListWidget* list() const { return list_; }
    void renameCurrent();

Q_SIGNALS:
    void importAsked();

protected:
    void paintEvent(QPaintEvent* event) override;
    bool eventFilter(QObject* watched, QEvent* event) override;

private:
    void rebuild();
    void refreshItem(int index);
    void askThumbnail(int index);

    Document& document_;
    Answers& answers_;
    ThumbnailJob thumbnails_;
    QTimer redraw_;
    std::set<int> toRedraw_;
    QListWidget* list_;
    QToolButton* add_;
    QMenu* addMenu_;
    bool filling_ = false;
};

}  // namespace waybench
