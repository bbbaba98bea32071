#pragma once
#include <QImage>
#include <QWidget>
#include <functional>

#include "app/jobs/answer.h"
#include "app/jobs/sweep_job.h"
#include "app/page/page_painter.h"

class QComboBox;
class QLabel;
class QScrollArea;

namespace waybench {

class Document;

/// The one page as it will be printed, painted off the window's thread, with zoom, printer and export to PDF. Asks for
/// its own short what-if when it is looked at; an export asked for before that is done waits for it.
class PageView : public QWidget {
    Q_OBJECT
public:
    explicit PageView(Document& document, QWidget* parent = nullptr);
    void showAnswer(const Answer& answer, bool stale);
    /// Paints only while it is looked at.
    void setActive(bool active);
    void askExport();
    void askPrint();

Q_SIGNALS:
    void noted(const QString& message);
    void painted();

protected:
    void resizeEvent(QResizeEvent* event) override;

private:
    void askSweep();
    void repaintPage();
    void fitPicture();
    bool isWaitingForSweep() const;
    /// Acts on the present part once its curve is there; given up with a word when another part comes first.
    void whenComplete(std::function<void()> act);
    void actIfComplete();
    void write(const QString& file);
    PageContent content() const;
    Paper paper() const;

    Document& document_;
    SweepJob sweepJob_;
    std::shared_ptr<Sweep> sweep_;
    Answer answer_;
    bool stale_ = false, active_ = false, sweepWanted_ = false;
    quint64 painting_ = 0;
    QComboBox *paperChoice_, *zoomChoice_;
    QScrollArea* scroll_;
    std::function<void()> pending_;
    std::string pendingPart_;
    QLabel* picture_;
    QImage image_;
};

}  // namespace waybench
