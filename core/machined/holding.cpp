#include "core/machined/holding.h"

#include <algorithm>
#include <cmath>

namespace waybench::machined {
namespace {

constexpr double kLiftLeast = 0.2, kLift = 0.3, kLiftMost = 0.4;  // of the cutting force
constexpr double kDrillTorqueSpread = 1.4;  // rules agree within a factor of two (machined-route.md 2.6)
constexpr int kMostClamps = 8;
constexpr int kAreaPoints = 12;  // along the longer side
constexpr double kMetalTab_mm = 4, kSoftTab_mm = 6, kLeastTab_mm = 0.5, kTabStep_mm = 0.25;

double sideOf(const Figure& figure, int side) {
    return side < 0 ? figure.low : side > 0 ? figure.high : figure.value;
}

/// Extreme places an operation's cutter goes to, as the power of a load grows linearly with its place: the points that
/// lie farthest out in sixteen directions.
std::vector<Vec2> extremesOf(const Operation& operation) {
    std::vector<Vec2> out;
    constexpr int kDirections = 16;
    for (int i = 0; i < kDirections; ++i) {
        const double angle = 2 * 3.14159265358979323846 * i / kDirections;
        const Vec2 way(std::cos(angle), std::sin(angle));
        const Vec2* farthest = nullptr;
        for (const auto& place : operation.passes)
            for (const Pass& pass : place)
                for (const Vec2& p : pass.points)
                    if (!farthest || p.dot(way) > farthest->dot(way)) farthest = &p;
        if (farthest && std::find(out.begin(), out.end(), *farthest) == out.end()) out.push_back(*farthest);
    }
    return out;
}

std::vector<Vec2> cornersOf(const HeldWork& work) {
    return {work.low, {work.high.x(), work.low.y()}, work.high, {work.low.x(), work.high.y()}};
}

/// What carries the work: the whole of a blank under clamps or in a vice, the held face itself for tape and vacuum.
std::vector<Vec2> supportOf(const HeldWork& work) {
    if (work.method->kind != WorkholdingKind::area) return cornersOf(work);
    std::vector<Vec2> points;
    for (const Ring& ring : work.underside)
        points.insert(points.end(), ring.begin(), ring.end());
    return points.empty() ? cornersOf(work) : points;
}

struct Worst {
    HoldSafety safety{kFirmly, kFirmly, kFirmly};
    const Operation* operation = nullptr;
    Vec2 at = Vec2::Zero();
    CutLoad load;
};

/// Operations with the places their cutters go to at the outmost.
struct Loaded {
    const Operation* operation = nullptr;
    std::vector<Vec2> places;
    bool breaksThrough = false;
};

Worst worstOf(const HeldWork& work, int clamps, int side, const std::vector<Loaded>& loaded, const Task& task) {
    Worst worst;
    const std::vector<HoldPoint> holds = holdPointsOf(work, clamps, -side);
    const std::vector<Vec2> support = supportOf(work);
    for (const Loaded& l : loaded)
        for (const Vec2& at : l.places) {
            task.check();
            const CutLoad load = cutLoadOf(*l.operation, work, at, l.breaksThrough, side);
            const HoldSafety s = holdSafety(holds, support, load);
            if (!worst.operation || s.least() < worst.safety.least()) worst = {s, l.operation, at, load};
        }
    return worst;
}

}  // namespace

const char* wordOf(WayLoose way) {
    switch (way) {
        case WayLoose::lifts:
            return "lifts off or tips";
        case WayLoose::slides:
            return "slides";
        case WayLoose::turns:
            return "turns";
    }
    return "";
}

std::vector<Vec2> clampPlaces(const HeldWork& work, int clamps) {
    const Vec2 middle = 0.5 * (work.low + work.high);
    const double inset = 0.5 * work.method->foot_mm;
    Vec2 half = 0.5 * (work.high - work.low) - Vec2(inset, inset);
    half = half.cwiseMax(0.0);
    const bool isTall = half.y() > half.x();
    const double a = isTall ? half.y() : half.x(), b = isTall ? half.x() : half.y();
    std::vector<Vec2> places;
    for (int i = 0; i < clamps; ++i) {
        // Along the border from the middle of a short side.
        double s = 4 * (a + b) * i / clamps;
        Vec2 p(a, 0);
        const auto run = [&](const Vec2& to) {
            const double length = (to - p).norm();
            if (s <= length || length == 0) {
                if (length > 0) p += (to - p) * (s / length);
                s = 0;
            } else {
                s -= length;
                p = to;
            }
        };
        for (const Vec2& to : {Vec2(a, b), Vec2(-a, b), Vec2(-a, -b), Vec2(a, -b), Vec2(a, 0)})
            if (s > 0) run(to);
        places.push_back(middle + (isTall ? Vec2(-p.y(), p.x()) : p));
    }
    return places;
}

std::vector<HoldPoint> holdPointsOf(const HeldWork& work, int clamps, int side) {
    std::vector<HoldPoint> points;
    const Workholding& m = *work.method;
    switch (m.kind) {
        case WorkholdingKind::clamps:
            for (const Vec2& p : clampPlaces(work, clamps)) {
                const double force = sideOf(m.force, side);
                points.push_back({p, force, sideOf(m.friction, side) * force});
            }
            break;
        case WorkholdingKind::vice: {
            // Jaws along the longer sides, no longer than they are; each end of each holds a quarter of both jaws'
            // friction.
            const double quarter = 0.5 * sideOf(m.force, side) * sideOf(m.friction, side);
            const Vec2 middle = 0.5 * (work.low + work.high), half = 0.5 * (work.high - work.low);
            const bool isTall = half.y() > half.x();
            for (const Vec2& corner : cornersOf(work)) {
                Vec2 p = corner - middle;
                double& along = isTall ? p.y() : p.x();
                along = std::clamp(along, -0.5 * m.jaw_mm, 0.5 * m.jaw_mm);
                points.push_back({middle + p, quarter, quarter});
            }
            break;
        }
        case WorkholdingKind::area: {
            const Vec2 size = work.high - work.low;
            const double step = size.maxCoeff() / kAreaPoints;
            double covered = 0;
            for (double y = work.low.y() + 0.5 * step; y < work.high.y(); y += step)
                for (double x = work.low.x() + 0.5 * step; x < work.high.x(); x += step)
                    if (contains(work.underside, {x, y})) {
                        points.push_back({Vec2(x, y), 1, 1});
                        covered += 1;
                    }
            if (points.empty()) {
                points.push_back({0.5 * (work.low + work.high), 1, 1});
                covered = 1;
            }
            const double share_mm2 = areaOf(work.underside) / covered;
            for (HoldPoint& p : points) {
                p.pressed_N = 1e-3 * sideOf(m.pull_kPa, side) * share_mm2;
                p.grip_N = 1e-3 * sideOf(m.grip_kPa, side) * share_mm2;
            }
            break;
        }
    }
    return points;
}

bool goesIn(const HeldWork& work) {
    return work.method->kind != WorkholdingKind::vice ||
           (work.high - work.low).minCoeff() <= work.method->opening_mm + 1e-9;
}

CutLoad cutLoadOf(const Operation& o, const HeldWork& work, const Vec2& at, bool breaksThrough, int side) {
    CutLoad load;
    load.at = at;
    load.height_mm = work.height_mm;
    if (o.kind == OperationKind::drilling) {
        const double spread = side < 0 ? 1 / kDrillTorqueSpread : side > 0 ? kDrillTorqueSpread : 1;
        load.torque_Nmm = o.cutting.torque_Nmm * spread;
        if (breaksThrough) load.lift_N = (side < 0 ? 0 : side > 0 ? 1 : 0.5) * o.cutting.force_N.value;
        return load;
    }
    load.sideways_N = sideOf(o.cutting.force_N, side);
    load.lift_N = (side < 0 ? kLiftLeast : side > 0 ? kLiftMost : kLift) * load.sideways_N;
    load.torque_Nmm = 0.5 * load.sideways_N * o.tool->diameter_mm;
    return load;
}

HoldingCheck checkHolding(const HeldWork& work, int setUp, const std::vector<Operation>& operations, bool withRemedy,
                          const Task& task) {
    HoldingCheck check;
    check.setUp = setUp;
    check.work = work;
    std::vector<Loaded> loaded;
    for (const Operation& o : operations) {
        if (o.setUp != setUp) continue;
        const bool breaksThrough =
            std::any_of(o.heights_mm.begin(), o.heights_mm.end(), [&](double h) { return h < work.bottom_mm + 1e-6; });
        loaded.push_back({&o, extremesOf(o), breaksThrough});
    }
    const Worst nominal = worstOf(work, work.clamps, 0, loaded, task);
    if (!nominal.operation) return check;
    const double least = worstOf(work, work.clamps, 1, loaded, task).safety.least();
    const double most = worstOf(work, work.clamps, -1, loaded, task).safety.least();
    const double value = nominal.safety.least();
    check.safety = Figure::bounded(value, std::min(value, least), std::max(value, most), Unit::none, Origin::computed,
                                   "friction, clamp force and cutting force at their bounds against each other");
    check.tool = nominal.operation->tool;
    check.kind = nominal.operation->kind;
    check.at = nominal.at;
    check.load = nominal.load;
    check.way = nominal.safety.lift <= nominal.safety.turn                 ? WayLoose::lifts
                : nominal.safety.slide <= nominal.safety.turn * (1 + 1e-6) ? WayLoose::slides
                                                                           : WayLoose::turns;
    check.carried = value * (check.load.sideways_N > 0      ? check.load.sideways_N
                             : check.way == WayLoose::lifts ? std::abs(check.load.lift_N)
                                                            : std::abs(check.load.torque_Nmm));
    if (check.holds() || !withRemedy) return check;
    const auto isEnough = [&](int clamps) {
        return worstOf(work, clamps, 0, loaded, task).safety.least() >= kHoldingAsked &&
               worstOf(work, clamps, 1, loaded, task).safety.least() >= 1;
    };
    if (work.method->kind == WorkholdingKind::clamps)
        for (int n = work.clamps + 1; n <= kMostClamps && check.clampsNeeded == 0; ++n)
            if (isEnough(n)) check.clampsNeeded = n;
    if (work.method->kind != WorkholdingKind::area && value > 0 && least > 0) {
        // Grip and press grow with the force alike, and so does what they carry.
        const double factor = std::max(kHoldingAsked / value, 1 / least);
        check.forceNeeded_N = factor * work.method->force.value;
    }
    return check;
}

TabCheck checkTabs(const OperationPlan& plan, const StockMaterial& material, double margin_mm, double thickness_mm,
                   double allowance_mm) {
    TabCheck check;
    check.tabs = plan.tabs;
    double widest = 0;
    for (const Operation& o : plan.operations)
        if (o.kind == OperationKind::outline || o.kind == OperationKind::outline_finish) {
            check.force_N = std::max(check.force_N, o.cutting.force_N.high);
            widest = std::max(widest, o.tool->diameter_mm);
        }
    check.web_mm = margin_mm - widest - allowance_mm;
    const bool metal = isMetal(material.group);
    check.width_mm = metal ? kMetalTab_mm : kSoftTab_mm;
    const double most = std::max(kLeastTab_mm, std::min(metal ? 1.5 : 3, thickness_mm / 2));
    check.height_mm = kLeastTab_mm;
    const bool isLayered = material.group == StockGroup::panel || material.group == StockGroup::laminate;
    check.isStrengthKnown = material.shearStrength || !isLayered;
    if (!check.isStrengthKnown || check.web_mm < kLeastWeb_mm) return check;
    const double shear_MPa = material.shearStrength ? material.shearStrength->low : 0.577 * material.yieldStrength.low;
    const auto carries = [&] { return tabShear_N(check.tabs, check.width_mm, check.height_mm, shear_MPa); };
    while (carries() < kHoldingAsked * check.force_N && check.height_mm < most - 1e-9)
        check.height_mm = std::min(most, check.height_mm + kTabStep_mm);
    check.carries_N = carries();
    return check;
}

}  // namespace waybench::machined
