#include "core/printed/which_way_up.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <numeric>

#include "core/printed/print_evaluation.h"
#include "core/quantity/quantity_text.h"

namespace waybench::printed {
namespace {

constexpr double kLeastFoot = 0.05, kSquare = 0.996;  // share of the surface; within 5 degrees of an axis
constexpr std::size_t kMostAskew = 2;
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

std::string supportText(const WayUp& way) {
    return roundByBand(way.support_mm3.times(1e-3)).value + " cm³ of support";
}

/// As the table shows it, so that cell and sentence agree.
std::string figureText(const Judged& judged) {
    return roundByBand(judged.figure, judged.limit).value;
}

/// " under 'emergency stop'" where there are several load cases.
std::string under(const WayUp& way, const Judged& judged) {
    return way.loadCases > 1 ? " under '" + judged.loadCase + "'" : std::string();
}

/// "(1.8 × the limit, not 2.2 ×)", nothing where both read alike.
std::string notText(const std::string& before, const std::string& its, const std::string& firsts,
                    const std::string& unit, const std::string& unitAlone) {
    return its == firsts ? std::string() : " (" + before + its + unit + ", not " + firsts + unitAlone + ")";
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
        notText("", shown(way.deflection.demand, 2), shown(first.deflection.demand, 2), " × the limit", " ×");
    const std::string margin = notText("margin ", figureText(way.strength), figureText(first.strength), "", "");
    const std::string time = durationText(std::abs(work_s(way) - work_s(first)));
    const std::string stance =
        shown(way.height_mm) + " mm tall on " + shown(way.footprint_mm2 / 100, 2) + " cm² of bed contact";
    return {{std::log1p(way.deflection.demand), "bends more" + limit, "bends less" + limit},
            {std::log1p(way.strength.demand), "weaker" + margin, "stronger" + margin},
            {0.5 * std::log(work_s(way) / leastWork_s), "takes " + time + " longer", "done " + time + " sooner"},
            {0.5 * std::log1p(way.support_mm3.value / part_mm3), "needs " + supportText(way),
             way.support_mm3.value > 0 ? "needs less support" : "needs no support"},
            {way.holes > 0 ? 0.25 * (way.holes - way.roundHoles) / way.holes : 0, holesText(way),
             "more holes come out round"},
            {0.25 * std::log1p(slenderness(way)), stance, "only " + stance}};
}

std::string joined(const std::vector<std::string>& phrases) {
    std::string sentence;
    for (std::size_t i = 0; i < phrases.size(); ++i)
        sentence += (i == 0 ? "" : i + 1 == phrases.size() ? " and " : ", ") + phrases[i];
    return sentence;
}

std::string demandText(const WayUp& way) {
    return "deflection " + shown(way.deflection.demand, 2) + " × the limit" + under(way, way.deflection) +
           ", strength margin " + figureText(way.strength) + " where " + shown(way.strength.limit) + " is asked" +
           under(way, way.strength);
}

std::string holdingText(Holding holding) {
    return holding == Holding::holds       ? "Holds: "
           : holding == Holding::uncertain ? "Cannot be said, its unfavourable bound fails: "
                                           : "Fails: ";
}

std::string whyFirst(const WayUp& way, const std::string& heading) {
    std::string s = heading + demandText(way);
    s += way.support_mm3.value > 0 ? "; " + supportText(way) : "; no support";
    if (way.holes > 0)
        s += way.roundHoles == way.holes
                 ? "; all holes come out round"
                 : "; " + std::to_string(way.roundHoles) + " of " + std::to_string(way.holes) + " holes come out round";
    return s + ".";
}

/// What the best of them is best at. Others may hold and not fit the printer.
std::string headingOf(const WayUp& first) {
    if (!first.fitsPrinter) return "No way up fits the printer; least bad: ";
    return first.holding() == Holding::fails ? "No way up meets the limits; least bad: " : holdingText(first.holding());
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
    if (way.holding() > first.holding())
        return holdingText(way.holding()) + demandText(way) + (phrases.empty() ? "." : "; " + joined(phrases) + ".");
    if (phrases.empty()) return "As good as " + upText(first) + " in all that counts here.";
    std::string s = "Behind " + upText(first) + ": " + joined(phrases);
    if (setBack(order.back()) < -kTelling) s += "; but " + its[order.back()].pro;
    return s + ".";
}

void countHoles(const Solid& solid, const Vec3& up, WayUp& way) {
    for (const Face& face : solid.faces) {
        if (face.kind != SurfaceKind::cylinder || !face.isHollow || !face.isFullTurn) continue;
        ++way.holes;
        if (std::abs(face.direction.dot(up)) > kAlongUp) ++way.roundHoles;
    }
}

/// Takes the worse of what is there and one more load case: first by how it holds, then by the demand.
void take(Judged& worst, const Judged& one, bool isFirst) {
    if (isFirst || one.holding > worst.holding || (one.holding == worst.holding && one.demand > worst.demand))
        worst = one;
}

Holding holdingOf(bool boundHolds, bool valueHolds) {
    return boundHolds ? Holding::holds : valueHolds ? Holding::uncertain : Holding::fails;
}

/// The figure's size: bounds on either side of zero make the greater one the high bound, zero the low one.
Figure sizeOf(const Figure& f) {
    Figure size = f;
    size.value = std::abs(f.value);
    size.high = std::max(std::abs(f.low), std::abs(f.high));
    size.low = f.low <= 0 && f.high >= 0 ? 0 : std::min(std::abs(f.low), std::abs(f.high));
    return size;
}

void judge(WayUp& way, const std::vector<CaseAnswer>& cases) {
    way.loadCases = cases.size();
    for (const CaseAnswer& c : cases) {
        const bool isFirst = &c == &cases.front();
        const double limit = c.loadCase.deflectionLimit_mm, asked = c.loadCase.strengthFactor;
        const Figure size = sizeOf(c.figures.at(Question::deflection));
        const Figure& margin = c.figures.at(Question::strength_margin);
        take(way.deflection,
             {size, limit, c.loadCase.name, size.value / limit, holdingOf(size.high <= limit, size.value <= limit)},
             isFirst);
        take(way.strength,
             {margin, asked, c.loadCase.name, asked / std::max(1e-9, margin.value),
              holdingOf(margin.low >= asked, margin.value >= asked)},
             isFirst);
    }
}

WayUp wayUp(const RouteTask& part, const Recipe& recipe, const Shop& shop, const std::string& tariff,
            const Task& task) {
    const PrintEvaluation e = evaluationOf(part, recipe, shop, tariff, Fidelity::draft, task);
    WayUp way;
    static_cast<Stance&>(way) = stanceOf(recipe);
    std::vector<CaseAnswer> answers;
    for (const PrintedCase& c : e.cases)
        answers.push_back(caseAnswer(e, c));
    judge(way, answers);
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
    countHoles(*part.solid, upwardOf(recipe), way);
    return way;
}

/// The six, then the largest plane faces that lie askew to them, each laid on the bed.
std::vector<Stance> candidatesFor(const Solid& solid) {
    std::vector<Stance> stances;
    for (const Direction d : kDirections)
        stances.push_back({d, 0, 0});
    std::vector<const Face*> askew;
    const double whole = areaOf(solid.mesh);
    for (const Face& face : solid.faces)
        if (face.kind == SurfaceKind::plane && face.area_mm2 > kLeastFoot * whole &&
            face.direction.cwiseAbs().maxCoeff() < kSquare)
            askew.push_back(&face);
    std::stable_sort(askew.begin(), askew.end(),
                     [](const Face* a, const Face* b) { return a->area_mm2 > b->area_mm2 * (1 + 1e-9); });
    for (const Face* face : askew) {
        Recipe laid;
        setUpward(laid, -face->direction);
        const Stance stance = stanceOf(laid);
        if (std::find(stances.begin(), stances.end(), stance) == stances.end()) stances.push_back(stance);
        if (stances.size() == kDirections.size() + kMostAskew) break;
    }
    return stances;
}

}  // namespace

const char* nameOf(Holding holding) {
    return holding == Holding::holds ? "holds" : holding == Holding::uncertain ? "uncertain" : "fails";
}

WayUp answered(WayUp way, const RouteOutcome& outcome, bool isFirst) {
    if (!outcome.cases.empty()) judge(way, outcome.cases);
    way.machineTime = outcome.at(Question::machine_time);
    way.handsOnTime = outcome.at(Question::hands_on_time);
    way.why = isFirst ? whyFirst(way, holdingText(way.holding())) : way.why + " (On the coarse grid.)";
    return way;
}

std::vector<WayUp> rankedWaysUp(const RouteTask& part, const Recipe& recipe, const Shop& shop,
                                const std::string& tariff, const Task& task) {
    std::vector<WayUp> ways;
    const std::vector<Stance> stances = candidatesFor(*part.solid);
    for (std::size_t i = 0; i < stances.size(); ++i) {
        Recipe turned = asLaid(recipe);
        take(turned, stances[i]);
        ways.push_back(wayUp(part, turned, shop, tariff,
                             task.part(double(i) / double(stances.size()), double(i + 1) / double(stances.size()))));
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
    const auto standing = [](const WayUp& way) { return way.fitsPrinter ? static_cast<int>(way.holding()) : 3; };
    std::stable_sort(ways.begin(), ways.end(), [&](const WayUp& a, const WayUp& b) {
        return standing(a) != standing(b) ? standing(a) < standing(b) : stepOf(a) < stepOf(b);
    });
    for (WayUp& way : ways)
        way.why = &way == &ways.front()
                      ? whyFirst(way, headingOf(way))
                      : whyBehind(way, ways.front(), terms(way, ways.front()), terms(ways.front(), ways.front()));
    return ways;
}

}  // namespace waybench::printed
