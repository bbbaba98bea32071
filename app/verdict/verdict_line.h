#pragma once
#include <QWidget>
#include <memory>

#include "app/document/fault.h"
#include "app/jobs/comparison_job.h"
#include "app/style/route_mark.h"

class QLabel;
class QPushButton;
class QScrollArea;
class QToolButton;

namespace waybench {

/// The verdict in one sentence, always current or marked as not: choice as shape and word, how far the computation is,
/// and on demand the reasons, what would change it, and the rule by which bands were used.
class VerdictLine : public QWidget {
    Q_OBJECT
public:
    explicit VerdictLine(QWidget* parent = nullptr);

    void showComparison(std::shared_ptr<const Comparison> comparison);
    void showFault(const Fault& fault);
    void showNothing(const QString& why);
    void setStage(ComparisonJob::Stage stage);
    void setProgress(double share);
    bool isExpanded() const { return expanded_; }
    void setExpanded(bool expanded);
    QString sentence() const;

Q_SIGNALS:
    void cancelAsked();
    void resumeAsked();

protected:
    void paintEvent(QPaintEvent* event) override;

private:
    void refresh();

    class Glyph;
    Glyph* glyph_;
    QLabel* sentence_;
    QLabel* state_;
    QLabel* reasons_;
    QScrollArea* reasonsScroll_;
    QToolButton* more_;
    QPushButton* cancel_;
    std::shared_ptr<const Comparison> comparison_;
    RouteMark mark_ = RouteMark::pending;
    ComparisonJob::Stage stage_ = ComparisonJob::Stage::idle;
    QString fault_;
    double progress_ = 0;
    bool expanded_ = false;
};

}  // namespace waybench
