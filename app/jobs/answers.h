#pragma once
#include <QObject>
#include <QTimer>
#include <map>
#include <memory>
#include <optional>
#include <string>

#include "app/jobs/comparison_job.h"

namespace waybench {

class Document;

/// Keeps the answer of every part of the open project and sees to it that the current one is current: an edit starts
/// a computation, weights alone are judged anew, the other parts get a draft while nothing else is to do.
class Answers : public QObject {
    Q_OBJECT
public:
    explicit Answers(Document& document, QObject* parent = nullptr);

    struct Known {
        Part part;      ///< as it was when computed
        Answer answer;  ///< empty when it failed from the start
        std::optional<Fault> fault;
    };
    const Known* known(const std::string& partName) const;
    /// The current part's answer, whether or not it is of the current inputs.
    Answer current() const;
    /// True when current() was computed from exactly what the fields show (draft or final).
    bool isCurrent() const;
    ComparisonJob& job() { return job_; }
    const PartSolids& solids() const { return solids_; }
    void stop();
    void resume();

Q_SIGNALS:
    void currentAnswered(const waybench::Answer& answer);  ///< fresh, draft or final
    void currentFaulted(const waybench::Fault& fault);
    void becameStale();  ///< the shown answer is no longer of the inputs
    void solidsReady(const waybench::PartSolids& solids);
    void partKnown(const std::string& partName);  ///< for the parts list

private:
    void refresh();
    void nextInBackground();
    void keep(const Part& part, const Answer& answer);

    Document& document_;
    ComparisonJob job_, background_;
    QTimer idle_;
    std::map<std::string, Known> known_;
    Part asked_, askedBehind_;
    std::string tariff_;
    PartSolids solids_;
};

/// Whether two descriptions lead to the same figures: names, notes, weights and the settled route aside.
bool sameInputs(const Part& a, const Part& b);

}  // namespace waybench
