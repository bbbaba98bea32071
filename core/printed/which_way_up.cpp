#include "core/printed/which_way_up.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <numeric>

#include "core/printed/print_evaluation.h"

namespace waybench::printed {
namespace {

constexpr std::array<Direction, 6> kDirections = {Direction::plus_x,  Direction::minus_x, Direction::plus_y,
                                                  Direction::minus_y, Direction::plus_z,  Direction::minus_z};
constexpr double kAlongUp = 0.9998;        // cosine of one degree
constexpr double kEqual = 0.005;           // steps of the penalty; what is within one is no difference
constexpr double kTelling = 0.03;          // smaller differences of a penalty's term are not spoken of
constexpr double kSupportSpread = 0.5;     // share of a column that is material; common practice, no source
constexpr std::size_t kReasonsSpoken = 3;  // a sentence with more is not read

/// One term of the penalty and what to say where it sets a candidate back, or speaks for it all the same.
struct Term {
    double size = 0;
    std::string against, pro;
};

std::string durationText(double seconds) {
    return seconds < 5400 ? shown(seconds / 60, 2) + " min" : shown(seconds / 3600, 2) + " h";
}

std::string volumeText(double mm3) {
    return mm3 < 1000 ? shown(mm3, 2) + " mm³" : shown(mm3 / 1000, 2) + " cm³";
}

std::string holesText(const WayUp& way) {
    if (way.holes == 1) return "its hole does not come out round";
    const std::string all = std::to_string(way.holes) + " holes";
    return way.roundHoles == 0 ? "none of " + all + " round"
                               : std::to_string(way.holes - way.roundHoles) + " of " + all + " not round";
}

double work_s(const WayUp& way) {
    return way.machineTime.value + way.handsOnTime.value;
}

double slenderness(const WayUp& way) {
    return way.height_mm / (2 * std::sqrt(std::max(1.0, way.footprint_mm2)));
}

/// Terms in the order of the formula. @param first what the words compare with
std::vector<Term> termsOf(const WayUp& way, const WayUp& first, double leastWork_s, double part_mm3) {
    const std::string limit =
        " (" + shown(way.deflectionDemand, 2) + " of the limit, not " + shown(first.deflectionDemand, 2) + ")";
    const std::string margin =
        " (margin " + shown(way.strengthMargin.value, 2) + ", not " + shown(first.strengthMargin.value, 2) + ")";
    const std::string time = durationText(std::abs(work_s(way) - work_s(first)));
    const std::string support = volumeText(way.support_mm3.value) + " of support";
    const std::string stance = " (" + shown(way.height_mm) + " mm on " + shown(way.footprint_mm2 / 100, 2) + " cm²)";
    return {{std::log1p(way.deflectionDemand), "bends more" + limit, "bends less" + limit},
            {std::log1p(way.strengthDemand), "weaker" + margin, "stronger" + margin},
            {0.5 * std::log(work_s(way) / leastWork_s), "takes " + time + " longer", "done " + time + " sooner"},
            {0.5 * std::log1p(way.support_mm3.value / part_mm3), "needs " + support,
             way.support_mm3.value > 0 ? "needs less support" : "needs no support"},
            {way.holes > 0 ? 0.25 * (way.holes - way.roundHoles) / way.holes : 0, holesText(way),
             "more holes come out round"},
            {0.25 * std::log1p(slenderness(way)), "stands tall" + stance, "stands lower" + stance}};
}

std::string joined(const std::vector<std::string>& phrases) {
    std::string sentence;
    for (std::size_t i = 0; i < phrases.size(); ++i)
        sentence += (i == 0 ? "" : i + 1 == phrases.size() ? " and " : ", ") + phrases[i];
    return sentence;
}

std::string demandText(const WayUp& way) {
    return "deflection " + shown(way.deflectionDemand, 2) + " of the limit, strength margin " +
           shown(way.strengthMargin.value, 2) + " where " + shown(way.strengthMargin.value * way.strengthDemand, 2) +
           " is asked";
}

std::string whyFirst(const std::vector<WayUp>& ways) {
    const WayUp& way = ways.front();
    std::string s = way.holds() ? "Holds: " : "Holds in no direction, best on the whole: ";
    s += demandText(way);
    s += way.support_mm3.value > 0 ? "; " + volumeText(way.support_mm3.value) + " of support" : "; no support";
    if (way.holes > 0)
        s += way.roundHoles == way.holes
                 ? "; all holes come out round"
                 : "; " + std::to_string(way.roundHoles) + " of " + std::to_string(way.holes) + " holes come out round";
    return s + ".";
}

std::string whyBehind(const WayUp& way, const WayUp& first, const std::vector<Term>& its,
                      const std::vector<Term>& firsts) {
    if (!way.fitsPrinter && first.fitsPrinter) return "Does not fit the printer, standing so.";
    std::vector<std::size_t> order(its.size());
    std::iota(order.begin(), order.end(), std::size_t(0));
    const auto setBack = [&](std::size_t i) { return its[i].size - firsts[i].size; };
    std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) { return setBack(a) > setBack(b); });
    std::vector<std::string> phrases;
    for (const std::size_t i : order)
        if (phrases.size() < kReasonsSpoken && setBack(i) > kTelling) phrases.push_back(its[i].against);
    if (!way.holds() && first.holds())
        return "Does not hold: " + demandText(way) + (phrases.empty() ? "." : "; " + joined(phrases) + ".");
    if (phrases.empty()) return std::string("As good as ") + nameOf(first.up) + " in all that counts here.";
    std::string s = std::string("Behind ") + nameOf(first.up) + ": " + joined(phrases);
    if (setBack(order.back()) < -kTelling) s += "; but " + its[order.back()].pro;
    return s + ".";
}

