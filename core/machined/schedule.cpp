#include <algorithm>
#include <charconv>
#include <cmath>

#include "core/machined/machining_evaluation.h"

namespace waybench::machined {
namespace {

constexpr double kTakeAndSaw_s = 180;     // take the piece and saw the rectangle (common practice, no source)
constexpr double kTake_s = 60;            // take an off-cut (common practice, no source)
constexpr double kLevellingStart_s = 20;  // machined-route.md 5.3, common practice

std::string setUpName(const MachiningEvaluation& e, int i) {
    return e.clampings > 1 ? "set-up " + std::to_string(i + 1) + ": " : std::string();
}

int changesIn(const OperationPlan& work, int setUp) {
    int changes = 0;
    const Tool* tool = nullptr;
    for (const Operation& o : work.operations) {
        if (o.setUp != setUp) continue;
        if (o.tool != tool) ++changes;
        tool = o.tool;
    }
    return changes;
}

}  // namespace

double runSeconds(const OperationPlan& work) {
    double s = 0;
    for (const Operation& o : work.operations)
        s += o.seconds;
    return s;
}

double cuttingSeconds(const OperationPlan& work) {
    double s = 0;
    for (const Operation& o : work.operations)
        s += o.cutting_seconds;
    return s;
}

std::vector<Step> stepsOf(const MachiningEvaluation& e) {
    const Mill& m = e.mill;
    std::vector<Step> steps;
    const auto byHand = [&](const std::string& name, double seconds) {
        if (seconds > 0) steps.push_back({name, seconds, 0, seconds});
    };
    const auto atMill = [&](const std::string& name, double seconds) {
        if (seconds > 0) steps.push_back({name, seconds, seconds, seconds});
    };
    const bool sawn = !(e.stock.piece && e.stock.piece->isOffcut);
    byHand(sawn ? "take the stock and saw the blank" : "take the off-cut", sawn ? kTakeAndSaw_s : kTake_s);
    for (int i = 0; i < e.clampings; ++i) {
        const std::string name = setUpName(e, i);
        if (i == 0) {
            atMill(name + "clamp the blank", m.setUpClamp.value);
            atMill(name + "probe and zero", m.probing.value);
            if (e.plan.surfaceLevelling)
                atMill(name + "level the surface map",
                       kLevellingStart_s + std::max(9, m.levellingPoints) * m.levellingPerPoint.value);
        } else {
            atMill(name + "turn the part over and zero again", m.flipAndZero.value);
        }
        const int changes = changesIn(e.work, i);
        atMill(name + "change tools, " + std::to_string(changes) + " times", changes * m.toolChange.value);
        for (const Operation& o : e.work.operations)
            if (o.setUp == i && o.seconds > 0)
                steps.push_back({name + nameOf(o.kind) + ", " + o.tool->title, o.seconds, o.seconds,
                                 std::clamp(m.attendance.value, 0.0, 1.0) * o.seconds});
    }
    if (e.work.tabs > 0) byHand("cut and file the tabs", m.tabCutAndFile.value);
    byHand("deburr the edges", e.work.edge_mm / 1000 * m.deburrPerMetre.value);
    atMill("clean the mill", m.cleanUp.value);
    byHand("measure the part", m.inspect.value);
    return steps;
}

void addTimes(const MachiningEvaluation& e, RouteOutcome& outcome) {
    outcome.steps = stepsOf(e);
    // machined-route.md 10: one-offs door to door +-25 to 30 %; set-up times are under-estimated by 20 to 40 % (S70)
    setTimes(outcome, 0.25, 0.30, 0.20, 0.40);
    const double run = runSeconds(e.work);
    outcome.workings[Question::machine_time] =
        "operations " + shown(run / 60) + " min (of these " + shown(cuttingSeconds(e.work) / 60) + " min at feed, " +
        std::to_string(e.work.operations.size()) + " operations, planned at " + shown(e.mill.acceleration_mm_s2.value) +
        " mm/s2 and " + shown(e.mill.feedLimit.value) + " mm/s at most) + " + std::to_string(toolChangesOf(e.work)) +
        " tool changes of " + shown(e.mill.toolChange.value) + " s + clamping, zeroing, cleaning [" +
        e.mill.toolChange.note + "; machined-route 5]; programming is not counted";
    outcome.workings[Question::hands_on_time] = "setting up, tool changes, tabs, deburring, measuring + " +
                                                shown(e.mill.attendance.value) + " of the run watched (" +
                                                shown(run / 60) + " min) [" + e.mill.attendance.note +
                                                "]; programming is not counted";
    outcome.workings[Question::elapsed_time] = "sum of the steps, one after another; programming is not counted";
}

}  // namespace waybench::machined
