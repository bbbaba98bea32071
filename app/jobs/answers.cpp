#include "app/jobs/answers.h"

#include "app/document/document.h"

namespace waybench {

bool sameInputs(const Part& a, const Part& b) {
    return a.shape == b.shape && a.printedDimensions == b.printedDimensions &&
           a.machinedDimensions == b.machinedDimensions && a.loadCase == b.loadCase &&
           a.furtherLoadCases == b.furtherLoadCases && a.recipe == b.recipe && a.plan == b.plan;
}

namespace {

/// The same figures judged by the part's weights as they are now.
Answer judgedFor(const Part& part, Answer answer) {
    Comparison again = *answer.comparison;
    again.part = part;
    judge(again);
    answer.comparison = std::make_shared<const Comparison>(std::move(again));
    return answer;
}

}  // namespace

Answers::Answers(Document& document, QObject* parent)
    : QObject(parent), document_(document), job_(document.sharedShop()), background_(document.sharedShop()) {
    idle_.setSingleShot(true);
    idle_.setInterval(400);
    connect(&idle_, &QTimer::timeout, this, &Answers::nextInBackground);
    connect(&document_, &Document::projectReset, this, [this] {
        known_.clear();
        job_.cancel();
        background_.cancel();
        solids_ = {};
        tariff_ = document_.project().tariff;
    });
    connect(&document_, &Document::currentChanged, this, &Answers::refresh);
    connect(&document_, &Document::partEdited, this, [this](int index) {
        if (index == document_.currentIndex())
            refresh();
        else
            idle_.start();
    });
    connect(&document_, &Document::titleBlockChanged, this, [this] {
        if (tariff_ == document_.project().tariff) return;
        tariff_ = document_.project().tariff;
        known_.clear();
        refresh();
    });
    connect(&job_, &ComparisonJob::solidsReady, this, [this](quint64, const PartSolids& solids) {
        solids_ = solids;
        Q_EMIT solidsReady(solids);
    });
    connect(&job_, &ComparisonJob::answered, this, [this](quint64, const Answer& answer) {
        const Part* part = document_.currentPart();
        if (part && part->name == asked_.name && *part != asked_ && sameInputs(*part, asked_)) {
            asked_ = *part;  // only weights moved while it ran
            keep(asked_, judgedFor(*part, answer));
        } else {
            keep(asked_, answer);
        }
        if (part && *part != asked_)
            refresh();
        else
            Q_EMIT currentAnswered(known_[asked_.name].answer);
    });
    connect(&job_, &ComparisonJob::faulted, this, [this](quint64, const Fault& fault) {
        Known& entry = known_[asked_.name];
        entry.fault = fault;
        Q_EMIT partKnown(asked_.name);
        Q_EMIT currentFaulted(fault);
    });
    connect(&job_, &ComparisonJob::stageChanged, this, [this] {
        if (!job_.isRunning()) idle_.start();
    });
    connect(&background_, &ComparisonJob::answered, this, [this](quint64, const Answer& answer) {
        keep(askedBehind_, answer);
        idle_.start();
    });
    connect(&background_, &ComparisonJob::faulted, this, [this](quint64, const Fault& fault) {
        known_[askedBehind_.name] = {askedBehind_, {}, fault};
        Q_EMIT partKnown(askedBehind_.name);
        idle_.start();
    });
}

const Answers::Known* Answers::known(const std::string& partName) const {
    const auto it = known_.find(partName);
    return it == known_.end() ? nullptr : &it->second;
}

Answer Answers::current() const {
    const Part* part = document_.currentPart();
    const Known* entry = part ? known(part->name) : nullptr;
    return entry ? entry->answer : Answer();
}

bool Answers::isCurrent() const {
    const Part* part = document_.currentPart();
    const Known* entry = part ? known(part->name) : nullptr;
    return entry && entry->answer && !entry->fault && sameInputs(entry->part, *part);
}

void Answers::keep(const Part& part, const Answer& answer) {
    known_[part.name] = {part, answer, std::nullopt};
    Q_EMIT partKnown(part.name);
}

void Answers::stop() {
    background_.cancel();
    job_.cancel();
}

void Answers::resume() {
    const Part* part = document_.currentPart();
    if (!part) return;
    asked_ = *part;
    job_.start(asked_, document_.project().folder(), document_.project().tariff);
}

void Answers::refresh() {
    const Part* part = document_.currentPart();
    background_.cancel();
    if (!part) {
        job_.cancel();
        return;
    }
    const auto it = known_.find(part->name);
    if (it != known_.end() && it->second.answer && sameInputs(it->second.part, *part)) {
        Known& entry = it->second;
        entry.fault.reset();
        if (entry.part != *part) {
            entry.answer = judgedFor(*part, entry.answer);
            entry.part = *part;
            Q_EMIT partKnown(part->name);
        }
        Q_EMIT currentAnswered(entry.answer);
        const bool runsForIt = job_.isRunning() && sameInputs(asked_, *part) && asked_.name == part->name;
        if (runsForIt) return;
        if (entry.answer.comparison->fidelity == Fidelity::standard) {
            job_.cancel();
            idle_.start();
            return;
        }
    } else {
        Q_EMIT becameStale();
    }
    resume();
}

void Answers::nextInBackground() {
    if (job_.isRunning() || background_.isRunning()) return;
    for (const Part& part : document_.project().parts) {
        const Known* entry = known(part.name);
        if (entry && sameInputs(entry->part, part)) continue;
        if (document_.currentPart() && document_.currentPart()->name == part.name) continue;
        askedBehind_ = part;
        background_.start(part, document_.project().folder(), document_.project().tariff,
                          ComparisonJob::Depth::draftOnly);
        return;
    }
}

}  // namespace waybench
