#pragma once
#include <QWidget>
#include <memory>
#include <optional>

#include "app/jobs/ways_up_job.h"

class QLabel;
class QPushButton;
class QTableWidget;

namespace waybench {

/// The six ways up, best first, with what each leads to and why it stands where it stands, from a coarse grid; the
/// present one has its final figures once they are there. The button or a double click takes one over.
class WaysUpPanel : public QWidget {
    Q_OBJECT
public:
    explicit WaysUpPanel(QWidget* parent = nullptr);
    void showWays(std::shared_ptr<const std::vector<printed::WayUp>> ways);
    /// Says why there is no table, or that it is on its way or of older inputs.
    void say(const QString& words);
    void setCurrent(const printed::Stance& stance);
    /// The final answer for the present way up; null while there is none.
    void setFinal(std::shared_ptr<const RouteOutcome> outcome);
    const std::vector<printed::WayUp>* ways() const { return ways_.get(); }

Q_SIGNALS:
    void chosen(const printed::Stance& stance);

protected:
    bool eventFilter(QObject* watched, QEvent* event) override;
    void resizeEvent(QResizeEvent* event) override;

private:
    void fill();
    void fillRow(int row, const printed::WayUp& way);
    /// Names the limits where all ways and load cases share them.
    void fillHeads();
    /// The table as high as its rows, and no lower than six, so that nothing jumps when it fills.
    void fitHeight();
    void showChoice();
    std::optional<printed::Stance> selected() const;
    QString asText() const;

    std::shared_ptr<const std::vector<printed::WayUp>> ways_;
    std::shared_ptr<const RouteOutcome> final_;
    printed::Stance now_;
    QTableWidget* table_;
    QLabel* state_;
    QPushButton* use_;
};

}  // namespace waybench