void countHoles(const Solid& solid, WayUp& way) {
    for (const Face& face : solid.faces) {
        if (face.kind != SurfaceKind::cylinder || !face.isHollow || !face.isFullTurn) continue;
        ++way.holes;
        if (std::abs(face.direction.dot(unitVector(way.up))) > kAlongUp) ++way.roundHoles;
    }
}

WayUp wayUp(const RouteTask& part, const Recipe& recipe, const Shop& shop, const std::string& tariff,
            const Task& task) {
    const PrintEvaluation e = evaluationOf(part, recipe, shop, tariff, Fidelity::draft, task);
    WayUp way;
    way.up = recipe.up;
    double most = -1;
    for (const PrintedCase& c : e.cases) {
        const CaseAnswer answer = caseAnswer(e, c);
        const Figure &deflection = answer.figures.at(Question::deflection),
                     &margin = answer.figures.at(Question::strength_margin);
        way.deflectionDemand =
            std::max(way.deflectionDemand, std::abs(deflection.value) / answer.loadCase.deflectionLimit_mm);
        way.strengthDemand =
            std::max(way.strengthDemand, answer.loadCase.strengthFactor / std::max(1e-9, margin.value));
        if (const double demand = demandOf(answer); demand > most) {
            most = demand;
            way.loadCase = answer.loadCase.name;
            way.deflection = deflection;
            way.strengthMargin = margin;
        }
    }
    RouteOutcome times;
    addTimes(e, times);
    way.machineTime = times.at(Question::machine_time);
    way.handsOnTime = times.at(Question::hands_on_time);
    way.support_mm3 =
        Figure::relative(e.job.support_mm3, kSupportSpread, kSupportSpread, Unit::cubic_millimetre, Origin::computed,
                         "draft; share of the columns that is material: common practice");
    way.height_mm = e.job.size_mm.z();
    way.footprint_mm2 = e.job.footprint_mm2;
    way.fitsPrinter = printed::fitsPrinter(e);
    countHoles(*part.solid, way);
    return way;
}

}  // namespace

std::vector<WayUp> rankedWaysUp(const RouteTask& part, const Recipe& recipe, const Shop& shop,
                                const std::string& tariff, const Task& task) {
    std::vector<WayUp> ways;
    for (std::size_t i = 0; i < kDirections.size(); ++i) {
        Recipe turned = asLaid(recipe);
        turned.up = kDirections[i];
        ways.push_back(wayUp(part, turned, shop, tariff,
                             task.part(double(i) / kDirections.size(), double(i + 1) / kDirections.size())));
    }
    double leastWork_s = work_s(ways.front());
    for (const WayUp& way : ways)
        leastWork_s = std::min(leastWork_s, work_s(way));
    const double part_mm3 = std::abs(volumeOf(part.solid->mesh));
    const auto terms = [&](const WayUp& way, const WayUp& first) { return termsOf(way, first, leastWork_s, part_mm3); };
    for (WayUp& way : ways)
        for (const Term& term : terms(way, way))
            way.penalty += term.size;
    const auto stepOf = [](const WayUp& way) { return std::lround(way.penalty / kEqual); };
    const auto standing = [](const WayUp& way) { return !way.fitsPrinter ? 2 : way.holds() ? 0 : 1; };
    std::stable_sort(ways.begin(), ways.end(), [&](const WayUp& a, const WayUp& b) {
        return standing(a) != standing(b) ? standing(a) < standing(b) : stepOf(a) < stepOf(b);
    });
    for (WayUp& way : ways)
        way.why = &way == &ways.front()
                      ? whyFirst(ways)
                      : whyBehind(way, ways.front(), terms(way, ways.front()), terms(ways.front(), ways.front()));
    return ways;
}

}  // namespace waybench::printed
